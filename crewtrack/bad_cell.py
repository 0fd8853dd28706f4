"""What is told of a cell that can't be taken: the value as it can be shown, and a likely cure."""

from collections.abc import Iterable
from difflib import get_close_matches
from itertools import islice

from crewtrack.phrases import phrase

_SHOWN = 40
_MOST_KNOWN = 500
_LONGEST = 80


class BadCell(Exception):
    """A cell can't be taken: ``problem`` says why, with the value, ``cure`` what would be right.

    Caught by whoever read the cell and told as a ``Fault`` with its place and column.
    """

    def __init__(self, problem: str, cure: str = "") -> None:
        super().__init__(problem, cure)
        self.problem = problem
        self.cure = cure


def shown(text: str) -> str:
    """The text between quotes, at most 40 characters of it, with nothing in it that a terminal
    would act on."""
    short = text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"
    return "'" + "".join(map(_safe, short)) + "'"


def _safe(mark: str) -> str:
    if mark.isprintable():
        return mark
    code = ord(mark)
    if 0xDC80 <= code <= 0xDCFF:  # a byte that is no UTF-8, as Python's surrogateescape keeps it
        return f"\\x{code - 0xDC00:02x}"
    return mark.encode("unicode_escape").decode("ascii")


def likely(word: str, known: Iterable[str], end: str = "") -> str:
    """``did you mean 'x'?`` for the nearest of the known words, with an end (``.csv``) that is not
    compared; empty where none is near.

    Among more than 500 words none is looked for: it would take too long, with a fault in every
    row of a long file.
    """
    words = list(islice(known, _MOST_KNOWN + 1))
    if len(words) > _MOST_KNOWN:
        return ""
    plain = {_plain(each): each for each in words}
    near = get_close_matches(_plain(word[:_LONGEST]), plain, n=1, cutoff=0.7)
    return phrase("did you mean '{word}'?", word=plain[near[0]] + end) if near else ""


def _plain(word: str) -> str:
    return word.casefold().replace("_", "-").replace(" ", "-")
