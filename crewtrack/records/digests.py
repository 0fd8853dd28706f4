"""What is digested of each row: its canonical line and the SHA-256 of that.

The line is the RFC 8785 form of ``{"kind": …, "revision": …, "row": {…}}``, where the row holds
the kind's columns by their names in the files, references as keys, dates and instants in
ISO 8601 with the offset as entered, and nothing for what was not recorded (so that a column
that is added later changes no digest). Where the fact is struck out, and only there, it ends with
``"struck": true``.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cache
from hashlib import sha256
from typing import Any, Protocol

from crewtrack import facts
from crewtrack.facts import Kind, Row
from crewtrack.records.canonical import Json, canonical, number, string, utf16, whole
from crewtrack.records.tables import EDITIONS

NO_DIGEST = "0" * 64
"""Stands for the act before the first one."""


def _day(value: Any) -> str:
    return f'"{date.isoformat(value)}"'


def _instant(value: Any) -> str:
    return f'"{datetime.isoformat(value, timespec="seconds")}"'


def _words(value: Any) -> str:
    return f"[{','.join(map(string, value))}]"


def _written(column: facts.Column) -> Callable[[Any], str]:
    match column.type:
        case facts.Day():
            return _day
        case facts.Instant():
            return _instant
        case facts.Whole():
            return whole
        case facts.Number():
            return number
        case facts.Choices():
            return _words
        case _:
            return string


class LineWriter(Protocol):
    """A function from a revision number and a row to the canonical line; ``struck`` where the
    revision strikes the fact out."""

    def __call__(self, revision: int, row: Row, struck: bool = False, /) -> str: ...


@cache
def line_writer(kind: Kind) -> LineWriter:
    """The function that writes a kind's lines.

    TypeError or ValueError for a value that is not of its column's type.
    """
    order = sorted(range(len(kind.columns)), key=lambda index: utf16(kind.columns[index].name))
    members = [
        (index, f"{string(kind.columns[index].name)}:", _written(kind.columns[index]))
        for index in order
    ]
    head = f'{{"kind":{string(kind.name)},"revision":'
    several = any(isinstance(column.type, facts.Choices) for column in kind.columns)

    def line(revision: int, row: Row, struck: bool = False, /) -> str:
        if several:
            row = tuple([None if value == () else value for value in row])
        row_members = [
            name + written(value)
            for index, name, written in members
            if (value := row[index]) is not None
        ]
        tail = ',"struck":true' if struck else ""
        return f'{head}{whole(revision)},"row":{{{",".join(row_members)}}}{tail}}}'

    return line


def edition_line(edition: str, effective: date, source: str) -> str:
    """The canonical line of an edition of the standard."""
    row: Json = {"edition": edition, "effective": effective.isoformat(), "source": source}
    return canonical({"kind": EDITIONS, "revision": 1, "row": row})


def digest(line: str) -> bytes:
    """SHA-256 of a canonical text; UnicodeEncodeError (a ValueError) for a lone surrogate."""
    return sha256(line.encode()).digest()


@dataclass(slots=True)
class Tally:
    """The digests of one act's rows of one kind, added in the order of their ids."""

    count: int = 0
    _sum: Any = field(default_factory=sha256)

    def add(self, digests: list[bytes]) -> None:
        """Take in the digests of further rows."""
        self.count += len(digests)
        self._sum.update(b"".join(digests))

    def told(self) -> Json:
        """As the act records it."""
        return {"count": self.count, "digest": self._sum.hexdigest()}
