"""Text in columns of a fixed pitch: how wide it is, padded, cut and wrapped.

Widths are in columns of a terminal: a letter of a wide script takes two, a mark that joins the
letter before it none.
"""

import unicodedata
from collections.abc import Iterable, Sequence

GAP = "  "


def cells(text: str) -> int:
    """How many columns a text takes."""
    if text.isascii():
        return len(text)
    return sum(_cells_of(mark) for mark in text)


def _cells_of(mark: str) -> int:
    if unicodedata.combining(mark) or unicodedata.category(mark) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(mark) in ("W", "F") else 1


def padded(text: str, wide: int) -> str:
    """The text with blanks after it up to a width; as it is where it is wider."""
    return text + " " * (wide - cells(text))


def cut(text: str, wide: int) -> str:
    """The text, cut to a width, with an ellipsis where something is left out."""
    if cells(text) <= wide:
        return text
    kept, used = "", 0
    for mark in text:
        used += _cells_of(mark)
        if used > wide - 1:
            break
        kept += mark
    return kept.rstrip() + "…"


def wrapped(text: str, wide: int | None, indent: str = "") -> list[str]:
    """The text in lines of at most ``wide`` columns, each with the indent before it; a word that
    is wider stands whole. None: one line."""
    if wide is None:
        return [indent + text]
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and cells(indent) + cells(longer) > wide:
            lines.append(indent + line)
            line = word
        else:
            line = longer
    return [*lines, indent + line]


def hung(text: str, wide: int | None, indent: str = "") -> list[str]:
    """A text in lines of at most ``wide`` columns, all but the first further in."""
    lines = wrapped(text, wide if wide is None else wide - len(GAP), indent)
    return [lines[0], *(GAP + line for line in lines[1:])]


def aligned(rows: Iterable[Sequence[str]]) -> list[str]:
    """Rows of texts as lines in which each column starts at one place; no blanks at the ends."""
    table = [tuple(row) for row in rows]
    wide = [max(map(cells, column)) for column in zip(*table, strict=True)]
    return [
        GAP.join(padded(text, width) for text, width in zip(row, wide, strict=True)).rstrip()
        for row in table
    ]


def on_one_line(text: str) -> str:
    """A text of several lines on one, as safe as below, with no blanks but those between words."""
    return safe(" ".join(text.split()))


def safe(text: str) -> str:
    """A text on one line, with nothing in it that a terminal would act on."""
    return "".join(mark if mark.isprintable() else " " for mark in text)
