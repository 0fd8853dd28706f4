"""Looking whether a file can be used as a record, before anything is done with it."""

import os
import stat
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, Engine

from crewtrack.phrases import joined, phrase
from crewtrack.records import in_use, migrating
from crewtrack.records.connecting import DAMAGED, told, unusable
from crewtrack.records.tables import ACTS, APPLICATION_ID, EDITIONS, TABLES

_MAGIC: Final = b"SQLite format 3\0"
_HEADER: Final = 100


def look_at_file(path: Path) -> None:
    """RecordUnusable where the file can't be a record that this program may write."""
    look_at_content(path)
    _look_at_rights(path)


def look_at_content(path: Path) -> None:
    """RecordUnusable where the file can't be a record, so far as its size and header tell."""
    why = no_record(path)
    if why is not None:
        raise unusable(path, cured(why))


def no_record(path: Path) -> str | None:
    """Why the file can't be a record, so far as its size and header tell; None where it can."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return _MISSING
    except OSError as error:
        return phrase("can't be looked at ({why})", why=error.strerror)
    if not stat.S_ISREG(found.st_mode):
        return _NO_FILE
    if found.st_size == 0:
        return _EMPTY
    with in_use.looking(path) as free:
        return _wrong_header(path, found.st_size) if free else None


_MISSING: Final = phrase("does not exist")
_NO_FILE: Final = phrase("is not a file")
_EMPTY: Final = phrase("is empty")
_UNREADABLE: Final = phrase("can't be read")
_NO_RECORD: Final = phrase("is not a crewtrack record")
_FOREIGN: Final = phrase("is another program's database")
CUT_SHORT: Final = phrase("is cut short")
_DAMAGED: Final = phrase("is damaged")
_CURES: Final[Mapping[str, str]] = {
    _MISSING: phrase(
        "make a record with 'crewtrack init --standard FILE', or name another with --db"
    ),
    _NO_FILE: phrase("name a record's file with --db"),
    _EMPTY: phrase(
        "put a backup back with 'crewtrack restore FILE', or remove the file and make a record with"
        " 'crewtrack init --standard FILE'"
    ),
    _UNREADABLE: phrase("look whether you may read it"),
    _FOREIGN: phrase("name a crewtrack record with --db"),
    CUT_SHORT: phrase("put the last backup back with 'crewtrack restore FILE'"),
    _DAMAGED: phrase("put the last backup back with 'crewtrack restore FILE'"),
}


def cured(why: str) -> str:
    """Why a record can't be used, and what to do about it."""
    cure = _CURES.get(why.partition(" (")[0], phrase("name another with --db"))
    return joined("; ", (why, cure))


def is_record(path: Path) -> bool:
    """Whether the file's header says that it is a record of ours."""
    with in_use.looking(path) as free:
        if not free:
            return True
        try:
            header = _header(path)
        except OSError:
            return False
    return len(header) == _HEADER and not _strange(header)


def _header(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(_HEADER)


def _wrong_header(path: Path, size: int) -> str | None:
    try:
        header = _header(path)
    except OSError as error:
        return phrase("can't be read ({why})", why=error.strerror)
    if len(header) < _HEADER:
        return CUT_SHORT if header.startswith(_MAGIC[: len(header)]) else _NO_RECORD
    strange = _strange(header)
    if strange > _MOST_STRANGE:
        return _FOREIGN if header.startswith(_MAGIC) else _NO_RECORD
    if strange or not _in_bounds(header):
        return _DAMAGED
    # While a write-ahead log lies beside it, the file may rightly be shorter than its header says.
    said = _said_size(header)
    # Looked at once more in the end: another program may have folded its log in meanwhile.
    return None if size >= said or has_log(path) or path.stat().st_size >= said else CUT_SHORT


def _strange(header: bytes) -> int:
    """How many bytes of the two marks of a record are not what they should be."""
    marks = header[: len(_MAGIC)] + header[68:72]
    ours = _MAGIC + APPLICATION_ID.to_bytes(4, "big")
    return sum(there != wanted for there, wanted in zip(marks, ours, strict=True))


_MOST_STRANGE: Final = 2
"""Up to so many, it is a record in which a disk has failed, and not a file of another kind."""


def _in_bounds(header: bytes) -> bool:
    """Whether what SQLite goes by is what it writes (its file format, section 1.3): else it calls
    a record that is damaged no database, or one that may not be written."""
    page = _page_size(header)
    return (
        512 <= page <= 65536
        and page.bit_count() == 1
        and {*header[18:20]} <= {1, 2}
        and header[21:24] == b"\x40\x20\x20"
        and 1 <= int.from_bytes(header[44:48], "big") <= 4
    )


def _page_size(header: bytes) -> int:
    page = int.from_bytes(header[16:18], "big")
    return 65536 if page == 1 else page


def _said_size(header: bytes) -> int:
    """How large the file is, as its header says."""
    return int.from_bytes(header[28:32], "big") * _page_size(header)


def is_short(path: Path) -> bool:
    """Whether a file is smaller than its header says."""
    said = _said_size(_header(path))  # first: the file may be growing
    return path.stat().st_size < said


def beside(path: Path, end: str) -> Path:
    """What SQLite puts beside a file: beside the one that a link leads to."""
    file = path.resolve()
    return file.with_name(f"{file.name}{end}")


def has_log(path: Path) -> bool:
    """Whether a write-ahead log with something in it lies beside the file."""
    log = beside(path, "-wal")
    return log.exists() and log.stat().st_size > 0


def _look_at_rights(path: Path) -> None:
    mode = path.stat().st_mode
    # The mode is looked at too: to an administrator every file is writable, and a file that
    # somebody has made read-only is not to be written all the same.
    writable = mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH)
    if not (writable and os.access(path, os.W_OK)):
        why = phrase("is read-only; allow writing to the file, or name another record with --db")
        raise unusable(path, why)
    if not os.access(path.absolute().parent, os.W_OK):
        why = phrase("lies in a folder that is read-only; allow writing there, or move the record")
        raise unusable(path, why)


def look_inside(engine: Engine, path: Path) -> str:
    """The record's schema revision, "" where it is the newest; RecordUnusable where it is newer,
    damaged or in use."""
    try:
        with told(path), engine.connect() as connection:
            tables = _tables(connection)
            revision = migrating.revision_of(connection) if "alembic_version" in tables else ""
    except UnicodeDecodeError as error:  # from SQLite's own message, which quotes what it found
        raise unusable(path, DAMAGED) from error
    newest = migrating.newest()
    if revision.isdecimal() and revision > newest:
        why = phrase("was written by a newer crewtrack; bring this program up to date to open it")
        raise unusable(path, why)
    lacking = revision == newest and not tables >= {*TABLES, EDITIONS, ACTS}
    if lacking or revision not in migrating.REVISIONS:
        raise unusable(path, DAMAGED)
    return "" if revision == newest else revision


def _tables(connection: Connection) -> set[str]:
    rows = connection.exec_driver_sql("SELECT name FROM sqlite_schema WHERE type = 'table'")
    return set(rows.scalars())
