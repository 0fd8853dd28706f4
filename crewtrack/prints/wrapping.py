"""Lines that fit a width: by words, then by letters, and smaller before there are too many.

Nothing is ever cut off. Widths and sizes are in points.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from crewtrack.prints.fonts import Face, measure

LEADING = 1.2
ASCENT = 0.93
_STEP = 0.25
_WORDS = re.compile(r"\S+\s*")
_PARTS = re.compile(r".+?(?:(?<=[^\W\d_])[-/](?=[^\W\d_])|$)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Style:
    """How a text is set. ``leading`` is the distance between baselines, ``ascent`` that from the
    top of a line to its baseline."""

    face: Face
    size: float
    ink: str

    @property
    def leading(self) -> float:
        return self.size * LEADING

    @property
    def ascent(self) -> float:
        return self.size * ASCENT

    def width(self, text: str) -> float:
        return measure(text, self.face, self.size)


@lru_cache(maxsize=16384)
def wrap(text: str, style: Style, width: float) -> tuple[str, ...]:
    """The text in lines no wider than ``width``; at least one line, perhaps empty.

    Lines break at white space. A word that is wider than the line is broken after a hyphen or
    slash between its letters (so that dates and keys stay whole), failing that anywhere.
    """
    lines: list[str] = []
    line = ""
    for word in _WORDS.findall(text):
        if style.width(line + word.rstrip()) <= width:
            line += word
            continue
        if line:
            lines.append(line.rstrip())
        *whole, line = _pieces(word, style, width)
        lines += whole
    return (*lines, line.rstrip())


def _pieces(word: str, style: Style, width: float) -> Iterator[str]:
    """A word in pieces no wider than ``width``."""
    piece = ""
    for part in _parts(word, style, width):
        if piece and style.width((piece + part).rstrip()) > width:
            yield piece
            piece = ""
        piece += part
    yield piece


def _parts(word: str, style: Style, width: float) -> Iterator[str]:
    """A word in its parts between hyphens; one that is wider than ``width`` letter by letter,
    each with its combining marks."""
    for part in _PARTS.findall(word):
        if style.width(part.rstrip()) <= width:
            yield part
            continue
        letter = ""
        for character in part:
            if letter and not (character.isspace() or unicodedata.combining(character)):
                yield letter
                letter = ""
            letter += character
        yield letter


def balanced(text: str, style: Style, width: float) -> tuple[str, ...]:
    """The text in as many lines as ``wrap`` makes of it, and those as even as can be."""
    lines = wrap(text, style, width)
    words = _WORDS.findall(text)
    narrow = max((style.width(word.rstrip()) for word in words), default=0.0)
    wide = width
    while wide - narrow > 0.5:
        middle = (narrow + wide) / 2
        even = len(wrap(text, style, middle)) == len(lines)
        narrow, wide = (narrow, middle) if even else (middle, wide)
    return wrap(text, style, wide)


def fitted(
    text: str, style: Style, width: float, *, lines: int, least: float
) -> tuple[Style, tuple[str, ...]]:
    """The text at the largest size, from the style's own down to ``least``, at which it takes no
    more than ``lines`` lines and breaks no word but after a hyphen; failing that, at ``least`` in
    as many lines as it takes."""
    size = style.size
    while size >= least:
        smaller = replace(style, size=size)
        if _unbroken(text, smaller, width) and len(wrap(text, smaller, width)) <= lines:
            return smaller, wrap(text, smaller, width)
        size -= _STEP
    smallest = replace(style, size=least)
    return smallest, wrap(text, smallest, width)


def _unbroken(text: str, style: Style, width: float) -> bool:
    parts = (part.rstrip() for word in _WORDS.findall(text) for part in _PARTS.findall(word))
    return all(style.width(part) <= width for part in parts)
