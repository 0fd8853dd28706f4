"""The letters that mark a standing which rests on a waiver or an extension."""

from collections.abc import Mapping
from typing import Final

from crewtrack.engine.standings import Roster, Standing
from crewtrack.prints import palette
from crewtrack.prints.pieces import Area, Piece, Words
from crewtrack.prints.wrapping import Style

WAIVER: Final = "W"
EXTENSION: Final = "E"
UNKNOWN: Final = "R"
"""For a key of which the roster does not tell the kind."""
_LETTERS: Final = {"waiver": WAIVER, "extension": EXTENSION}


def relief_letters(roster: Roster) -> dict[str, str]:
    """The letter of each waiver or extension, by its key."""
    return {relief.key: _LETTERS.get(relief.kind, UNKNOWN) for relief in roster.reliefs}


def letters_of(standing: Standing, letters: Mapping[str, str]) -> str:
    """W where the standing rests on a waiver, E on an extension, WE on both."""
    found = {letters.get(key, UNKNOWN) for key in standing.by_waiver}
    return "".join(letter for letter in (WAIVER, EXTENSION, UNKNOWN) if letter in found)


def tag(letters: str, style: Style) -> Piece:
    """The letters in a thin frame, to stand on the line of a text set in ``style``."""
    small = Style("strong", style.size * 0.8, palette.INK)
    around = style.size * 0.16
    width = tag_width(letters, style)
    frame = Area(0, style.ascent - style.size * 0.76, width, style.size * 0.88, palette.INK, 0.5)
    words = Words(around, style.ascent - style.size * 0.03, letters, small)
    return Piece(style.leading, (frame, words))


def tag_width(letters: str, style: Style) -> float:
    """From the frame's left edge to its right one."""
    return Style("strong", style.size * 0.8, palette.INK).width(letters) + style.size * 0.32
