"""What a failing disk or another program does to a record, asking no trigger and no constraint."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path


@contextmanager
def unguarded(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection that may change anything; the triggers are put back afterwards as they were, so
    that only the change itself can be found."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        guards = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
        there = guards.fetchall()
        for name, _ in there:
            connection.execute(f'DROP TRIGGER "{name}"')
        connection.execute("PRAGMA ignore_check_constraints=ON")
        yield connection
        for _, sql in there:
            connection.execute(sql)


def change(path: Path, sql: str) -> None:
    """Change a record by one statement."""
    with unguarded(path) as connection:
        connection.execute(sql)
