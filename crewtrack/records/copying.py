"""Copies of a record's file, made while it is in use and checked after writing."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from crewtrack.errors import RecordUnusable
from crewtrack.phrases import later, phrase
from crewtrack.records import moving
from crewtrack.records.connecting import DAMAGED, raw_connection, unusable
from crewtrack.records.progress import Progress, silent

_AT_ONCE: Final = 2_000
"""Pages copied between two words of progress: eight MiB."""


def copy_consistent(
    source: Path, made: Path, query: str = "mode=rw", progress: Progress = silent
) -> None:
    """Copy one consistent state of a database, with SQLite's own online backup. What ``progress``
    raises breaks it off, and leaves what was copied so far in ``made``."""

    def told(_status: int, remaining: int, total: int) -> None:
        progress(later("copying"), total - remaining, total)

    with (
        closing(raw_connection(source, query, busy_seconds=5)) as origin,
        closing(sqlite3.connect(made)) as copy,
    ):
        # All from one state: else it would begin anew whenever somebody writes meanwhile.
        origin.execute("BEGIN").close()
        try:
            origin.execute("SELECT count(*) FROM sqlite_schema").fetchall()
        except UnicodeDecodeError as error:  # from SQLite's own message, which quotes what it found
            raise unusable(source, DAMAGED) from error
        origin.backup(copy, pages=_AT_ONCE, progress=told)


def copy_checked(source: Path, target: Path) -> None:
    """Copy a database of any schema revision to a new name, once SQLite finds the copy sound and
    as large as what was copied."""
    with moving.workshop(target) as made:
        copy_consistent(source, made)
        if not _sound(made) or _size(made) != _size(source):
            raise RecordUnusable(
                phrase(
                    "{source} could not be copied soundly to {target}; look whether the disk is"
                    " failing, or put a backup back with 'crewtrack restore FILE'",
                    source=source,
                    target=target,
                )
            )
        moving.place(made, target)


def _sound(path: Path) -> bool:
    with closing(raw_connection(path, "mode=rw", busy_seconds=5)) as connection:
        found = [told for (told,) in connection.execute("PRAGMA integrity_check")]
    return found == ["ok"]


def _size(path: Path) -> list[tuple[str, int]]:
    """How many rows each table holds."""
    with closing(raw_connection(path, "mode=rw", busy_seconds=5)) as connection:
        names = connection.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
            " ORDER BY name"
        ).fetchall()
        return [
            (name, connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0])
            for (name,) in names
        ]
