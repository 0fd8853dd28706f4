"""Which record a file holds, and how far its journal goes: told without opening it as a record,
so that a file of any schema revision stays as it is, to the byte."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from crewtrack.records.connecting import raw_connection
from crewtrack.records.journal import Head
from crewtrack.records.opening import has_log, no_record
from crewtrack.records.reading import Reading


@dataclass(frozen=True, slots=True)
class Stamp:
    """``first`` is the id of the record's first act: no other record has it, every copy does."""

    first: str
    head: Head


def stamp_of(reading: Reading) -> Stamp | None:
    """The stamp of a record that is open; None before its first act."""
    first = reading.identity()
    return Stamp(first, reading.head()) if first else None


def stamp(path: Path) -> Stamp | None:
    """The stamp of a file; None where it can't be read, or holds no act."""
    try:
        if no_record(path) is not None:
            return None
        with closing(raw_connection(path, read_only(path), busy_seconds=1)) as connection:
            connection.execute("BEGIN").close()
            first = connection.execute("SELECT id FROM acts WHERE seq = 1").fetchone()
            last = connection.execute(
                "SELECT seq, digest FROM acts ORDER BY seq DESC LIMIT 1"
            ).fetchone()
    except (sqlite3.Error, OSError, UnicodeDecodeError):
        return None
    if first is None or [*map(type, (*first, *last))] != [str, int, str]:
        return None
    return Stamp(first[0], Head(*last))


def read_only(path: Path) -> str:
    """The query of a file URI with which SQLite reads a file and puts nothing beside it, where
    it can: a log that lies there has to be read along."""
    return "mode=ro" if has_log(path) else "mode=ro&immutable=1"
