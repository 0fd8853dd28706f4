"""Backups of a record, and putting one back."""

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Final

from sqlalchemy.exc import DBAPIError

from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.phrases import joined, later, phrase
from crewtrack.records import moving
from crewtrack.records.connecting import DAMAGED, meaning, raw_connection, told, unusable
from crewtrack.records.copying import copy_consistent
from crewtrack.records.opening import is_record, no_record
from crewtrack.records.pairing import not_paired
from crewtrack.records.progress import Progress, silent
from crewtrack.records.stamps import read_only
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify

BUSY_SECONDS: Final = 5.0
"""How long to wait for those who have a record open that is to make way."""

_NAME_A_BACKUP: Final = later(
    "name a whole backup of a crewtrack record, made with 'crewtrack backup'"
)

_USE_A_WHOLE_ONE: Final = phrase("see 'crewtrack verify', and use a backup that is whole")


def backup(record: Record, path: Path, progress: Progress = silent) -> None:
    """Copy the record to a new file, while it is in use; the copy is verified before it gets
    its name. Refused where a file of that name is there. Where ``progress`` raises, there is no
    file."""
    moving.refuse_existing(path)
    with moving.workshop(path) as made:
        with told(record.path, path):
            copy_consistent(record.path, made, progress=progress)
        with _speaking_of(made, record.path):
            _check(made, progress)
        moving.place(made, path)


def restore(source: Path, target: Path, progress: Progress = silent) -> Path | None:
    """Put a backup in the place of a record, once its copy opens and verifies.

    What was there is moved to a name of its own (``record.before-restore.crewtrack``), which is
    returned; None where nothing was there. RecordUnusable where the backup is none, or the
    record is in use; then, and where ``progress`` raises, everything stays as it was.
    """
    why = no_record(source)
    if why is not None:
        said = phrase(
            "{why}, so it can't be put back; {cure}", why=why, cure=phrase(_NAME_A_BACKUP)
        )
        raise unusable(source, said)
    if target.exists() and target.samefile(source):
        problem = phrase("is the record itself")
        raise Refused(Fault(str(source), "", problem, phrase("name a backup of it to put back")))
    with moving.workshop(target) as made:
        with _blaming_backup(), _speaking_of(made, source):
            with told(source, target):
                copy_consistent(source, made, read_only(source), progress)
            _check(made, progress)
        aside = _make_way(target)
        moving.place(made, target)
    return aside


def is_whole(source: Path, progress: Progress = silent) -> bool:
    """Whether a backup opens, in today's tables, and all in it is as it was recorded, so far as
    that can be found out: looked into is a copy, so the backup itself stays as it is."""
    with tempfile.TemporaryDirectory(prefix="crewtrack-") as folder:
        made = Path(folder) / "record"
        try:
            with told(source, made):
                copy_consistent(source, made, read_only(source), progress)
            _check(made, progress)
        except (RecordUnusable, OSError, sqlite3.Error, DBAPIError, UnicodeDecodeError):
            return False
    return True


def _check(made: Path, progress: Progress) -> None:
    """RecordUnusable unless a copy opens, in today's tables, and is whole."""
    with Record.open(made) as record:
        found = verify(record, progress)
    if found:
        rest = f" (and {len(found) - 1} more)" if len(found) > 1 else ""
        why = phrase("is not as it was recorded: {what}", what=f"{found[0]}{rest}")
        raise unusable(made, joined("; ", (why, _USE_A_WHOLE_ONE)))


@contextmanager
def _speaking_of(made: Path, original: Path) -> Iterator[None]:
    """Within, what is said of a copy is said of what it is a copy of, and what is said of the
    folder that it is made in, of the one where that folder lies."""
    try:
        yield
    except RecordUnusable as error:
        said = str(error).replace(str(made), str(original))
        raise RecordUnusable(said.replace(str(made.parent), str(made.parent.parent))) from error


@contextmanager
def _blaming_backup() -> Iterator[None]:
    """Within, the cure for damage is another backup: it is the backup that is damaged."""
    try:
        yield
    except RecordUnusable as error:
        cured = f"is damaged; {_NAME_A_BACKUP}"
        raise RecordUnusable(str(error).replace(DAMAGED, cured)) from error


def _make_way(target: Path) -> Path | None:
    """Move what is at ``target`` aside, once nobody uses it."""
    if not (target.exists() or target.is_symlink()):
        return None
    # A log of another record is not folded in: that would destroy what is put aside.
    if is_record(target) and not_paired(target) is None:
        _let_go(target)
    return moving.move_aside(target, "before-restore")


def _let_go(target: Path) -> None:
    """Fold a record's log into it; RecordUnusable while anybody has it open. One that is
    damaged stays as it is."""
    try:
        with closing(raw_connection(target, "mode=rw", BUSY_SECONDS)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE").close()
    except sqlite3.Error as error:
        why = meaning(error, target.absolute().parent)
        if why is not None and getattr(error, "sqlite_errorcode", 0) & 0xFF in _IN_USE:
            raise unusable(target, why) from error


_IN_USE = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
