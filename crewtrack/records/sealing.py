"""Sealing: rows whose contents are taken out, and what is left of them.

Of each such row there is one in ``seals``: the act that recorded it (``of``), where it stood, and
its digest. Its own canonical line is that of any fact, ``{"kind":"seals","revision":1,"row":{…}}``
with all of that in it, so that an act which seals says count and digest of these lines in its facts
like those of any other kind, and whoever signs it signs exactly what was taken out.
"""

import json
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from sqlalchemy import Connection

from crewtrack.facts import RECORDED
from crewtrack.records.canonical import Json, canonical
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import NotAsRecorded
from crewtrack.records.digests import digest
from crewtrack.records.tables import SEALS

KIND: Final = "seal"
"""The kind of an act that seals."""

PRAGMAS: Final = ("secure_delete=ON", "foreign_keys=OFF")
"""For a connection that seals: what goes is overwritten with zeros; and references are checked
once at the end, since SQLite would look through whole tables for each row that goes."""

_AT_ONCE: Final = 2_000


@dataclass(frozen=True, slots=True)
class Seal:
    """What is left of one row: its kind, its id (``row``), its entry and revision, the act that
    recorded it and its digest."""

    kind: str
    row: int
    entry: int
    revision: int
    of: int
    digest: bytes

    def line(self) -> str:
        """The canonical line, which is what is digested."""
        row: Json = {
            "digest": self.digest.hex(), "entry": self.entry, "kind": self.kind, "of": self.of,
            "revision": self.revision, "row": self.row,
        }  # fmt: skip
        return canonical({"kind": SEALS, "revision": 1, "row": row})


@dataclass(frozen=True, slots=True)
class SealedKind:
    """How many rows of a kind an act sealed, and when the first and the last of them had been
    recorded (UTC)."""

    kind: str
    count: int
    first: datetime
    last: datetime


def sealed_line(kind: str, hashed: bytes) -> str:
    """What stands in a journal that is written out in the place of a sealed row's line."""
    return canonical({"kind": kind, "sealed": hashed.hex()})


def take_out(
    connection: Connection, act: int, entries: Mapping[str, Collection[int]]
) -> list[bytes]:
    """Take all revisions of facts, given by kind and entry, out of their tables, and leave their
    seals; returns the digests of the seals' lines. ValueError for a row that is the newest of its
    table, since numbering goes on from it."""
    kinds = [kind.name for kind in RECORDED if entries.get(kind.name)]
    found = [one for kind in kinds for one in _rows(connection, kind, entries[kind])]
    _write(connection, act, found)
    for kind in reversed(kinds):
        _delete(connection, kind, [one.row for one in found if one.kind == kind])
    return [digest(one.line()) for one in found]


def _rows(connection: Connection, kind: str, entries: Collection[int]) -> list[Seal]:
    among = "entry IN (SELECT value FROM json_each(?))"
    sql = f"SELECT id, entry, revision, act, digest FROM {kind} WHERE {among} ORDER BY id"
    rows = fetch(connection, sql, (json.dumps(sorted(entries)),))
    ((newest,),) = fetch(connection, f"SELECT max(id) FROM {kind}")
    if rows and rows[-1][0] == newest:
        raise ValueError(f"row {newest} is the newest of {kind}")
    return [Seal(kind, *row) for row in rows]


def _write(connection: Connection, act: int, seals: Sequence[Seal]) -> None:
    ((last,),) = fetch(connection, "SELECT coalesce(max(id), 0) FROM seals")
    values = [
        (last + n, act, one.kind, one.row, one.entry, one.revision, one.of, bytearray(one.digest))
        for n, one in enumerate(seals, start=1)
    ]
    columns = '"id", "act", "kind", "row", "entry", "revision", "of", "digest"'
    insert = f"INSERT INTO seals ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
    for place in range(0, len(values), _AT_ONCE):
        connection.exec_driver_sql(insert, values[place : place + _AT_ONCE])


def _delete(connection: Connection, kind: str, ids: Sequence[int]) -> None:
    """Delete rows; the table's guard steps aside for that, and is put back word for word."""
    guard = f"{kind}_no_delete"
    held = fetch(
        connection, "SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND name = ?", (guard,)
    )
    if not held:
        raise NotAsRecorded(guard)
    connection.exec_driver_sql(f"DROP TRIGGER {guard}")
    among = "IN (SELECT value FROM json_each(?))"
    connection.exec_driver_sql(f"DELETE FROM {kind} WHERE id {among}", (json.dumps(list(ids)),))
    connection.exec_driver_sql(held[0][0])


def check_references(connection: Connection) -> None:
    """ValueError where something refers to what is not there any more."""
    for table, row, parent, _ in fetch(connection, "PRAGMA foreign_key_check"):
        raise ValueError(f"row {row} of {table} refers to nothing in {parent}")


def seals_by(connection: Connection, act: int) -> Iterator[Seal]:
    """The seals of an act, in their order."""
    columns = '"kind", "row", "entry", "revision", "of", "digest"'
    sql = f"SELECT {columns} FROM seals WHERE act = ? ORDER BY id"
    return (Seal(*values) for values in fetch(connection, sql, (act,)))


def sealed_of(connection: Connection, act: int) -> Mapping[str, dict[int, bytes]]:
    """What is left of the rows that an act recorded: by kind and id, their digests."""
    found: defaultdict[str, dict[int, bytes]] = defaultdict(dict)
    sql = 'SELECT "kind", "row", "digest" FROM seals WHERE "of" = ? ORDER BY "row"'
    for kind, row, hashed in fetch(connection, sql, (act,)):
        found[kind][row] = hashed
    return found


def sealed_kinds(connection: Connection, act: int) -> tuple[SealedKind, ...]:
    """What an act sealed, kind by kind."""
    sql = (
        "SELECT seals.kind, count(*), min(acts.instant), max(acts.instant) FROM seals"
        ' JOIN acts ON acts.seq = seals."of" WHERE seals.act = ?'
        " GROUP BY seals.kind ORDER BY min(seals.id)"
    )
    return tuple(
        SealedKind(kind, count, datetime.fromisoformat(first), datetime.fromisoformat(last))
        for kind, count, first, last in fetch(connection, sql, (act,))
    )


def sealed_facts(connection: Connection) -> int:
    """How many facts have been sealed, each counted once however often it was revised."""
    sql = "SELECT count(*) FROM seals WHERE revision = 1"
    return int(fetch(connection, sql)[0][0])


def last_sealing(connection: Connection, of: int) -> int | None:
    """The newest act that sealed anything of what an act recorded; None where none did."""
    found = fetch(connection, 'SELECT max(act) FROM seals WHERE "of" = ?', (of,))[0][0]
    return None if found is None else int(found)
