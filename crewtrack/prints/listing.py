"""A ruled list: columns of wrapped text under headings, such as the lapse list."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from crewtrack.prints import palette
from crewtrack.prints.pages import Section
from crewtrack.prints.pieces import Piece, Rule, abreast, padded, stacked, written
from crewtrack.prints.wrapping import Style, wrap

TITLE: Final = Style("strong", 12.0, palette.INK)
HEADING: Final = Style("plain", 7.0, palette.QUIET)
CELL: Final = Style("plain", 7.5, palette.INK)
CELL_STRONG: Final = Style("strong", 7.5, palette.INK)
CELL_QUIET: Final = Style("plain", 7.0, palette.QUIET)
_GUTTER: Final = 12.0
_MOST_LINES: Final = 24


@dataclass(frozen=True, slots=True)
class Column:
    """A heading and a width in points."""

    heading: str
    width: float


Cell = Sequence[tuple[str, Style]]
"""The paragraphs of one cell, one below the other."""


@dataclass(frozen=True, slots=True)
class Listing:
    """A titled list. ``remark`` stands beside the title; ``empty`` is said where there is no
    entry."""

    title: str
    remark: str
    columns: tuple[Column, ...]
    entries: tuple[tuple[Cell, ...], ...]
    empty: str

    @property
    def width(self) -> float:
        return sum(column.width for column in self.columns)


def section(listing: Listing) -> Section:
    """The list, its headings repeated on every page; an entry may run over several."""
    heads = _headings(listing) if listing.entries else Piece()
    rows = [piece for entry in listing.entries for piece in _entry(listing, entry)]
    if not rows:
        rows = [padded(written([listing.empty], CELL), 4, 4)]
    return Section(
        listing.title,
        stacked([_title(listing, listing.remark), heads]),
        stacked([_title(listing, "continued"), heads]),
        tuple(rows),
    )


def _title(listing: Listing, remark: str) -> Piece:
    title = written([listing.title], TITLE)
    beside = TITLE.width(listing.title) + 8
    lines = wrap(remark, CELL_QUIET, listing.width - beside)
    line = padded(written(lines, CELL_QUIET), TITLE.ascent - CELL_QUIET.ascent, 0)
    both = padded(abreast([(0, title), (beside, line)]), 0, 4)
    return both if listing.entries else _underlined(both, listing.width)


def _underlined(piece: Piece, width: float) -> Piece:
    rule = Rule(0, piece.height, width, 0.8, palette.STRONG_RULE)
    return Piece(piece.height, (*piece.items, rule))


def _headings(listing: Listing) -> Piece:
    cells = [((column.heading, HEADING),) for column in listing.columns]
    (row,) = _rows(listing, cells)
    return _underlined(padded(row, 0, 3), listing.width)


def _entry(listing: Listing, cells: Sequence[Cell]) -> list[Piece]:
    """One entry, in pieces of a bounded height, with a fine rule under the last."""
    first, *others = _rows(listing, cells)
    *before, last = [padded(first, 3, 0), *others]
    last = padded(last, 0, 3)
    return [*before, Piece(last.height, (*last.items, Rule(0, last.height, listing.width)))]


def _rows(listing: Listing, cells: Sequence[Cell]) -> list[Piece]:
    """An entry's cells side by side, parted after every so many lines."""
    columns = [
        [
            (line, style)
            for text, style in cell
            for line in wrap(text, style, column.width - _GUTTER)
        ]
        for column, cell in zip(listing.columns, cells, strict=True)
    ]
    most = max(map(len, columns))
    return [_row(listing, columns, start) for start in range(0, max(most, 1), _MOST_LINES)]


def _row(listing: Listing, columns: list[list[tuple[str, Style]]], start: int) -> Piece:
    x = 0.0
    placed: list[tuple[float, Piece]] = []
    for column, lines in zip(listing.columns, columns, strict=True):
        part = lines[start : start + _MOST_LINES]
        placed.append((x, stacked(written([line], style) for line, style in part)))
        x += column.width
    return abreast(placed)
