"""Connections to a record's file, and what SQLite's errors mean to the one who uses it.

Transactions are in our own hands: the driver begins none, ``BEGIN`` and ``COMMIT`` are written
where they are meant.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Engine, create_engine
from sqlalchemy.exc import DBAPIError, OperationalError
from sqlalchemy.pool import NullPool

from crewtrack.errors import RecordUnusable
from crewtrack.phrases import Phrase, joined, later, phrase
from crewtrack.records import in_use
from crewtrack.records.damage import NotAsRecorded

_PRAGMAS: Final = (
    "foreign_keys=ON",
    "recursive_triggers=ON",  # else REPLACE deletes without asking the triggers
    "trusted_schema=OFF",
    "cell_size_check=ON",
    "cache_size=-65536",
    "synchronous=FULL",
    "journal_mode=WAL",
)

_UNTOLD: Final = 1.0
"""Seconds of waiting for another writer that nobody is told of."""

_DAMAGED: Final = later("is damaged; put the last backup back with 'crewtrack restore FILE'")
_IN_USE: Final = later("is in use by another program; try again when that is done")
_MEANINGS: Final = {
    sqlite3.SQLITE_BUSY: _IN_USE,
    sqlite3.SQLITE_LOCKED: _IN_USE,
    sqlite3.SQLITE_FULL: later(
        "can't grow, the disk that holds {folder} is full; nothing of this was recorded, make room"
        " there and do it again"
    ),
    sqlite3.SQLITE_READONLY: later(
        "is read-only; allow writing to the file and its folder, or name another record with --db"
    ),
    sqlite3.SQLITE_CORRUPT: _DAMAGED,
    sqlite3.SQLITE_NOTADB: _DAMAGED,  # whoever connects has looked at the header before
    sqlite3.SQLITE_CANTOPEN: later(
        "can't be opened; look whether the file and its folder may be read and written"
    ),
    sqlite3.SQLITE_IOERR: later(
        "can't be read or written; nothing of this was recorded, look whether the disk that holds"
        " {folder} is full, or failing"
    ),
    sqlite3.SQLITE_PERM: later("can't be opened; look whether you may read and write it"),
}

DAMAGED: Final = phrase(_DAMAGED)


def _not_as_recorded(error: NotAsRecorded) -> Phrase:
    return phrase(
        "holds something that is not as it was recorded ({what}); see 'crewtrack verify', and put"
        " the last good backup back with 'crewtrack restore FILE'",
        what=error,
    )


def unusable(path: Path, why: str) -> RecordUnusable:
    """The error that says of a record why it can't be used."""
    return RecordUnusable(joined(" ", (str(path), why)))


def meaning(error: BaseException | None, folder: Path) -> str | None:
    """What an SQLite error says of the record, written in ``folder``; None where the program is
    to blame."""
    if not isinstance(error, sqlite3.Error):
        return None
    code = getattr(error, "sqlite_errorcode", None)
    if code is None:
        undecodable = str(error).startswith("Could not decode to UTF-8")
        return DAMAGED if undecodable else None
    why = _MEANINGS.get(code & 0xFF)
    return why and phrase(why, folder=folder)


@contextmanager
def told(path: Path, written: Path | None = None) -> Iterator[None]:
    """Within, an SQLite error for which the record or its disk is to blame, and what is not as it
    was recorded, is a ``RecordUnusable`` in one sentence; all others pass as they are.
    ``written`` is the file that is written, where that is not the record."""
    try:
        yield
    except NotAsRecorded as error:
        raise unusable(path, _not_as_recorded(error)) from error
    except (DBAPIError, sqlite3.Error) as error:
        folder = (written or path).absolute().parent
        why = meaning(error.orig if isinstance(error, DBAPIError) else error, folder)
        if why is None:
            raise
        raise unusable(path, why) from error


def raw_connection(path: Path, query: str, busy_seconds: float) -> sqlite3.Connection:
    """A driver's connection to a file that is there; ``query`` is that of SQLite's file URI."""
    file = in_use.take(path)
    try:
        connection = sqlite3.connect(
            f"{path.absolute().as_uri()}?{query}",
            uri=True,
            timeout=busy_seconds,
            isolation_level=None,
            check_same_thread=False,
            factory=in_use.HoldingConnection,
        )
    except sqlite3.Error:
        in_use.let_go(file)
        raise
    connection.held = file
    return connection


def engine_for(path: Path, busy_seconds: float) -> Engine:
    """Connections to the record at ``path``, set as every record's are."""

    def connect() -> sqlite3.Connection:
        connection = raw_connection(path, "mode=rw", busy_seconds)
        try:
            for pragma in _PRAGMAS:
                connection.execute(f"PRAGMA {pragma}").close()
        except BaseException:  # what SQLite says of damage may be undecodable
            connection.close()
            raise
        return connection

    return create_engine(
        "sqlite+pysqlite://", creator=connect, poolclass=NullPool, isolation_level="AUTOCOMMIT"
    )


@contextmanager
def snapshot(engine: Engine) -> Iterator[Connection]:
    """A connection that sees one state of the record, whatever others write meanwhile."""
    with engine.connect() as connection:
        connection.exec_driver_sql("BEGIN")
        try:
            yield connection
        finally:
            roll_back(connection)


@dataclass(frozen=True, slots=True)
class Patience:
    """For how many seconds to wait for another who writes, and who is told, once a second, that
    the waiting goes on. What ``waiting`` raises ends it."""

    seconds: float
    waiting: Callable[[], None]


@contextmanager
def transaction(engine: Engine, patience: Patience, *pragmas: str) -> Iterator[Connection]:
    """The only connection that writes; commits on leaving normally, unless it was rolled back
    before, else rolls back. ``pragmas`` hold for it alone."""
    with engine.connect() as connection:
        for pragma in pragmas:
            connection.exec_driver_sql(f"PRAGMA {pragma}").close()
        _begin_writing(connection, patience)
        try:
            yield connection
            if _in_transaction(connection):
                connection.exec_driver_sql("COMMIT")
        except BaseException:
            roll_back(connection)
            raise


def _begin_writing(connection: Connection, patience: Patience) -> None:
    """Take the turn to write. SQLite itself waits in silence, so it is asked second by second."""
    left = patience.seconds
    while True:
        wait = min(left, _UNTOLD)
        _wait_at_most(connection, wait)
        try:
            connection.exec_driver_sql("BEGIN IMMEDIATE")
        except OperationalError as error:
            left -= wait
            if left <= 0 or not _is_busy(error):
                raise
            patience.waiting()
        else:
            _wait_at_most(connection, patience.seconds)
            return


def _wait_at_most(connection: Connection, seconds: float) -> None:
    connection.exec_driver_sql(f"PRAGMA busy_timeout={int(seconds * 1000)}").close()


def _is_busy(error: OperationalError) -> bool:
    return getattr(error.orig, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY


def roll_back(connection: Connection) -> None:
    """Undo what is not committed. Where the disk was full, SQLite has done so by itself."""
    if _in_transaction(connection):
        driver(connection).rollback()


def _in_transaction(connection: Connection) -> bool:
    return driver(connection).in_transaction


def driver(connection: Connection) -> sqlite3.Connection:
    """The driver's own connection."""
    found = connection.connection.driver_connection
    if not isinstance(found, sqlite3.Connection):
        raise TypeError(f"{found!r} is no SQLite connection")
    return found


def fetch(connection: Connection, sql: str, parameters: tuple[Any, ...] = ()) -> list[Any]:
    """All rows as the driver's own tuples: half a million of them pass through here."""
    result = connection.exec_driver_sql(sql, parameters)
    cursor = result.cursor
    if cursor is None:
        raise ValueError(f"{sql!r} returns no rows")
    rows = list(cursor.fetchall())
    result.close()
    return rows
