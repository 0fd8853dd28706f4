"""What a record's tables, indexes and triggers are, and what the migrations make them."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, create_engine
from sqlalchemy.pool import StaticPool

from crewtrack.records import migrating
from crewtrack.records.connecting import fetch

Definitions = dict[tuple[str, str], tuple[str, str | None]]
"""By type ("table", "index", "trigger", "view") and name: the table, and the SQL with single
spaces; None for an index that a constraint brings along."""

# What ANALYZE leaves behind is SQLite's own, and changes no answer.
_SQL: Final = (
    "SELECT type, name, tbl_name, sql FROM sqlite_schema"
    r" WHERE NOT (type = 'table' AND name LIKE 'sqlite\_stat%' ESCAPE '\') ORDER BY rowid"
)


def definitions(connection: Connection) -> Definitions:
    """All that is defined in a database, in the order in which it was made."""
    return {
        (type_, name): (table, sql and " ".join(sql.split()))
        for type_, name, table, sql in fetch(connection, _SQL)
    }


def made_by_scripts() -> Mapping[tuple[str, str], tuple[str, str | None]]:
    """What the migrations make, found out by running them in memory."""
    return _made(migrating.script_folder(), migrating.newest())


@cache
def _made(folder: Path, revision: str) -> Definitions:
    """Once for each set of scripts."""
    scratch = create_engine("sqlite://", poolclass=StaticPool, isolation_level="AUTOCOMMIT")
    try:
        migrating.make_tables(scratch)
        with scratch.connect() as connection:
            return definitions(connection)
    finally:
        scratch.dispose()
