"""How a row of facts lies in its table, and back.

References are put in and out through ``Keys``; what lies in the table is read strictly, so that
two different stored values never read as the same row.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, timezone
from functools import cache, lru_cache
from typing import Any

from crewtrack import facts
from crewtrack.facts import Kind, Row, Value
from crewtrack.records.tables import stored_names

Ids = Mapping[str, Mapping[str, int]]
"""By kind: the entry of each key."""
Keys = Mapping[str, Mapping[int, str]]
"""By kind: the key of each entry."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the columns of a kind lie. ``names`` are its SQL columns, quoted, in the order of the
    kind's columns; ``key`` those of its key, ``key_indexes`` where the key's values stand in a
    row."""

    kind: Kind
    names: tuple[str, ...]
    key: tuple[str, ...]
    key_indexes: tuple[int, ...]

    @property
    def all(self) -> tuple[str, ...]:
        """All SQL columns of the table, in its order."""
        return ("id", "entry", "revision", "act", *self.names, "digest", "struck")

    @property
    def selected(self) -> str:
        """The SQL columns, as a SELECT lists them."""
        return ", ".join(self.names)

    def key_of(self, row: Row) -> tuple[Value, ...]:
        """The key's values in a row."""
        return tuple([row[index] for index in self.key_indexes])


def _quoted(name: str) -> str:
    return f'"{name}"'


@cache
def layout(kind: Kind) -> Layout:
    """The layout of a kind's table."""
    names = [tuple(map(_quoted, stored_names(column))) for column in kind.columns]
    key = [name for column, held in zip(kind.columns, names, strict=True)
           if column.name in kind.key for name in held]  # fmt: skip
    selected = tuple(name for held in names for name in held)
    indexes = tuple(map(kind.index, kind.key))
    return Layout(kind, selected, tuple(key), indexes)


def insertion(table: str, columns: Sequence[str], rows: int) -> str:
    """The statement that puts so many rows into SQL columns of a table."""
    row = f"({', '.join('?' * len(columns))})"
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES {', '.join([row] * rows)}"


def utc_text(instant: datetime) -> str:
    """An aware instant as UTC text of fixed width, whole seconds; ValueError for anything
    finer."""
    offset = instant.utcoffset()
    if instant.microsecond or offset is None:
        raise ValueError(f"{instant} is not a whole second with an offset")
    return f"{(instant.replace(tzinfo=None) - offset).isoformat()}Z"


def offset_minutes(instant: datetime) -> int:
    """The offset of an aware instant in whole minutes; ValueError where there is no such."""
    return _whole_minutes(instant.utcoffset())


@lru_cache(maxsize=2_048)
def _whole_minutes(offset: timedelta | None) -> int:
    if offset is None or offset % timedelta(minutes=1):
        raise ValueError(f"an offset of {offset} is not one in whole minutes")
    return offset // timedelta(minutes=1)


@lru_cache(maxsize=2_048)
def _zone(minutes: int) -> timezone:
    return timezone(timedelta(minutes=minutes))


def encoded(kind: Kind, ids: Ids, rows: Iterable[Row]) -> list[Sequence[Any]]:
    """The SQL columns in which rows lie, in the order of ``Layout.names``; KeyError for a
    reference to a fact that is not there."""
    columns: list[Sequence[Any]] = []
    for column, values in zip(kind.columns, zip(*rows, strict=True), strict=True):
        columns += _put(column, ids, values)
    return columns


def _put(column: facts.Column, ids: Ids, values: Sequence[Any]) -> tuple[Sequence[Any], ...]:
    """The SQL columns of one column."""
    match column.type:
        case facts.Reference(kind):
            return (_each(ids[kind].__getitem__, values),)
        case facts.Day():
            return (_each(date.isoformat, values),)
        case facts.Instant():
            return _each(utc_text, values), _each(offset_minutes, values)
        case facts.Number():
            return (_each(float, values),)
        case facts.Choices():
            return (_each(_joined, values),)
        case _:
            return (values,)


def _each(put: Callable[[Any], Any], values: Sequence[Any]) -> list[Any]:
    return [None if value is None else put(value) for value in values]


def _joined(words: tuple[str, ...]) -> str | None:
    return ";".join(words) or None


def get_date(text: str) -> date:
    """A date from its column."""
    value = date.fromisoformat(text)
    if value.isoformat() != text:
        raise ValueError(f"{text!r} is no date")
    return value


def get_instant(text: str, offset: int) -> datetime:
    """An instant with its offset, from its two columns."""
    instant = datetime.fromisoformat(text)
    if utc_text(instant) != text:
        raise ValueError(f"{text!r} is no instant")
    return instant.astimezone(_zone(offset))


def _get_choices(text: str) -> tuple[str, ...]:
    return tuple(text.split(";"))


def _get(column: facts.Column, keys: Keys) -> Callable[[Any], Value] | None:
    """How a value that is there is read; None where it is what lies in the table."""
    match column.type:
        case facts.Reference(kind):
            return keys[kind].__getitem__
        case facts.Day():
            return get_date
        case facts.Choices():
            return _get_choices
        case _:
            return None


def decoder(kind: Kind, keys: Keys) -> Callable[[Sequence[Any]], Row]:
    """A function from the values of the SQL columns to a row.

    KeyError, TypeError or ValueError for what this program can't have put there.
    """
    gets = [_get(column, keys) for column in kind.columns]
    empties = [() if column.default == () else None for column in kind.columns]
    instants = [i for i, column in enumerate(kind.columns) if column.type == facts.Instant()]

    def decode(values: Sequence[Any]) -> Row:
        if instants:
            values = list(values)
            for index in instants:
                values[index : index + 2] = [get_instant(values[index], values[index + 1])]
        return tuple([
            (empty if v is None else v if get is None else get(v))
            for get, empty, v in zip(gets, empties, values, strict=True)
        ])  # fmt: skip

    return decode
