"""What fills a window once its record is open: the day line on top, the pages below."""

from PySide6.QtWidgets import QLabel, QTabBar, QVBoxLayout, QWidget

from crewtrack.desk.day_line import DayLine
from crewtrack.desk.menus import Menus
from crewtrack.desk.page import Page
from crewtrack.desk.pages import PEOPLE, PLACES, SORTIES, Pages
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.troubles import show_sentence
from crewtrack.screens.language import say

_DRAFTS = (("sortie", SORTIES), ("signoff", PEOPLE), ("said", SORTIES))
"""What may wait half typed, and on which page it is offered; the page is not made to ask it."""
_TOLD_MS = 15_000
"""How long a sentence stays in the status line."""


class Workspace(QWidget):
    """The day line, the bar of pages, and the page that is shown."""

    def __init__(self, window: Shell, state: State, theme: Theme) -> None:
        super().__init__(window)
        self.state = state
        self._window = window
        self._who = ""
        self.day_line = DayLine(state, theme)
        self.pages = Pages(state, theme)
        self.pages.made.connect(self._joined)
        self.bar = QTabBar()
        self.bar.setAccessibleName(say("Pages"))
        self.bar.setDrawBase(False)
        self.bar.setExpanding(False)
        for title in self.pages.titles():
            self.bar.addTab(title)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.day_line)
        layout.addWidget(self.bar)
        layout.addWidget(self.pages, 1)
        self._marks = QLabel()
        self._marks.setProperty("tone", "quiet")
        window.statusBar().addPermanentWidget(self._marks)
        state.moved.connect(self._mark)
        state.told.connect(self._tell)
        state.failed.connect(self._failed)
        self.destroyed.connect(self._marks.deleteLater)
        day_actions = tuple(self.day_line.actions())
        self.menus = Menus(window, state, self.pages, day_actions, self.go_to_page)
        self.bar.currentChanged.connect(self._show_page)
        self._mark()
        self._show_page(0)
        self.pages.make_the_rest()

    def unsaved(self) -> str:
        """What would be lost by leaving, of all pages; empty for nothing."""
        return "\n".join(filter(None, (page.unsaved() for page in self.pages.already_made())))

    def place(self) -> str:
        """Which page is shown, by a name that is the same in every language."""
        return PLACES[self.bar.currentIndex()].name

    def go_to_place(self, place: str) -> None:
        """Show the page of that name; where there is none, the one on which something that was
        being typed waits, else the first."""
        names = [place.name for place in PLACES]
        self.go_to_page(names.index(place) if place in names else self._with_draft())

    def go_to_page(self, number: int) -> None:
        """Show a page and put the focus into it."""
        self.bar.setCurrentIndex(number)
        self.pages.page(number).take_focus()

    def show_person(self, person: str, qualification: str) -> None:
        """Open a person's books, at a qualification where one is named."""
        self.go_to_page(PEOPLE)
        self.pages.page(PEOPLE).show_person(person, qualification)

    def show_evidence(self, person: str, kind: str, key: str) -> None:
        """Open a sign-off, a certificate, a waiver among a person's books."""
        self.show_person(person, "")
        self.pages.page(PEOPLE).show_evidence(kind, key)

    def show_sortie(self, key: str) -> None:
        """Open a sortie."""
        self.go_to_page(SORTIES)
        self.pages.page(SORTIES).show_sortie(key)

    def start_sign_off(self, person: str, task: str, sortie: str) -> None:
        """Open the sign-off form, with what is known already."""
        self.pages.page(PEOPLE).start_sign_off(person, task, sortie)

    def _with_draft(self) -> int:
        drafts = self.state.drafts
        waiting = (page for name, page in _DRAFTS if drafts.load(name) is not None)
        return next(waiting, 0)

    def _joined(self, page: Page) -> None:
        page.open_person.connect(self.show_person)
        page.open_sortie.connect(self.show_sortie)
        page.open_evidence.connect(self.show_evidence)
        page.sign_off.connect(self.start_sign_off)
        self.day_line.days_shown.connect(page.show_days)
        page.show_days(self.day_line.days)

    def _show_page(self, number: int) -> None:
        page = self.pages.show_page(number)
        self.menus.show_page(page.title(), page.page_actions())

    def _tell(self, told: str) -> None:
        self._window.statusBar().showMessage(told, _TOLD_MS)

    def _failed(self, told: str) -> None:
        show_sentence(self, told)

    def _mark(self) -> None:
        snapshot, session = self.state.snapshot, self.state.office.session
        if session is not None:
            self._who = f"{session.name} ({session.person})"
        told = say(
            "{author} · edition {edition} · journal {digest}",
            author=self._who or self.state.author,
            edition=snapshot.standard(self.state.day).edition,
            digest=snapshot.head.digest[:12],
        )
        self._marks.setText(told)
        self._marks.setAccessibleName(told)
