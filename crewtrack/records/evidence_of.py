"""The evidence about a few people, read without that about all others.

Of half a million performances those of a few people are read in a small part of the time: soon
enough to say, while an act is going on, what it does to them.
"""

import json
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any, Final
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.engine.evidence import Evidence
from crewtrack.facts import Kind
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded, check_values, is_struck
from crewtrack.records.entries import EntryByKey
from crewtrack.records.evidence_reading import evidence_from
from crewtrack.records.evidence_source import Source
from crewtrack.records.newest import Lists
from crewtrack.records.reading import Reading

_WHOLE: Final = (facts.PEOPLE, facts.CERTIFICATIONS)
"""Few, and any of them may be named by what is in another's books."""
_NAMING: Final = (facts.PERFORMANCES, facts.SIGNOFFS)
"""What in somebody's books names a sortie."""
_SOME: Final = "person_id IN (SELECT value FROM json_each(?))"


def evidence_of(
    reading: Reading, people: Collection[str], zone: ZoneInfo, *seqs: int
) -> tuple[Evidence, ...]:
    """The books of these people, of those that were there, and the sorties in them: as of each
    of some acts, the same that the whole evidence would hold of them."""
    known = EntryByKey(reading.connection, facts.PEOPLE.name)
    known.load()
    some = _Some(reading.connection, [known[key] for key in people if key in known])
    return tuple(_as_of(some, people, zone, seq) for seq in seqs)


def _as_of(some: "_Some", people: Collection[str], zone: ZoneInfo, seq: int) -> Evidence:
    whole = Source.of(some.connection, seq)
    with as_recorded("facts"):
        found = evidence_from(_Part(some.connection, seq, whole.gone, some), zone)
    books = {key: held for key, held in found.books.items() if key in people}
    return Evidence(found.sorties, books)


class _Some:
    """What ever was in the books of some people, given by their entries; looked for once."""

    def __init__(self, connection: Connection, people: Sequence[int]) -> None:
        self.connection = connection
        self._asked = (json.dumps(people),)
        self._found: dict[str, str] = {}
        self._flown: dict[str, list[Any]] = {}

    def entries(self, kind: Kind) -> str:
        """The entries of a kind, as a JSON list; of the sorties, of those that what is in the
        books names."""
        if kind.name not in self._found:
            self._found[kind.name] = json.dumps(sorted(self._entries_of(kind)))
        return self._found[kind.name]

    def _entries_of(self, kind: Kind) -> set[int]:
        if kind is facts.SORTIES:
            named = {sortie for one in _NAMING for _, sortie in self._of_people(one)}
            return named - {None}
        if kind in _NAMING:
            return {entry for entry, _ in self._of_people(kind)}
        rows = fetch(self.connection, f"SELECT entry FROM {kind.name} WHERE {_SOME}", self._asked)
        return {entry for (entry,) in rows}

    def _of_people(self, kind: Kind) -> list[Any]:
        """Entries, and the sorties that they name: the whole table is looked through for them,
        but once."""
        if kind.name not in self._flown:
            select = f"SELECT entry, sortie_id FROM {kind.name} WHERE {_SOME}"
            self._flown[kind.name] = fetch(self.connection, select, self._asked)
        return self._flown[kind.name]


@dataclass(frozen=True, slots=True)
class _Part(Source):
    """The record as of an act, so far as it bears on some people."""

    some: _Some

    def rows(self, kind: Kind, columns: str) -> list[Any]:
        """The newest revisions, ``entry`` first."""
        if kind in _WHOLE:
            return Source.rows(self, kind, columns)
        return self._there(kind, columns.split(", "))

    def columns(self, kind: Kind, columns: Sequence[str], named: Sequence[str]) -> Lists:
        """The newest revisions, as a list for each of the SQL ``columns``."""
        rows = self._there(kind, ("entry", *named, *columns))
        skipped = 1 + len(named)
        return [[row[skipped + place] for row in rows] for place in range(len(columns))]

    def _there(self, kind: Kind, names: Sequence[str]) -> list[Any]:
        rows = self._newest(kind, ", ".join(names))
        check_values(kind, names, rows)
        gone = [(place, self.gone[name]) for place, name in enumerate(names) if name in self.gone]
        return [row for row in rows if all(row[place] not in entries for place, entries in gone)]

    def _newest(self, kind: Kind, columns: str) -> list[Any]:
        entries = self.some.entries(kind)
        among = "IN (SELECT value FROM json_each(?)) AND act <= ?"
        of = f"FROM {kind.name} WHERE"
        first = f"SELECT {columns} {of} id {among} AND revision = 1 ORDER BY id"
        found = {row[0]: row for row in fetch(self.connection, first, (entries, self.through))}
        later = f"SELECT struck, {columns} {of} entry {among} AND revision > 1 ORDER BY revision"
        struck = {}
        for mark, *row in fetch(self.connection, later, (entries, self.through)):
            found[row[0]] = tuple(row)
            struck[row[0]] = is_struck(kind, mark)
        return [row for entry, row in sorted(found.items()) if not struck.get(entry, False)]
