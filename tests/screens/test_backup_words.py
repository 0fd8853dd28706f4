"""What is said of automatic backups."""

from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from crewtrack.office.backup_folder import KeptBackup
from crewtrack.office.safekeeping import Safekeeping, Taken
from crewtrack.records.journal import Head
from crewtrack.screens import backup_words

DETROIT = ZoneInfo("America/Detroit")
FOLDER = Path("unit-backups")
LAST = KeptBackup(
    FOLDER / "unit.2026-11-25T214000Z.before-import.crewtrack",
    datetime(2026, 11, 25, 21, 40, tzinfo=UTC), "before-import", 1_234_567, "act-1", Head(12, "ab"),
)  # fmt: skip


def test_the_last_good_backup_is_told_in_the_units_zone() -> None:
    told = backup_words.last_backup_told(Safekeeping(FOLDER, LAST, 9, False), DETROIT)
    assert told == "2026-11-25 16:40, before an import, in unit-backups; 9 kept"


def test_that_there_is_none_yet_is_told() -> None:
    told = backup_words.last_backup_told(Safekeeping(FOLDER, None, 0, False), DETROIT)
    assert told == "none yet"


def test_that_they_are_switched_off_is_told() -> None:
    told = backup_words.last_backup_told(Safekeeping(FOLDER, None, 0, True), DETROIT)
    assert told == "none yet; none is taken by itself: that is switched off"


def test_the_list_has_a_line_a_backup_in_utc() -> None:
    assert backup_words.listed_told([LAST], [False]).splitlines() == [
        "taken (UTC)       occasion          acts  size    whole  file",
        f"2026-11-25 21:40  before an import  12    1.2 MB  NO     {LAST.path}",
    ]


def test_a_path_with_blanks_can_be_typed_as_it_is_told() -> None:
    record = Path("our unit.crewtrack")
    told = backup_words.restore_advice(LAST.path, FOLDER, record)
    assert told.endswith(f'crewtrack --db "our unit.crewtrack" restore {LAST.path}')


def test_how_many_went_is_told() -> None:
    told = [
        backup_words.kept_told(Taken(Path("new"), tuple(map(Path, gone)), ())).partition("new")[2]
        for gone in ("", "a", "ab")
    ]
    assert told == [".", "; 1 older one removed.", "; 2 older ones removed."]


def test_those_that_would_not_go_are_told() -> None:
    assert backup_words.stuck_told(Taken(FOLDER / "new", (), ())) == ""
    told = backup_words.stuck_told(Taken(FOLDER / "new", (), (Path("a"),)))
    assert told.startswith("1 file of older backups could not be removed; ")
