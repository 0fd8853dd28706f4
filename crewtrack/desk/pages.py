"""The pages of a window, each made when it is first needed: what is not shown yet must not keep
the window from showing."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from crewtrack.desk.page import Page
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import later, say

Make = Callable[[State, Theme], Page]


def _board(state: State, theme: Theme) -> Page:
    from crewtrack.desk.board_page import BoardPage

    return BoardPage(state, theme)


def _sorties(state: State, theme: Theme) -> Page:
    from crewtrack.desk.sorties_page import SortiesPage

    return SortiesPage(state, theme)


def _people(state: State, theme: Theme) -> Page:
    from crewtrack.desk.people_page import PeoplePage

    return PeoplePage(state, theme)


def _ahead(state: State, theme: Theme) -> Page:
    from crewtrack.desk.ahead_page import AheadPage

    return AheadPage(state, theme)


def _standard(state: State, theme: Theme) -> Page:
    from crewtrack.desk.standard_page import StandardPage

    return StandardPage(state, theme)


def _record(state: State, theme: Theme) -> Page:
    from crewtrack.desk.record_page import RecordPage

    return RecordPage(state, theme)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a page stands in the bar: a name that is the same in every language, its title in
    English, and how it is made."""

    name: str
    title: str
    make: Make


BOARD, SORTIES, PEOPLE = 0, 1, 2
PLACES: Final = (
    Place("board", later("Board"), _board),
    Place("sorties", later("Sorties"), _sorties),
    Place("people", later("People"), _people),
    Place("ahead", later("Ahead"), _ahead),
    Place("standard", later("Standard"), _standard),
    Place("record", later("Record"), _record),
)
"""In the order of their keys, Alt+1, Alt+2 …"""


class Pages(QStackedWidget):
    """The pages, the shown one on top. ``made`` carries each page when it has come to be."""

    made = Signal(object)

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._theme = theme
        self._made: dict[int, Page] = {}
        self._idle = QTimer(self)
        self._idle.setInterval(0)
        self._idle.timeout.connect(self._make_next)

    def titles(self) -> tuple[str, ...]:
        """The titles of all pages, in their order."""
        return tuple(say(place.title) for place in PLACES)

    def page(self, number: int) -> Page:
        """A page, made now if it was not yet."""
        if number not in self._made:
            page = PLACES[number].make(self._state, self._theme)
            self._made[number] = page
            self.addWidget(page)
            self.made.emit(page)
        return self._made[number]

    def pages(self) -> tuple[Page, ...]:
        """All pages."""
        return tuple(map(self.page, range(len(PLACES))))

    def already_made(self) -> tuple[Page, ...]:
        """The pages that have come to be, in no order."""
        return tuple(self._made.values())

    def show_page(self, number: int) -> Page:
        """Put a page on top."""
        page = self.page(number)
        self.setCurrentWidget(page)
        return page

    def make_the_rest(self) -> None:
        """Make the other pages one by one, whenever nothing else is to be done."""
        self._idle.start()

    def _make_next(self) -> None:
        missing = [number for number in range(len(PLACES)) if number not in self._made]
        if missing:
            self.page(missing[0])
        else:
            self._idle.stop()
