"""How large the roster's grid is set, and how many qualifications stand abreast.

The type is as large as the number of qualifications allows; below a least size they go on further
sheets instead, as evenly as can be. All in points.
"""

from dataclasses import dataclass
from math import ceil
from typing import Final

from crewtrack.prints import palette
from crewtrack.prints.wrapping import Style

SIZES: Final = (8.5, 8.0, 7.5, 7.0, 6.5)
_WIDEST_COLUMN: Final = 110.0
_WIDEST_PERSON: Final = 230.0
_PERSON_IN_EMS: Final = 14.5
_DATE: Final = "2028-08-28"
_WORDS: Final = ("current", "lapsed", "training")
_LONGEST: Final = "stood-down"


@dataclass(frozen=True, slots=True)
class Gauge:
    """The grid's measures: the type's size, the widths of the person's column and of each
    qualification's, and the number of those on one sheet. ``worded`` says that there is room
    for "through" and "since" before a date."""

    size: float
    person: float
    column: float
    across: int
    worded: bool

    @property
    def sign(self) -> float:
        return self.size * 0.88

    @property
    def indent(self) -> float:
        """From a cell's left edge to its words, past the shape."""
        return self.size * 1.24

    @property
    def gutter(self) -> float:
        return self.size * 0.55

    @property
    def room(self) -> float:
        """For a cell's words."""
        return self.column - self.indent - self.gutter

    def style(self, *, strong: bool = False, ink: str = palette.INK) -> Style:
        return Style("strong" if strong else "plain", self.size, ink)


def gauge(qualifications: int, width: float) -> Gauge:
    """The measures for a grid of so many qualifications on paper with ``width`` between its
    margins."""
    sheets = max(1, ceil(qualifications / _across(SIZES[-1], width)))
    across = max(1, ceil(qualifications / sheets))
    size = _size(across, width)
    column = min(_WIDEST_COLUMN, (width - _PERSON_IN_EMS * size) / across)
    person = min(_WIDEST_PERSON, width - column * across)
    worded = column >= _column(size, f"through {_DATE}")
    return Gauge(size, person, column, across, worded)


def _size(across: int, width: float) -> float:
    """The largest size at which so many columns stand abreast and the longest word takes one
    line; where there is none, it takes two, and the largest at which the dates fit."""
    fits = (
        size for text in (_LONGEST, _DATE) for size in SIZES if _across(size, width, text) >= across
    )
    return next(fits)


def _across(size: float, width: float, text: str = _DATE) -> int:
    """How many columns, each just wide enough for a text, stand beside the person's."""
    return int((width - _PERSON_IN_EMS * size) // _column(size, text))


def _column(size: float, text: str) -> float:
    """The least width of a column: its shape, the widest of what stands beside it, its gutter."""
    bare = Gauge(size, 0.0, 0.0, 1, worded=False)
    words = (bare.style(strong=True).width(word) for word in _WORDS)
    return bare.indent + max(bare.style().width(text), *words) + bare.gutter
