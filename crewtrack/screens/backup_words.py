"""What is said of automatic backups."""

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from crewtrack.office.backup_folder import OCCASIONS, KeptBackup
from crewtrack.office.safekeeping import Safekeeping, Taken
from crewtrack.screens.columns import aligned, safe
from crewtrack.screens.import_words import size_told
from crewtrack.screens.language import count_of, say


def last_backup_told(of: Safekeeping, zone: ZoneInfo) -> str:
    """When the last good backup was taken, and where it lies."""
    off = say("none is taken by itself: that is switched off") if of.off else ""
    if of.last is None:
        return "; ".join(filter(None, (say("none yet"), off)))
    told = say(
        "{when}, {occasion}, in {folder}; {count} kept",
        when=_minutes(of.last.instant.astimezone(zone)),
        occasion=say(OCCASIONS[of.last.occasion]),
        folder=of.folder,
        count=of.count,
    )
    return "; ".join(filter(None, (told, off)))


def whole_backup_told(best: Path | None, folder: Path) -> str:
    """Which backup is to be put in the place of a damaged record."""
    if best is None:
        return say("No backup of it that is whole was found in {folder}.", folder=folder)
    return say("The newest backup that is whole is {file}.", file=best)


def restore_advice(best: Path | None, folder: Path, record: Path) -> str:
    """The same for a terminal: the command to put it back."""
    told = whole_backup_told(best, folder)
    if best is None:
        return told
    return f"{told} Put it back with: crewtrack --db {_quoted(record)} restore {_quoted(best)}"


def listed_told(found: Sequence[KeptBackup], whole: Sequence[bool] = ()) -> str:
    """The backups of a record as lines, the newest first; ``whole`` says of each whether it is,
    where they were looked into."""
    heads = ("taken (UTC)", "occasion", "acts", "size", *(("whole",) if whole else ()), "file")
    rows = [
        (
            _minutes(one.instant.astimezone(UTC)),
            OCCASIONS[one.occasion],
            str(one.head.seq),
            size_told(one.size),
            *(("yes" if whole[place] else "NO",) if whole else ()),
            safe(str(one.path)),
        )
        for place, one in enumerate(found)
    ]
    return "\n".join(aligned([heads, *rows]))


def kept_told(done: Taken) -> str:
    """What taking a backup now did."""
    gone = len(done.removed)
    more = f"; {gone} older {'one' if gone == 1 else 'ones'} removed" if gone else ""
    return f"Wrote and checked {done.path}{more}."


def stuck_told(done: Taken) -> str:
    """Which backups should have gone and could not be removed; empty where there are none."""
    if not done.stuck:
        return ""
    return say("{files} of older backups could not be removed; look whether the folder {folder} may"
               " be written in.", folder=done.path.parent,
               files=count_of(len(done.stuck), "{count} file", "{count} files"))  # fmt: skip


def _minutes(instant: datetime) -> str:
    return instant.strftime("%Y-%m-%d %H:%M")


def _quoted(path: Path) -> str:
    """A path as it can be typed: between quotes where a shell would take it apart."""
    told = safe(str(path))
    return f'"{told}"' if any(mark in told for mark in " ()&;$'") else told
