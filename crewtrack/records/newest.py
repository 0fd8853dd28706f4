"""The newest revision of every fact as of an act, straight from the tables.

Only a later revision can strike a fact out, so that first revisions, nearly all there are, need no
look for it.
"""

import json
from bisect import bisect_left
from itertools import compress
from typing import Any

from sqlalchemy import Connection

from crewtrack.facts import Kind
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import NotAsRecorded, is_struck

Lists = list[list[Any]]


def newest(connection: Connection, kind: Kind, columns: str, through: int) -> list[Any]:
    """The values of SQL ``columns`` (the first of which must be ``entry``) of the newest
    revision of each fact of a kind that the acts through ``through`` recorded, in the order of
    entry; none of facts that are struck out."""
    rows, struck = newest_or_struck(connection, kind, columns, through)
    return [row for row in rows if row[0] not in struck] if struck else rows


def newest_or_struck(
    connection: Connection, kind: Kind, columns: str, through: int
) -> tuple[list[Any], frozenset[int]]:
    """The same of all facts, and the entries of those that are struck out."""
    of = f"FROM {kind.name} WHERE"
    first = f"SELECT {columns} {of} revision = 1 AND act <= ? ORDER BY id"
    rows = fetch(connection, first, (through,))
    later = f"SELECT {columns}, struck {of} revision > 1 AND act <= ? ORDER BY entry, revision"
    revised = {values[0]: values for values in fetch(connection, later, (through,))}
    for entry, values in revised.items():
        rows[bisect_left(rows, entry, key=_entry)] = values[:-1]
    return rows, _struck(kind, {entry: values[-1] for entry, values in revised.items()})


def newest_columns(
    connection: Connection, kind: Kind, columns: tuple[str, ...], through: int
) -> Lists:
    """What ``newest`` gives, as one list for each of the SQL ``columns``, which are of whole
    numbers or text: for half a million rows, far less work."""
    arrays = ", ".join(f"json_group_array({name})" for name in columns)
    # Not by an index, so that the rows come as they lie in the table: in the order of their ids.
    of = f"FROM {kind.name} NOT INDEXED WHERE revision = 1 AND act <= ?"
    (texts,) = fetch(connection, f"SELECT {arrays} {of}", (through,))
    lists: Lists = [json.loads(text) for text in texts]
    later = fetch(
        connection,
        f"SELECT entry, struck, {', '.join(columns)} FROM {kind.name}"
        " WHERE revision > 1 AND act <= ? ORDER BY entry, revision",
        (through,),
    )
    if not later:
        return lists
    ((ids,),) = fetch(connection, f"SELECT json_group_array(id) {of}", (through,))
    return _revised(kind, lists, json.loads(ids), later)


def _revised(kind: Kind, lists: Lists, entries: list[int], later: list[Any]) -> Lists:
    """The lists with later revisions put in, ``(entry, struck, values…)`` each."""
    marks: dict[int, Any] = {}
    for entry, struck, *values in later:
        place = bisect_left(entries, entry)
        if place == len(entries) or entries[place] != entry:
            raise NotAsRecorded(f"{kind.name}, entry")
        marks[place] = struck
        for column, value in zip(lists, values, strict=True):
            column[place] = value
    gone = _struck(kind, marks)
    if not gone:
        return lists
    there = [place not in gone for place in range(len(entries))]
    return [list(compress(column, there)) for column in lists]


def struck_entries(connection: Connection, kind: Kind, through: int) -> frozenset[int]:
    """The entries of the facts that are struck out as of an act."""
    # Beside max(), SQLite gives the values of the row that has it. The order makes it take the
    # index of revised facts instead of that of acts.
    found = fetch(
        connection,
        f"SELECT entry, struck, max(revision) FROM {kind.name} WHERE revision > 1 AND act <= ?"
        " GROUP BY entry ORDER BY entry",
        (through,),
    )
    return _struck(kind, {entry: struck for entry, struck, _ in found})


def _struck(kind: Kind, marks: dict[int, Any]) -> frozenset[int]:
    return frozenset([one for one, mark in marks.items() if is_struck(kind, mark)])


def _entry(values: tuple[Any, ...]) -> int:
    return int(values[0])
