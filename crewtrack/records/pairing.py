"""Whether the log or the journal that lies beside a record is its own.

SQLite takes any log that lies beside a file for the file's own, plays it into the file, and so
ruins a record beside which the log of another one was left: when somebody copied a backup over
the record by hand, say. So whoever opens a record looks at them before SQLite does.
"""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from crewtrack.phrases import joined, later, phrase
from crewtrack.records import in_use, moving
from crewtrack.records.connecting import DAMAGED, raw_connection, told, unusable
from crewtrack.records.digests import NO_DIGEST
from crewtrack.records.journal import Head
from crewtrack.records.opening import CUT_SHORT, beside, cured, has_log, is_short
from crewtrack.records.tables import EDITIONS, TABLES

_ELSEWHERE: Final = (
    sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM, sqlite3.SQLITE_READONLY,
)  # fmt: skip
"""What SQLite can't do for reasons that lie in nothing that is in the files."""


def look_beside(path: Path) -> None:
    """RecordUnusable where what lies beside the record is not its own; nothing is changed then.
    Whoever opened the record first in this process has looked."""
    with in_use.looking(path) as free:
        if not free:
            return
    why = not_paired(path)
    if why is not None:
        raise unusable(path, why)


def not_paired(path: Path) -> str | None:
    """Why a record and what lies beside it can't be used together; None where they can."""
    with told(path):
        if _has_journal(path):
            why = _why_no_journal(path)
            return why if _has_journal(path) else None  # another program was done with it
        try:
            return _why_no_log(path) if has_log(path) else None
        except FileNotFoundError:  # another program was done with the log, and folded it in
            return None


def _has_journal(path: Path) -> bool:
    """Whether a journal lies beside the file that SQLite would undo a transaction with."""
    try:
        with beside(path, "-journal").open("rb") as file:
            return file.read(1) not in (b"", b"\0")
    except OSError:
        return False


def _why_no_log(path: Path) -> str | None:
    alone, short = _head_alone(path), is_short(path)
    # To read and not to write: when that is closed, the log is not played into the file.
    with closing(raw_connection(path, "mode=ro", _PATIENCE)) as played:
        if not short and alone is not None and _from_log(played, alone, _commits(path)):
            return None
        if _continues(played, alone):
            return None
    return _told(beside(path, "-wal"), alone, short)


def _why_no_journal(path: Path) -> str | None:
    """It is tried on a copy: there is no other way to see what it would do."""
    alone = _head_alone(path)
    with moving.workshop(path) as made:
        try:
            for end in ("", "-wal", "-journal"):
                if end != "-wal" or has_log(path):
                    shutil.copyfile(beside(path, end), beside(made, end))
        except OSError as error:
            return phrase("can't be looked at ({why})", why=error.strerror)
        with closing(raw_connection(made, "mode=rw", _PATIENCE)) as undone:
            if _continues(undone, alone):
                return None
    return _told(beside(path, "-journal"), alone, short=False)


_PATIENCE: Final = 1.0
"""Seconds to wait for another program that holds the file for a moment."""


def _told(log: Path, alone: Head | None, short: bool) -> str:
    if short:
        return cured(CUT_SHORT)
    if alone is None:
        return DAMAGED
    return joined("; ", (phrase("has a log beside it that is not its own ({log})", log=log),
                         phrase(_CURE)))  # fmt: skip


_CURE: Final = later(
    "move that log to another folder and open the record again, or put the last backup back with"
    " 'crewtrack restore FILE'"
)


def _head_alone(path: Path) -> Head | None:
    """The last act of the file without anything that lies beside it; None where that can't be
    read, as when folding the log into it was broken off."""
    try:
        with closing(raw_connection(path, "mode=ro&immutable=1", _PATIENCE)) as alone:
            return _head(alone)
    except (sqlite3.Error, UnicodeDecodeError):
        return None


def _head(connection: sqlite3.Connection) -> Head:
    found = connection.execute("SELECT seq, digest FROM acts ORDER BY seq DESC LIMIT 1").fetchall()
    return Head(*found[0]) if found else Head()


def _from_log(played: sqlite3.Connection, alone: Head, commits: int) -> bool:
    """Whether all acts that the file alone lacks can have come from its log, which then begins
    where the file ends or before; cheap enough to ask whenever another program is at work."""
    try:
        return _holds(played, alone) and _head(played).seq - alone.seq <= commits
    except sqlite3.Error as error:
        return _no(error)


def _holds(played: sqlite3.Connection, alone: Head) -> bool:
    found = played.execute("SELECT digest FROM acts WHERE seq = ?", (alone.seq,)).fetchall()
    return found == [(alone.digest,)] if alone.seq else True


def _commits(path: Path) -> int:
    """How many transactions the log holds (SQLite's file format, section 4.1)."""
    with beside(path, "-wal").open("rb") as log:
        header = log.read(32)
        page, salts, found = int.from_bytes(header[8:12], "big"), header[16:24], 0
        while (frame := log.read(24))[8:16] == salts and len(frame) == 24:
            found += frame[4:8] != bytes(4)
            log.seek(page, 1)
    return found


def _continues(played: sqlite3.Connection, alone: Head | None) -> bool:
    """Whether a file with what lies beside it is whole, and goes on from what it is alone."""
    try:
        return (alone is None or _holds(played, alone)) and _is_whole(played)
    except sqlite3.Error as error:
        return _no(error)
    except (UnicodeDecodeError, ValueError, TypeError, LookupError):
        return False


def _no(error: sqlite3.Error) -> bool:
    """False where what is in the files is to blame."""
    if getattr(error, "sqlite_errorcode", 0) & 0xFF in _ELSEWHERE:
        raise error
    return False


def _is_whole(connection: sqlite3.Connection) -> bool:
    """Whether the structure is sound, the acts are chained, and each table holds as many rows as
    the acts say."""
    if connection.execute("PRAGMA integrity_check(1)").fetchall() != [("ok",)]:
        return False
    before, counts = NO_DIGEST, dict.fromkeys((*TABLES, EDITIONS), 0)
    acts = connection.execute("SELECT seq, previous, digest, facts FROM acts ORDER BY seq")
    for expected, (seq, previous, digest, facts) in enumerate(acts, start=1):
        if (seq, previous) != (expected, before):
            return False
        for table, said in json.loads(facts).items():
            counts[table] += said["count"]
        before = digest
    return counts == {
        table: connection.execute(f"SELECT count(*) FROM {table} NOT INDEXED").fetchone()[0]
        for table in counts
    }
