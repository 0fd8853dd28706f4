"""One fact named in a single text, and read back: the values of its key with `` + `` between.

A word of a key that would be taken for the mark between two values is written with a backslash
before it, and loses it again: every key comes back as it was. Keys have no blanks at their ends.
"""

import re
from collections.abc import Iterator
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell
from crewtrack.cells import cell_text, read_cell
from crewtrack.facts import Kind
from crewtrack.office.given_rows import FactKey

_MARK: Final = "+"
_BETWEEN: Final = f" {_MARK} "
_ALIKE: Final = re.compile(r"\\*\+")
_NO_ZONE: Final = ZoneInfo("UTC")
"""Keys hold no instants."""


def fact_text(key: FactKey) -> str:
    """A fact's key as one text: ``S-0193 + K-07 + hand-recovery``."""
    return _BETWEEN.join(_escaped(cell_text(value)) for value in key)


def fact_key(kind: Kind, text: str) -> FactKey | None:
    """The key that a text stands for; None where it can't be one of that kind."""
    parts = tuple(_parts(text))
    if len(parts) != len(kind.key):
        return None
    columns = [kind.columns[kind.index(name)] for name in kind.key]
    try:
        return tuple(
            read_cell(column, part, _NO_ZONE) for column, part in zip(columns, parts, strict=True)
        )
    except BadCell:
        return None


def _escaped(part: str) -> str:
    return " ".join(f"\\{word}" if _ALIKE.fullmatch(word) else word for word in part.split(" "))


def _parts(text: str) -> Iterator[str]:
    words: list[str] = []
    for word in text.split(" "):
        if word == _MARK:
            yield " ".join(words)
            words = []
        else:
            words.append(word[1:] if _ALIKE.fullmatch(word) else word)
    yield " ".join(words)
