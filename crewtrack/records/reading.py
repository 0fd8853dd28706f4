"""Reading a record: all from one consistent state of it, now or as it was after an act."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from crewtrack.engine.evidence import Evidence
from crewtrack.facts import Column, Kind, Reference, Row, Value
from crewtrack.records import evidence_reading, journal
from crewtrack.records import recorded as recording
from crewtrack.records.damage import as_recorded, check_values, is_struck
from crewtrack.records.entries import (
    EntryByKey,
    few_keys,
    find_entry,
    key_by_entry,
    keys_for,
    referred,
)
from crewtrack.records.journal import Head, PastAct
from crewtrack.records.newest import newest_columns, newest_or_struck, struck_entries
from crewtrack.records.recorded import Recorded
from crewtrack.records.stored import Keys, decoder, encoded, layout
from crewtrack.records.tables import stored_names

ALL: Final = 2**62
"""Comes after every act."""


@dataclass(frozen=True, slots=True)
class StoredEdition:
    """An edition of the standard as it was adopted: ``source`` is its TOML text, ``act`` the
    act that adopted it."""

    edition: str
    effective: date
    source: str
    act: int


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision of a fact, and the act that recorded it. Where it is ``struck``, the fact was
    struck out by it, and the row is that of the revision before."""

    number: int
    act: PastAct
    row: Row
    struck: bool


@dataclass(frozen=True, slots=True)
class Current:
    """A fact's current revision: the id of its entry, the revision's number and the row.
    ``struck`` where it strikes the fact out."""

    entry: int
    number: int
    row: Row
    struck: bool = False


class Reading:
    """What a record says. ``seq`` bounds it to the acts through that one; None is no bound.

    Facts that are struck out are left out, except where it says otherwise.
    """

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    @property
    def connection(self) -> Connection:
        """The connection, for those in this package who read in ways of their own."""
        return self._connection

    def head(self, known_at: datetime | None = None) -> Head:
        """The last act that was recorded by an aware instant (None: of all)."""
        return journal.head(self._connection, known_at)

    def identity(self) -> str:
        """The id of the record's first act, which no other record has; "" before that."""
        found = self._connection.exec_driver_sql("SELECT id FROM acts WHERE seq = 1")
        return str(found.scalar_one_or_none() or "")

    def acts(self, seq: int | None = None) -> Iterator[PastAct]:
        """The acts in the order of the chain."""
        return journal.acts(self._connection, _bound(seq))

    def acts_back(self, before: int | None, most: int, like: str = "") -> tuple[PastAct, ...]:
        """Up to ``most`` acts, the newest first, of those before a place in the chain (None: of
        all) that have the text ``like`` in their author, their kind or their reason. Of letters
        only A to Z are the same as their small ones."""
        return journal.acts_back(self._connection, _bound(before), most, like)

    def set_back(self, by: timedelta) -> dict[int, int]:
        """The acts whose clock stood earlier, by more than ``by``, than that of an act before
        them in the chain: their places, each with that of the latest-dated act before it."""
        with as_recorded("the journal"):
            return journal.set_back(self._connection, by)

    def recorded_by(self, seq: int, most: int = 200) -> tuple[int, tuple[Recorded, ...]]:
        """How many rows of facts an act recorded, and the first ``most`` of them: kind by kind,
        each in the order in which they were recorded. Editions are not among them."""
        return recording.recorded_by(self._connection, seq, most)

    def editions(self, seq: int | None = None) -> tuple[StoredEdition, ...]:
        """The editions of the standard, in the order in which they were adopted."""
        rows = self._connection.exec_driver_sql(
            "SELECT edition, effective, source, act FROM editions WHERE act <= ? ORDER BY id",
            (_bound(seq),),
        )
        with as_recorded("editions"):
            return tuple(
                StoredEdition(edition, date.fromisoformat(effective), source, act)
                for edition, effective, source, act in rows
            )

    def rows(self, kind: Kind, seq: int | None = None) -> Iterator[Row]:
        """The current revision of every fact of a kind, in the order of entry."""
        return (held.row for held in self._held(kind, seq) if not held.struck)

    def current(self, kind: Kind, seq: int | None = None) -> dict[tuple[Value, ...], Current]:
        """The current revision of every fact of a kind, by its key's values."""
        return _by_key(kind, (held for held in self._held(kind, seq) if not held.struck))

    def current_or_struck(
        self, kind: Kind, seq: int | None = None
    ) -> dict[tuple[Value, ...], Current]:
        """The same with those that are struck out: their keys are taken, and to bring one back
        is to revise it."""
        return _by_key(kind, self._held(kind, seq))

    def columns(
        self, kind: Kind, names: Sequence[str], seq: int | None = None
    ) -> list[list[Value]]:
        """Some columns of every fact of a kind, each a list in the order of entry; they hold
        texts, choices or references. Of a long history, read in a small part of the time that
        ``rows`` takes."""
        columns = [kind.columns[kind.index(name)] for name in names]
        stored = tuple(name for column in columns for name in stored_names(column))
        with as_recorded(kind.name):
            lists = newest_columns(self._connection, kind, stored, _bound(seq))
            check_values(kind, stored, list(zip(*lists, strict=True)))
            keys = keys_for(self._connection, kind, len(lists[0]))
            return [_told(column, keys, held) for column, held in zip(columns, lists, strict=True)]

    def keys(self, kind: Kind) -> frozenset[str]:
        """The keys of all facts of a kind that has a single key column."""
        keys = key_by_entry(self._connection, kind.name)
        for entry in struck_entries(self._connection, kind, ALL):
            keys.pop(entry, None)
        return frozenset(keys.values())

    def count(self, kind: Kind, seq: int | None = None) -> int:
        """How many facts of a kind there are."""
        # All of them by the index of their keys, less the later ones by that of acts: to look at
        # every row of a long history would take many times as long.
        found = self._connection.exec_driver_sql(
            f"SELECT (SELECT count(*) FROM {kind.name} WHERE revision = 1)"
            f" - (SELECT count(*) FROM {kind.name} WHERE revision = 1 AND act > ?)",
            (_bound(seq),),
        )
        gone = struck_entries(self._connection, kind, _bound(seq))
        return int(found.scalar_one()) - len(gone)

    def revisions(self, kind: Kind, key: tuple[Value, ...]) -> tuple[Revision, ...]:
        """All revisions of the fact with a key, the first one first and those that strike it out
        among them; none where there never was one."""
        entry = self._entry(kind, key)
        if entry is None:
            return ()
        decode = decoder(kind, few_keys(self._connection, kind))
        rows = self._connection.exec_driver_sql(
            f"SELECT revision, act, struck, {layout(kind).selected} FROM {kind.name}"
            " WHERE id = ? OR (entry = ? AND revision > 1) ORDER BY revision",
            (entry, entry),
        )
        with as_recorded(kind.name):
            held = rows.fetchall()
            past = journal.acts_at(self._connection, {act for _, act, *_ in held})
            return tuple(
                Revision(number, past[act], decode(values), is_struck(kind, struck))
                for number, act, struck, *values in held
            )

    def evidence(self, zone: ZoneInfo, seq: int | None = None) -> Evidence:
        """Everything known, as the engine takes it; days are those of ``zone``."""
        with as_recorded("facts"):
            return evidence_reading.evidence(self._connection, zone, _bound(seq))

    def _held(self, kind: Kind, seq: int | None) -> Iterator[Current]:
        """All facts of a kind, struck out or not."""
        columns = ("entry", "revision", *layout(kind).names)
        with as_recorded(kind.name):
            rows, struck = newest_or_struck(self._connection, kind, ", ".join(columns), _bound(seq))
            check_values(kind, columns, rows)
            decode = decoder(kind, keys_for(self._connection, kind, len(rows)))
            for values in rows:
                yield Current(values[0], values[1], decode(values[2:]), values[0] in struck)

    def _entry(self, kind: Kind, key: tuple[Value, ...]) -> int | None:
        """The entry with a key."""
        shape = layout(kind)
        columns = tuple(kind.columns[index] for index in shape.key_indexes)
        only_key = Kind(kind.name, kind.one, kind.key, columns)
        ids = {name: EntryByKey(self._connection, name) for name in referred(only_key)}
        try:
            (values,) = zip(*encoded(only_key, ids, [key]), strict=True)
        except LookupError:
            return None
        return find_entry(self._connection, kind, values)


def _bound(seq: int | None) -> int:
    return ALL if seq is None else seq


def _told(column: Column, keys: Keys, stored: list[Any]) -> list[Value]:
    match column.type:
        case Reference(kind):
            return [None if entry is None else keys[kind][entry] for entry in stored]
        case _:
            return stored


def _by_key(kind: Kind, held: Iterable[Current]) -> dict[tuple[Value, ...], Current]:
    indexes = layout(kind).key_indexes
    return {tuple([one.row[index] for index in indexes]): one for one in held}
