"""Reading a record: all from one consistent state of it, now or as it was after an act."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.engine.evidence import Evidence
from crewtrack.facts import Kind, Row, Value
from crewtrack.records import evidence_reading, journal
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded, check_values
from crewtrack.records.journal import Head, PastAct
from crewtrack.records.newest import newest
from crewtrack.records.stored import decoder, encoded, layout

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
    """One revision of a fact, and the act that recorded it."""

    number: int
    act: PastAct
    row: Row


@dataclass(frozen=True, slots=True)
class Current:
    """A fact's current revision: the id of its entry, the revision's number and the row."""

    entry: int
    number: int
    row: Row


class Reading:
    """What a record says. ``seq`` bounds it to the acts through that one; None is no bound."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    @property
    def connection(self) -> Connection:
        """The connection, for those in this package who read in ways of their own."""
        return self._connection

    def head(self, known_at: datetime | None = None) -> Head:
        """The last act that was recorded by an aware instant (None: of all)."""
        return journal.head(self._connection, known_at)

    def acts(self, seq: int | None = None) -> Iterator[PastAct]:
        """The acts in the order of the chain."""
        return journal.acts(self._connection, _bound(seq))

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
        return (current.row for current in self._current(kind, seq))

    def current(self, kind: Kind, seq: int | None = None) -> dict[tuple[Value, ...], Current]:
        """The current revision of every fact of a kind, by its key's values."""
        indexes = layout(kind).key_indexes
        return {
            tuple([current.row[index] for index in indexes]): current
            for current in self._current(kind, seq)
        }

    def keys(self, kind: Kind) -> frozenset[str]:
        """The keys of all facts of a kind that has a single key column."""
        return frozenset(key_by_entry(self._connection, kind.name).values())

    def count(self, kind: Kind, seq: int | None = None) -> int:
        """How many facts of a kind there are."""
        found = self._connection.exec_driver_sql(
            f"SELECT count(*) FROM {kind.name} WHERE revision = 1 AND act <= ?", (_bound(seq),)
        )
        return int(found.scalar_one())

    def revisions(self, kind: Kind, key: tuple[Value, ...]) -> tuple[Revision, ...]:
        """All revisions of the fact with a key, the first one first; none where there is none."""
        entry = self._entry(kind, key)
        if entry is None:
            return ()
        decode, past = decoder(kind, self._keys(kind)), {act.seq: act for act in self.acts()}
        rows = self._connection.exec_driver_sql(
            f"SELECT revision, act, {layout(kind).selected} FROM {kind.name}"
            " WHERE id = ? OR (entry = ? AND revision > 1) ORDER BY revision",
            (entry, entry),
        )
        with as_recorded(kind.name):
            return tuple(Revision(row[0], past[row[1]], decode(row[2:])) for row in rows)

    def evidence(self, zone: ZoneInfo, seq: int | None = None) -> Evidence:
        """Everything known, as the engine takes it; days are those of ``zone``."""
        with as_recorded("facts"):
            return evidence_reading.evidence(self._connection, zone, _bound(seq))

    def _current(self, kind: Kind, seq: int | None) -> Iterator[Current]:
        decode = decoder(kind, self._keys(kind))
        columns = ("entry", "revision", *layout(kind).names)
        with as_recorded(kind.name):
            rows = newest(self._connection, kind, ", ".join(columns), _bound(seq))
            check_values(kind, columns, rows)
            for values in rows:
                yield Current(values[0], values[1], decode(values[2:]))

    def _keys(self, kind: Kind) -> Mapping[str, Mapping[int, str]]:
        """The keys of all that a kind refers to."""
        return {name: key_by_entry(self._connection, name) for name in referred(kind)}

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


def referred(kind: Kind) -> tuple[str, ...]:
    """The names of the kinds that a kind refers to, each once."""
    names = (c.type.kind for c in kind.columns if isinstance(c.type, facts.Reference))
    return tuple(dict.fromkeys(names))


def key_column(name: str) -> str:
    """The one SQL column of the key of a kind that others refer to."""
    kind = next(kind for kind in facts.KINDS if kind.name == name)
    (column,) = layout(kind).key
    return column


def key_by_entry(connection: Connection, name: str) -> dict[int, str]:
    """The keys of a kind's facts by their entries."""
    return dict(fetch(connection, f"SELECT id, {key_column(name)} FROM {name} WHERE revision = 1"))


def find_entry(connection: Connection, kind: Kind, key: tuple[Any, ...]) -> int | None:
    """The entry whose key's SQL columns hold ``key``."""
    same = " AND ".join(f"{name} = ?" for name in layout(kind).key)
    found = connection.exec_driver_sql(
        f"SELECT id FROM {kind.name} WHERE revision = 1 AND {same}", key
    )
    entry = found.scalar_one_or_none()
    return None if entry is None else int(entry)


class EntryByKey(dict[str, int]):
    """The entries of a kind's facts by their keys, looked up as they are asked for."""

    def __init__(self, connection: Connection, name: str) -> None:
        super().__init__()
        self._connection = connection
        self._name = name
        self._kind = next(kind for kind in facts.KINDS if kind.name == name)
        self._loaded = False

    def __missing__(self, key: str) -> int:
        entry = find_entry(self._connection, self._kind, (key,))
        if entry is None:
            raise LookupError(f"no {self._kind.one} {key!r}")
        self[key] = entry
        return entry

    def load(self) -> None:
        """Look all of them up at once, the first time."""
        if self._loaded:
            return
        self._loaded = True
        entries = key_by_entry(self._connection, self._name)
        self.update(zip(entries.values(), entries, strict=True))
