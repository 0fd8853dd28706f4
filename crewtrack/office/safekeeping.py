"""Automatic backups: taken where the record changed since the last one, verified, and thinned out.

They are taken on closing a window and before every import and adoption; the copy before a
migration is made by whoever opens the record (``office.office``), and a restore moves aside what it
replaces. A backup that is not whole gets no name.
"""

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Lock
from typing import Final, Literal
from zoneinfo import ZoneInfo

from crewtrack.errors import NotBackedUp, RecordUnusable, Refused
from crewtrack.office.backup_folder import KeptBackup, backups_of, free_name, named_for
from crewtrack.office.backup_settings import BackupSettings, read_settings
from crewtrack.office.office import Office, Progress, silent
from crewtrack.office.thinning import Mark, kept
from crewtrack.phrases import joined, later, phrase
from crewtrack.records import backups, moving
from crewtrack.records.stamps import Stamp, stamp, stamp_of

_TURN: Final = Lock()
"""One at a time: two windows that close together need one backup."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A backup that was taken, the older ones that went, and those that should have gone and
    could not be removed: the next time they are tried again."""

    path: Path
    removed: tuple[Path, ...]
    stuck: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class Safekeeping:
    """How a record is kept safe: where its backups lie, the last of them, how many there are, and
    whether none is taken by itself (``off``)."""

    folder: Path
    last: KeptBackup | None
    count: int
    off: bool


def before(
    office: Office, what: Literal["import", "adoption"], progress: Progress = silent
) -> Taken | None:
    """A backup before something is done to the whole record; None where none is needed.
    NotBackedUp where there can be none."""
    try:
        return _take(office, f"before-{what}", progress)
    except (RecordUnusable, Refused, OSError) as error:
        raise NotBackedUp(phrase(_NOT_BACKED_UP, why=_why(error))) from error


_NOT_BACKED_UP: Final = later(
    "nothing was done, since there can be no backup before it: {why}; see to that, or go on without"
    " one: --no-backup"
)


def on_closing(office: Office, progress: Progress = silent) -> Taken | None:
    """A backup at the end of work; None where none is needed. What ``progress`` raises breaks it
    off, and leaves no file."""
    return _take(office, "on-closing", progress)


def keep_now(office: Office, progress: Progress = silent) -> Taken:
    """A backup because somebody wants one, whether or not anything has changed."""
    taken = _take(office, "by-hand", progress, always=True)
    if taken is None:
        raise RecordUnusable(
            phrase("{record} holds nothing yet that could be backed up", record=office.record.path)
        )
    return taken


def safe_kept(office: Office) -> Safekeeping:
    """How the record is kept safe; Refused where the settings have faults."""
    settings = read_settings()
    own = _stamp_of(office)
    folder = settings.folder_for(office.record.path)
    found = () if own is None else backups_of(office.record.path, folder, own.first)
    return Safekeeping(folder, next(iter(found), None), len(found), settings.off)


def listed(record: Path) -> tuple[KeptBackup, ...]:
    """The backups of the record at that path, the newest first, as far as can be told: also where
    the record is damaged, or gone. Then they must all be of one record."""
    found = named_for(record, folder_of(record))
    own = stamp(record)
    ours = tuple(one for one in found if own is not None and one.first == own.first)
    return ours or (found if len({one.first for one in found}) == 1 else ())


def best_backup(record: Path, progress: Progress = silent) -> Path | None:
    """The backup to put in the place of a record that is damaged: the newest that opens and
    verifies; None where none can be found. Reads as many through as it takes."""
    with suppress(OSError):  # a folder that can't be read: something else has gone wrong already
        found = listed(record)
        return next((one.path for one in found if is_whole(one.path, progress)), None)
    return None


def newest(record: Path) -> Path | None:
    """The newest backup of the record at that path, not read through; None where none is found."""
    with suppress(OSError):
        return next((one.path for one in listed(record)), None)
    return None


def is_whole(backup: Path, progress: Progress = silent) -> bool:
    """Whether a backup opens and verifies. It stays as it is."""
    return backups.is_whole(backup, progress)


def folder_of(record: Path) -> Path:
    """Where a record's backups lie; where they usually do, where the settings have faults: this is
    asked when something else has gone wrong already."""
    with suppress(Refused):
        return read_settings().folder_for(record)
    return BackupSettings().folder_for(record)


def _stamp_of(office: Office) -> Stamp | None:
    with office.record.reading() as reading:
        return stamp_of(reading)


def _take(office: Office, occasion: str, progress: Progress, always: bool = False) -> Taken | None:
    settings = read_settings()
    if settings.off and not always:
        return None
    with _TURN:
        own = _stamp_of(office)
        if own is None:
            return None
        folder = settings.folder_for(office.record.path)
        if not always and _has(office, own, backups_of(office.record.path, folder, own.first)):
            return None
        path = free_name(folder, office.record.path, office.clock(), occasion)
        moving.make_folder(path)
        backups.backup(office.record, path, progress)
        removed, stuck = _thin(office, settings, own)
    return Taken(path, removed, stuck)


def _has(office: Office, own: Stamp, found: tuple[KeptBackup, ...]) -> bool:
    """Whether the last backup holds all that the record does. One from later than now was taken
    by a clock that went wrong, and is not the last."""
    now = office.clock()
    last = next((one for one in found if one.instant <= now), None)
    return last is not None and last.head == own.head


def _thin(
    office: Office, settings: BackupSettings, own: Stamp
) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
    """Remove what need not be kept; returns what went and what would not go."""
    if settings.off:
        return (), ()
    zone, today = office.zone(), office.today()
    by_mark = {
        _mark(one, zone): one.path
        for one in backups_of(
            office.record.path, settings.folder_for(office.record.path), own.first
        )
    }
    removed, stuck = [], []
    for mark in sorted(by_mark.keys() - kept(by_mark.keys(), today, settings)):
        try:
            by_mark[mark].unlink(missing_ok=True)
            removed.append(by_mark[mark])
        except OSError:
            stuck.append(by_mark[mark])
    return tuple(removed), tuple(stuck)


def _mark(one: KeptBackup, zone: ZoneInfo) -> Mark:
    return Mark(one.instant.astimezone(zone), one.occasion, one.path.name)


def _why(error: Exception) -> str:
    """What went wrong, as part of a sentence."""
    match error:
        case Refused():
            fault = error.faults[0]
            told = joined("; ", (fault.problem, fault.cure))
            return joined(": ", (fault.place, fault.field, told))
        case OSError():
            return joined(": ", (str(error.filename or ""), (error.strerror or str(error)).lower()))
        case _:
            return next((told for told in error.args if isinstance(told, str)), str(error))
