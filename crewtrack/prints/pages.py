"""Sections set on pages: what is placed where, and which bookmarks lead there."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from crewtrack.prints.pieces import Piece

_KEPT_ROWS = 2


@dataclass(frozen=True, slots=True)
class Section:
    """Rows under a heading.

    ``opening`` stands once above the first row, ``again`` above the first row of every further
    page; ``top`` above either where it comes first on a page. A section that is ``whole`` moves to
    a new page rather than run over the end of one; any other moves if its first rows would not
    fit.
    """

    bookmark: str
    opening: Piece
    again: Piece
    rows: tuple[Piece, ...]
    whole: bool = False
    top: Piece = Piece()
    gap: float = 18.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece, with its distance from the top of the page's body."""

    y: float
    piece: Piece


@dataclass(frozen=True, slots=True)
class Page:
    """One page's body. ``bookmarks`` are titles with their distance from the body's top."""

    placed: tuple[Placed, ...]
    bookmarks: tuple[tuple[str, float], ...]


@dataclass(slots=True)
class _Filling:
    """The pages so far, the last one still open; ``rooms`` are the heights of the bodies of the
    first page and of all others."""

    rooms: tuple[float, float]
    done: list[Page] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)
    bookmarks: list[tuple[str, float]] = field(default_factory=list)
    y: float = 0.0

    def left(self) -> float:
        return self.rooms[1 if self.done else 0] - self.y

    def turn(self) -> None:
        self.done.append(Page(tuple(self.placed), tuple(self.bookmarks)))
        self.placed, self.bookmarks, self.y = [], [], 0.0

    def head(self, section: Section, heading: Piece) -> None:
        if not self.placed:
            self.put(section.top)
        self.put(heading)

    def put(self, piece: Piece) -> None:
        self.placed.append(Placed(self.y, piece))
        self.y += piece.height


def set_on_pages(sections: Iterable[Section], rooms: tuple[float, float]) -> tuple[Page, ...]:
    """The sections one after the other. ``rooms`` are the heights of the bodies of the first page
    and of all others. A row that is higher than a page runs over its end: rows are to be made
    lower than that."""
    filling = _Filling(rooms)
    for section in sections:
        _put(section, filling)
    filling.turn()
    return tuple(filling.done)


def _put(section: Section, filling: _Filling) -> None:
    if filling.y:
        filling.y += section.gap
        if _needed(section) > filling.left():
            filling.turn()
    filling.bookmarks.append((section.bookmark, filling.y))
    filling.head(section, section.opening)
    for number, row in enumerate(section.rows):
        if number and row.height > filling.left():
            filling.turn()
            filling.head(section, section.again)
        filling.put(row)


def _needed(section: Section) -> float:
    """The height that must be left for the section to start on a page that holds others."""
    rows = section.rows if section.whole else section.rows[:_KEPT_ROWS]
    return section.opening.height + sum(row.height for row in rows)
