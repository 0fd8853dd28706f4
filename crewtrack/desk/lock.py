"""Locking a window: all of it is veiled, and the sign-in page lies over it.

Nothing is closed: what was typed in forms and open panels stays. The page is a panel without a
frame, modal to the window, so that it comes before panels that are open there already; another
record's window goes on. The name that a window's title gives away goes too.
"""

from collections.abc import Callable, Iterator

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QApplication, QDialog, QVBoxLayout, QWidget

from crewtrack.desk.progress_dialog import ProgressDialog
from crewtrack.desk.shell import Shell
from crewtrack.desk.sign_in_page import SignInPage
from crewtrack.desk.veil import Veil


class Cover(QDialog):
    """The sign-in page over a window, as large as that."""

    def __init__(self, window: Shell, page: SignInPage) -> None:
        super().__init__(window, Qt.WindowType.FramelessWindowHint)
        self._window = window
        self.page = page
        self.setWindowTitle(window.windowTitle())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(page)
        window.installEventFilter(self)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Stay over the window."""
        if event.type() in (QEvent.Type.Move, QEvent.Type.Resize):
            self._fit()
        return False

    def reject(self) -> None:
        """Escape opens nothing."""

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """To close the page is to ask for the whole window to be closed."""
        event.ignore()
        if self.page.close_button.isVisible():
            self.page.leaving.emit()

    def _fit(self) -> None:
        self.setGeometry(self._window.geometry())


class Lock:
    """Locks one window. ``opened`` is called when somebody has signed in at the cover."""

    def __init__(self, window: Shell, opened: Callable[[], object]) -> None:
        self._window = window
        self._opened = opened
        self._veils: list[Veil] = []
        self.cover: Cover | None = None

    @property
    def on(self) -> bool:
        """Whether the window is locked."""
        return self.cover is not None

    def put_on(self, page: SignInPage) -> None:
        """Lock it, with this page to open it."""
        while (popup := QApplication.activePopupWidget()) is not None:
            popup.close()
        panels = [*panels_over(self._window)]
        self._veils = [Veil(top) for top in (*panels, self._window)]
        for action in self._window.menuBar().actions():
            action.setEnabled(False)
        page.close_button.setVisible(not panels)  # who waits for a panel can't be left behind
        page.signed_in.connect(lambda: self._opened())
        self.cover = Cover(self._window, page)
        self.cover.setWindowModality(Qt.WindowModality.WindowModal)
        self.cover.show()
        self.cover.activateWindow()
        page.setFocus()

    def take_off(self) -> None:
        """Show everything as it was."""
        self.uncover()
        for action in self._window.menuBar().actions():
            action.setEnabled(True)
        for veil in reversed(self._veils):
            veil.lift()
        self._veils = []

    def give_up(self) -> None:
        """Leave the panels, so that somebody else can begin; what keeps drafts has kept them."""
        panels = [veil.top for veil in self._veils if veil.top is not self._window]
        self.take_off()
        for panel in reversed(panels):
            leave = getattr(panel, "let_be", None)
            if leave is not None:
                leave()
            elif isinstance(panel, QDialog):
                QDialog.done(panel, QDialog.DialogCode.Rejected)
            else:
                panel.close()

    def uncover(self) -> None:
        """Take the page away, with all else still veiled."""
        if self.cover is not None:
            self._window.removeEventFilter(self.cover)
            self.cover.hide()
            self.cover.deleteLater()
            self.cover = None


def panels_over(window: QWidget) -> Iterator[QWidget]:
    """The panels of a window that are open, in no order."""
    for top in QApplication.topLevelWidgets():
        if top is not window and top.isVisible() and isinstance(top, QDialog):
            above = top.parentWidget()
            while above is not None and above is not window:
                above = above.parentWidget()
            if above is window:
                yield top


def works_long(window: QWidget) -> bool:
    """Whether long work is going on over a window, which is to end first: what it tells at its
    end would be seen."""
    return any(isinstance(panel, ProgressDialog) for panel in panels_over(window))
