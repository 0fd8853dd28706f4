"""The typeface of every print: Roboto's static faces, embedded, so that any name in Latin, Greek
or Cyrillic letters prints and can be searched.

A text is first made *printable*: composed (Unicode NFC), white space made single spaces, and what
the typeface has no glyph for replaced by ``REPLACEMENT``, which is visible. ``lacking`` tells which
characters those were, so that the sheet can say so. Sizes and widths are in points (1/72 inch).
"""

import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib.resources import files
from io import BytesIO
from typing import Final, Literal

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

Face = Literal["plain", "strong"]
FACES: Final[dict[Face, str]] = {"plain": "Roboto-Regular", "strong": "Roboto-Medium"}
REPLACEMENT: Final = "\ufffd"


@cache
def _loaded(face: Face) -> TTFont:
    name = FACES[face]
    source = files("font_roboto").joinpath("files", f"{name}.ttf").read_bytes()
    font = TTFont(name, BytesIO(source))
    pdfmetrics.registerFont(font)
    return font


def font_name(face: Face) -> str:
    """The name under which the PDF library knows a face, loading it at first use."""
    _loaded(face)
    return FACES[face]


@cache
def _glyphs() -> frozenset[str]:
    """The characters that every face has a glyph for."""
    maps = [_loaded(face).face.charToGlyph for face in FACES]
    common = set.intersection(*({code for code, glyph in m.items() if glyph} for m in maps))
    return frozenset(chr(code) for code in common if code >= 0x20)


def _spelled(character: str) -> str:
    """The character, else the letters and marks it is made of, else the replacement."""
    if character in _glyphs():
        return character
    parts = unicodedata.normalize("NFD", character)
    return parts if all(part in _glyphs() for part in parts) else REPLACEMENT


def _composed(text: str) -> str:
    return " ".join(unicodedata.normalize("NFC", text).split())


@lru_cache(maxsize=16384)
def printable(text: str) -> str:
    """The text as it will stand on paper."""
    return "".join(map(_spelled, _composed(text)))


def lacking(texts: Iterable[str]) -> tuple[str, ...]:
    """The characters of the texts that the typeface lacks, in the order of their code points."""
    characters = {character for text in texts for character in _composed(text)}
    return tuple(sorted(c for c in characters - {REPLACEMENT} if REPLACEMENT in _spelled(c)))


@lru_cache(maxsize=65536)
def measure(text: str, face: Face, size: float) -> float:
    """The width of a text as it will stand on paper."""
    return float(_loaded(face).stringWidth(printable(text), size))
