"""The window: it is on the screen before anything heavy is loaded, and is filled when the record
has been read."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QLocale, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from crewtrack.desk import theme as themes
from crewtrack.desk.asking import agreed
from crewtrack.desk.languages import speak
from crewtrack.desk.look import take_room
from crewtrack.desk.settings import Settings
from crewtrack.desk.shell import Shell
from crewtrack.desk.work import Progress, Work
from crewtrack.screens.language import say

if TYPE_CHECKING:
    from crewtrack.desk.guard import Guard
    from crewtrack.desk.start_page import StartPage
    from crewtrack.desk.state import State
    from crewtrack.desk.workspace import Workspace

NAME = "crewtrack"


class Window(Shell):
    """One window on one record."""

    def __init__(self, settings: Settings, another: Callable[[Path | None], None]) -> None:
        super().__init__(settings, another)
        self.state: State | None = None
        self.workspace: Workspace | None = None
        self.start_page: StartPage | None = None
        self.guard: Guard | None = None
        self._work: Work | None = None
        self._leaving = False
        self.setWindowTitle(NAME)
        self.wear.connect(self.dress)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        line = self.fontMetrics().lineSpacing()
        take_room(self, 76 * line, 50 * line)
        self.restoreGeometry(settings.shape("window"))
        self.setCentralWidget(_waiting(""))

    @property
    def shows_record(self) -> bool:
        """Whether the pages of a record are there, in sight or veiled."""
        return self.workspace is not None

    def open_record(self, record: Path) -> None:
        """Read a record, off the screen's thread, and show it."""
        self.setCentralWidget(_waiting(say("Reading {record}…", record=record.name)))

        def read(progress: Progress) -> Any:
            from crewtrack.desk import opening  # heavy: SQL, astronomy, paper

            return opening.opened(record, progress)

        self._work = Work(read, self)
        self._work.done.connect(self._fill)
        self._work.failed.connect(lambda error: self._not_opened(record, error))
        self._work.start()

    def offer(self, told: str = "", damaged: Path | None = None, best: Path | None = None) -> None:
        """Offer to open, make or try a record; ``told`` says why none is open, ``damaged`` is the
        one for which a backup would be the cure, and ``best`` the best of its backups."""
        from crewtrack.desk.start_page import StartPage

        self._leave_workspace()
        self.start_page = StartPage(self.settings, self.theme, told, damaged, best)
        self.start_page.chosen.connect(self.open_record)
        self.setCentralWidget(self.start_page)
        self.start_page.setFocus()

    def dress(self) -> None:
        """Show everything anew in the look and the language of the settings; what is typed in a
        form is kept as a draft."""
        if self.state is not None and self.may_leave():
            speak(self.settings.language or QLocale.system().name())
            themes.apply(_application(), self.theme)
            self.build()

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Ask once where something was typed and not saved; it is kept as a draft either way.
        Then back the record up."""
        acting = self.state is not None and self.state.acting
        locked = self.guard is not None and self.guard.lock.on
        if self._leaving or acting or not (locked or self.may_leave()):
            event.ignore()
            return
        self._back_up()
        self.settings.keep_shape("window", self.saveGeometry())
        if self._work is not None:
            self._work.wait()
        self._leave_workspace()
        event.accept()

    def _back_up(self) -> None:
        if self.state is not None:
            from crewtrack.desk import leaving  # heavy: SQL

            self._leaving = True
            try:
                leaving.back_up(self, self.state.office)
            finally:
                self._leaving = False

    def _fill(self, read: Any) -> None:
        from crewtrack.desk.guard import Guard
        from crewtrack.desk.state import State
        from crewtrack.office.unnamed import default_author

        office, snapshot = read
        author = self.settings.author or default_author()
        self.settings.opened(office.record.path)
        self.state = State(office, snapshot, author)
        self.guard = Guard(self, self.state)
        for signal, slot in (
            (self.locking, self.guard.lock_now),
            (self.signing_out, self.guard.sign_out),
            (self.idle_chosen, self.guard.count_anew),
        ):
            signal.connect(slot)
        self.guard.begin()
        self.state.watch()
        self._end_work()

    def build(self) -> None:
        """Show the record to whoever acts, on the page that was shown before."""
        from crewtrack.desk.workspace import Workspace

        if self.state is None:
            return
        place = self.workspace.place() if self.workspace is not None else ""
        self.workspace = Workspace(self, self.state, self.theme)
        self.setCentralWidget(self.workspace)
        self.setWindowTitle(f"{self.state.snapshot.unit} — {NAME}")
        self.workspace.go_to_place(place)
        self.workspace.go_to_page(self.workspace.bar.currentIndex())

    def clear(self) -> None:
        """Show nothing of the record any more, though it stays open."""
        self.workspace = None
        self.menuBar().clear()
        self.statusBar().clearMessage()
        self.setWindowTitle(NAME)
        self.setCentralWidget(_waiting(""))

    def _not_opened(self, record: Path, error: Exception) -> None:
        from crewtrack.desk.opening import Damaged
        from crewtrack.desk.troubles import trouble_told
        from crewtrack.screens.backup_words import whole_backup_told

        self._end_work()
        if isinstance(error, Damaged):
            told = f"{trouble_told(error)}. {whole_backup_told(error.best, error.folder)}"
            self.offer(told, record, error.best)
        else:
            self.offer(trouble_told(error))

    def _end_work(self) -> None:
        if self._work is not None:
            self._work.wait()
            self._work.deleteLater()
            self._work = None

    def keep_typed(self) -> str:
        """Keep what is being typed as drafts; says what that is, empty for nothing."""
        return self.workspace.unsaved() if self.workspace is not None else ""

    def may_leave(self) -> bool:
        """Whether nothing is being typed, or whoever types agrees to leave it as a draft."""
        unsaved = self.keep_typed()
        if not unsaved:
            return True
        more = say("It is kept as a draft, and offered when you come back.")
        return agreed(self, unsaved, say("Leave"), say("Stay"), more)

    def _leave_workspace(self) -> None:
        if self.guard is not None:
            self.guard.close()
        if self.state is not None:
            self.state.close()
        self.state = self.workspace = self.guard = None


def _waiting(told: str) -> QWidget:
    label = QLabel(told)
    label.setAlignment(Qt.AlignmentFlag.AlignCenter)
    label.setProperty("tone", "quiet")
    return label


def _application() -> QApplication:
    application = QApplication.instance()
    assert isinstance(application, QApplication)
    return application
