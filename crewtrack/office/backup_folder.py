"""The folder of a record's automatic backups: their names, and which files there are some.

``unit.2026-11-25T164000Z.before-import.crewtrack`` is a backup of ``unit.crewtrack``, by its name;
that it is one of this very record is proved by the id of its first act.
"""

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from itertools import count
from pathlib import Path
from typing import Final

from crewtrack.office.backup_settings import read_settings
from crewtrack.phrases import later
from crewtrack.records import moving
from crewtrack.records.journal import Head
from crewtrack.records.stamps import Stamp, stamp

OCCASIONS: Final = {
    "on-closing": later("on closing"),
    "before-import": later("before an import"),
    "before-adoption": later("before an adoption"),
    "before-migration": later("before a change of its tables"),
    "by-hand": later("by hand"),
}
"""On what occasion a backup was taken: in the name of its file, and in words."""

_ENDING: Final = ".crewtrack"
_INSTANT: Final = "%Y-%m-%dT%H%M%SZ"
_NAME: Final = re.compile(
    r"(?P<stem>.+)\.(?P<instant>\d{4}-\d\d-\d\dT\d{6}Z)"
    rf"\.(?P<occasion>{'|'.join(OCCASIONS)})(-[2-9]|-[1-9]\d+)?{re.escape(_ENDING)}"
)


@dataclass(frozen=True, slots=True)
class KeptBackup:
    """A backup in the folder. It was whole when it got its name. ``instant`` is UTC, ``first`` the
    id of the record's first act, ``head`` its last act; ``size`` in bytes."""

    path: Path
    instant: datetime
    occasion: str
    size: int
    first: str
    head: Head


def free_name(folder: Path, record: Path, instant: datetime, occasion: str) -> Path:
    """A name for a backup that is taken at an aware instant."""
    start = f"{record.stem}.{instant.astimezone(UTC).strftime(_INSTANT)}.{occasion}"
    names = (
        folder / f"{start}{'' if number == 1 else f'-{number}'}{_ENDING}" for number in count(1)
    )
    return next(name for name in names if not (name.exists() or name.is_symlink()))


def older_copy(record: Path, instant: datetime) -> Path:
    """A name for the copy of a record whose tables are about to be brought up to date; the folder
    is there then. Whatever the settings switch off, that copy is made."""
    path = free_name(read_settings().folder_for(record), record, instant, "before-migration")
    moving.make_folder(path)
    return path


def named_for(record: Path, folder: Path) -> tuple[KeptBackup, ...]:
    """The backups in a folder that, by their names, are of the record, the newest first. What is
    no record inside, or can't be read, is none."""
    try:
        paths = sorted(folder.iterdir())
    except (FileNotFoundError, NotADirectoryError):
        return ()
    found = [one for path in paths if (one := _backup_at(path, record)) is not None]
    return tuple(sorted(found, key=lambda one: (one.instant, one.path.name), reverse=True))


def backups_of(record: Path, folder: Path, first: str) -> tuple[KeptBackup, ...]:
    """Those of them that are of the very record whose first act has that id."""
    return tuple(one for one in named_for(record, folder) if one.first == first)


def _backup_at(path: Path, record: Path) -> KeptBackup | None:
    """The backup that a file is; None where it is none of a record of that name."""
    named = _NAME.fullmatch(path.name)
    if named is None or named["stem"] != record.stem or path.is_symlink() or not path.is_file():
        return None
    try:
        instant = datetime.strptime(named["instant"], _INSTANT).replace(tzinfo=UTC)
        seen = path.stat()
    except (ValueError, OSError):  # no date at all, or a file that has gone meanwhile
        return None
    try:
        inside = _stamp(path, seen.st_mtime_ns, seen.st_size)
    except LookupError:
        return None
    return KeptBackup(path, instant, named["occasion"], seen.st_size, inside.first, inside.head)


@lru_cache(maxsize=512)
def _stamp(path: Path, changed: int, size: int) -> Stamp:
    """The stamp of a file, read once as long as it stays as it is; LookupError where it has
    none, which is looked at again the next time."""
    found = stamp(path)
    if found is None:
        raise LookupError(path)
    return found
