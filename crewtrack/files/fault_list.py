"""The faults of one TOML file, gathered while it is read, and the words they are told in."""

import re
from collections.abc import Iterable
from datetime import date, datetime, time
from difflib import get_close_matches
from itertools import islice
from typing import Final

from crewtrack.errors import Fault
from crewtrack.facts import KEY_LENGTH
from crewtrack.files.toml_lines import KeyPath, find_lines
from crewtrack.phrases import phrase

MOST_FAULTS: Final = 500
"""Of one file: something else is wrong then."""

_TOLD_LENGTH = 60
_MOST_KNOWN = 1000
_BARE = re.compile(r"[^\W_][\w-]*")


class TooMany(Exception):
    """A file has so many faults that reading stops."""


class FaultList:
    """The faults of one file, each at the line of its key path; ``TooMany`` from the last one on
    that is taken.

    The lines are looked for only when the faults are asked for: most files have none.
    """

    def __init__(self, place: str, text: str) -> None:
        self._place = place
        self._text = text
        self._found: list[tuple[KeyPath, tuple[str, str]]] = []

    def __bool__(self) -> bool:
        return bool(self._found)

    def add(self, path: KeyPath, problem: str, cure: str = "") -> None:
        """Note a fault at a key path; the empty path is the file as a whole."""
        self._found.append((path, (problem, cure)))
        if len(self._found) >= MOST_FAULTS:
            raise TooMany

    def in_order(self) -> tuple[Fault, ...]:
        """All of them, in the order of the file."""
        lines = find_lines(self._text)
        placed = [(lines.nearest(path) or 0, path, told) for path, told in self._found]
        placed.sort(key=lambda found: found[0])
        return tuple(
            Fault(f"{self._place}:{line}" if line else self._place, path_in_words(path), *told)
            for line, path, told in placed
        )


def path_in_words(path: KeyPath) -> str:
    """A key path as a reader counts: ``needs[1]`` is the first need."""
    words = (f"[{part + 1}]" if isinstance(part, int) else f".{told_key(part)}" for part in path)
    return "".join(words).removeprefix(".")


def told_key(key: str) -> str:
    """A key as TOML writes it, shortened where it is too long to be one."""
    return key if len(key) <= KEY_LENGTH and _BARE.fullmatch(key) else told(key)


def told(value: object) -> str:
    """A value as a fault repeats it: text in quotes, on one line and not too long."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return repr(value if len(value) <= _TOLD_LENGTH else f"{value[:_TOLD_LENGTH]}…")
        case dict():
            return phrase("a table")
        case list():
            return phrase("a list") if value else phrase("an empty list")
        case int() if abs(value) >= 10**18:
            return phrase("a number of more than 18 digits")
        case datetime() | date() | time() | int() | float():
            return str(value)
        case _:
            return phrase("nothing")


def nearest(word: str, options: Iterable[str]) -> str | None:
    """What somebody probably meant who wrote ``word``, case apart; None where nothing is near, and
    among very many options, where to look would take too long."""
    by_fold = {option.casefold(): option for option in islice(options, _MOST_KNOWN + 1)}
    if len(by_fold) > _MOST_KNOWN:
        return None
    close = get_close_matches(word[:100].casefold(), by_fold, n=1, cutoff=0.6)
    return by_fold[close[0]] if close else None


def did_you_mean(word: str, options: Iterable[str]) -> str:
    """The cure that names the nearest option; empty where none is near."""
    option = nearest(word, options)
    return "" if option is None else phrase("did you mean '{word}'?", word=option)
