"""What is read from a record and can't be what this program put there.

Triggers and constraints keep a record as it is against accidents, not against a failing disk or
another program; what slips through is told as damage where it is read, and only there: an error
that anything else raises stays what it is, a bug.
"""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from operator import itemgetter
from types import NoneType
from typing import Any, Final

from sqlalchemy.exc import DBAPIError

from crewtrack import facts
from crewtrack.facts import Kind
from crewtrack.records.tables import may_be_empty, stored_names

UNREADABLE: Final = (LookupError, TypeError, ValueError, AttributeError, OverflowError)
"""What reading stored values that this program did not put there may raise."""


class NotAsRecorded(Exception):
    """Something read is not as it was recorded; the message says where, so far as is known."""


@contextmanager
def as_recorded(what: str) -> Iterator[None]:
    """Within, values are only read and decoded: what fails does so because of what is stored.
    ``what`` is read: a table, as a rule."""
    try:
        yield
    except UnicodeDecodeError:  # from SQLite's own message; it has a sentence of its own
        raise
    except UNREADABLE as error:
        raise NotAsRecorded(what) from error
    except (DBAPIError, sqlite3.Error) as error:
        driven = error.orig if isinstance(error, DBAPIError) else error
        # The statement is always the same, so a table must have changed, or what lies in it.
        if getattr(driven, "sqlite_errorcode", None) != sqlite3.SQLITE_ERROR:
            raise
        raise NotAsRecorded(what) from error


def check_values(kind: Kind, names: Sequence[str], rows: Sequence[Any]) -> None:
    """NotAsRecorded unless what a kind's SQL columns hold in all of the rows is of the type and
    within the bounds that the kind sets. Names of anything else are passed over."""
    if not rows:
        return
    known = _stored_types(kind)
    for index, name in enumerate(names):
        plain = name.strip('"')
        if plain in known and not _sound(*known[plain], list(map(itemgetter(index), rows))):
            raise NotAsRecorded(f"{kind.name}, {plain}")


def is_struck(kind: Kind, stored: Any) -> bool:
    """Whether the column ``struck`` of a row says that it strikes its fact out; NotAsRecorded
    where it says what no act recorded."""
    if stored is None:
        return False
    if stored != 1:
        raise NotAsRecorded(f"{kind.name}, struck")
    return True


def _sound(types: frozenset[type], bounds: facts.Type | None, values: list[Any]) -> bool:
    """Whether values are of the types, and within the bounds of the column's own type."""
    if not types.issuperset(map(type, values)):
        return False
    match bounds:
        case facts.Whole(least, most) | facts.Number(least, most):
            # Each value once: of most numbers there are few.
            there = set(values) - {None}
            return not there or bool(least <= min(there) and max(there) <= most)
        case facts.Choice(options):
            return set(values) <= {None, *options}
        case _:
            return True


@cache
def _stored_types(kind: Kind) -> dict[str, tuple[frozenset[type], facts.Type | None]]:
    """By SQL column: the types its values may have, and the column's own type for its bounds."""
    found: dict[str, tuple[frozenset[type], facts.Type | None]] = {}
    for column in kind.columns:
        nothing: set[type] = {NoneType} if may_be_empty(column) else set()
        for name in stored_names(column):
            bounds = None if name.endswith("_offset") else column.type
            found[name] = (frozenset(_types(column.type, name) | nothing), bounds)
    return found


def _types(kind: facts.Type, name: str) -> set[type]:
    match kind:
        case facts.Reference() | facts.Whole():
            return {int}
        case facts.Number():
            return {float, int}
        case facts.Instant():
            return {int} if name.endswith("_offset") else {str}
        case _:
            return {str}
