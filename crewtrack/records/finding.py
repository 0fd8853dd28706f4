"""A few facts, found by what they refer to, without reading a whole kind."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.facts import RECORDED, SORTIES, Kind, Reference, Row, Value
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded, check_values, is_struck
from crewtrack.records.entries import (
    EntryByKey,
    KeyByEntry,
    few_keys,
    find_entry,
    key_by_entry,
    referred,
)
from crewtrack.records.reading import ALL, Current, Reading
from crewtrack.records.stored import Keys, decoder, encoded, layout

_BY_SORTIE: Final = (facts.PERFORMANCES, facts.SIGNOFFS)


def find(reading: Reading, kind: Kind, key: tuple[Value, ...]) -> Current | None:
    """The newest revision of the fact with a key, struck out or not; None where there never was
    one."""
    ids = {name: EntryByKey(reading.connection, name) for name in referred(kind)}
    entry = _entry_of(reading, kind, key, ids)
    return None if entry is None else newest_of(reading.connection, kind, entry)


def referring(reading: Reading, kind: Kind, key: str) -> Iterator[tuple[Kind, Current]]:
    """The facts that refer to one with a key, kind by kind; each is told once for each column
    in which it does. None of those that are struck out."""
    for other in RECORDED:
        for column in other.columns:
            if column.type == Reference(kind.name):
                for held in naming(reading, other, column.name, key):
                    yield other, held


def naming(reading: Reading, kind: Kind, column: str, key: str) -> Iterator[Current]:
    """The facts of a kind that name a key in a column, in the order of entry; none of those
    that are struck out."""
    connection, index = reading.connection, kind.index(column)
    entry = _entry(reading, kind.columns[index].type, key)
    if entry is None:
        return
    # A key never changes from revision to revision, and of first revisions there is an index.
    first = "AND revision = 1" if column in kind.key else ""
    sql = f"SELECT DISTINCT entry FROM {kind.name} WHERE {column}_id = ? {first} ORDER BY entry"
    keys = few_keys(connection, kind)
    for (found,) in fetch(connection, sql, (entry,)):
        held = newest_of(connection, kind, found, keys)
        if held is not None and held.row[index] == key and not held.struck:
            yield held


def people_of(reading: Reading, kind: Kind, key: str) -> frozenset[str]:
    """Everybody in whose books a sortie stands, or one flown with a vessel or an aircraft, by
    any revision of what says so."""
    connection = reading.connection
    entry = _entry(reading, Reference(kind.name), key)
    if entry is None:
        return frozenset()
    sorties = "?" if kind is SORTIES else f"SELECT entry FROM sorties WHERE {kind.key[0]}_id = ?"
    of = " UNION ".join(
        f"SELECT person_id FROM {one.name} WHERE sortie_id IN ({sorties})" for one in _BY_SORTIE
    )
    people = fetch(connection, of, (entry,) * len(_BY_SORTIE))
    keys = KeyByEntry(connection, facts.PEOPLE.name)
    return frozenset(keys[person] for (person,) in people)


def taken_keys(reading: Reading, kind: Kind) -> tuple[str, ...]:
    """The keys that were ever given to facts of a kind, in the order of entry; those of facts
    that are struck out stay taken."""
    return tuple(taken_since(reading, kind, {}).values())


def taken_since(reading: Reading, kind: Kind, known: Mapping[int, str]) -> Mapping[int, str]:
    """The same by their entries, where those ``known`` were read earlier: a key never changes nor
    goes, so that only later ones are read, unless another record took this one's place."""
    last = next(reversed(list(known)), 0)
    later = key_by_entry(reading.connection, kind.name, last - 1 if known else 0)
    if known and later.pop(last, None) != known[last]:
        return taken_since(reading, kind, {})
    return {**known, **dict(sorted(later.items()))}


def rows_of(
    reading: Reading, kind: Kind, keys: Iterable[tuple[Value, ...]], seq: int
) -> dict[tuple[Value, ...], Row]:
    """The facts with some keys as of an act; without those that are not there."""
    found = {}
    connection = reading.connection
    entries = {name: EntryByKey(connection, name) for name in referred(kind)}
    referred_to = few_keys(connection, kind)
    for key in keys:
        entry = _entry_of(reading, kind, key, entries)
        held = entry and newest_of(connection, kind, entry, referred_to, seq)
        if held and not held.struck:
            found[key] = held.row
    return found


def _entry_of(
    reading: Reading, kind: Kind, key: tuple[Value, ...], ids: Mapping[str, EntryByKey]
) -> int | None:
    """The entry of the fact with a key; ``ids`` are those of what the kind refers to."""
    columns = tuple(kind.columns[index] for index in layout(kind).key_indexes)
    only_key = Kind(kind.name, kind.one, kind.key, columns)
    try:
        (values,) = zip(*encoded(only_key, ids, [key]), strict=True)
    except LookupError:
        return None
    return find_entry(reading.connection, kind, values)


def _entry(reading: Reading, reference: facts.Type, key: str) -> int | None:
    if not isinstance(reference, Reference):
        raise TypeError(f"{reference} refers to nothing")
    try:
        return EntryByKey(reading.connection, reference.kind)[key]
    except LookupError:
        return None


def newest_of(
    connection: Connection,
    kind: Kind,
    entry: int,
    keys: Keys | None = None,
    through: int = ALL,
) -> Current | None:
    """The newest revision of the fact with an entry as of an act, struck out or not; None where
    there is no such entry. ``keys`` are those of what the kind refers to, where they are at
    hand."""
    columns = ("revision", "struck", *layout(kind).names)
    rows = fetch(
        connection,
        f"SELECT {', '.join(columns)} FROM {kind.name}"
        " WHERE (id = ? OR (entry = ? AND revision > 1)) AND act <= ?"
        " ORDER BY revision DESC LIMIT 1",
        (entry, entry, through),
    )
    decode = decoder(kind, few_keys(connection, kind) if keys is None else keys)
    with as_recorded(kind.name):
        check_values(kind, columns, rows)
        for number, struck, *values in rows:
            return Current(entry, number, decode(values), is_struck(kind, struck))
    return None
