"""What one act recorded, row by row."""

from dataclasses import dataclass

from sqlalchemy import Connection

from crewtrack.facts import RECORDED, Kind, Row, Value
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import as_recorded, check_values, is_struck
from crewtrack.records.entries import few_keys
from crewtrack.records.stored import decoder, layout


@dataclass(frozen=True, slots=True)
class Recorded:
    """A revision that an act recorded: the first of a new fact (``revision`` 1), a later one, or
    one that strikes the fact out (``struck``; the row is that of the revision before)."""

    kind: Kind
    key: tuple[Value, ...]
    revision: int
    struck: bool
    row: Row


def recorded_by(connection: Connection, seq: int, most: int) -> tuple[int, tuple[Recorded, ...]]:
    """How many rows an act recorded, and the first ``most`` of them: kind by kind, each in the
    order in which they were recorded."""
    total, rows = 0, list[Recorded]()
    for kind in RECORDED:
        ((count,),) = fetch(connection, f"SELECT count(*) FROM {kind.name} WHERE act = ?", (seq,))
        total += count
        if count and len(rows) < most:
            rows += _of_kind(connection, kind, seq, most - len(rows))
    return total, tuple(rows)


def _of_kind(connection: Connection, kind: Kind, seq: int, most: int) -> list[Recorded]:
    shape, decode = layout(kind), decoder(kind, few_keys(connection, kind))
    with as_recorded(kind.name):
        columns = ("revision", "struck", *shape.names)
        sql = f"SELECT {', '.join(columns)} FROM {kind.name} WHERE act = ? ORDER BY id LIMIT ?"
        found = fetch(connection, sql, (seq, most))
        check_values(kind, columns, found)
        rows = [(revision, struck, decode(values)) for revision, struck, *values in found]
        return [
            Recorded(kind, shape.key_of(row), revision, is_struck(kind, struck), row)
            for revision, struck, row in rows
        ]
