"""Where automatic backups go and how many are kept."""

from pathlib import Path

import pytest

from crewtrack.errors import Refused
from crewtrack.office.backup_settings import BackupSettings, read_settings, write_settings


def faults(file: Path, text: str) -> list[tuple[str, str, str]]:
    """The field, problem and cure of every fault of a file."""
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Refused) as refusal:
        read_settings()
    assert {fault.place for fault in refusal.value.faults} == {str(file)}
    return [(fault.field, fault.problem, fault.cure) for fault in refusal.value.faults]


def test_without_a_file_they_are_the_usual(backups_file: Path) -> None:
    assert read_settings() == BackupSettings(None, 7, 5, 12)


def test_usually_backups_lie_in_a_folder_beside_the_record(tmp_path: Path) -> None:
    record = tmp_path / "unit.crewtrack"
    assert BackupSettings().folder_for(record) == tmp_path / "unit-backups"


def test_what_is_written_is_read_again(backups_file: Path, tmp_path: Path) -> None:
    kept = BackupSettings(tmp_path / 'the "other" disk\\ü', 1, 0, 999)
    write_settings(kept)
    assert read_settings() == kept
    assert kept.folder_for(tmp_path / "unit.crewtrack") == kept.folder
    assert [path.name for path in backups_file.parent.iterdir()] == ["backups.toml"]


def test_a_setting_that_is_left_out_is_the_usual(backups_file: Path) -> None:
    backups_file.write_text("\ufeffdays = 3\n", encoding="utf-8")
    assert read_settings() == BackupSettings(None, 3, 5, 12)


@pytest.mark.parametrize(
    ("numbers", "off"), [((0, 0, 0), True), ((1, 0, 0), False), ((0, 0, 1), False)]
)
def test_with_all_at_nought_none_is_taken(numbers: tuple[int, int, int], off: bool) -> None:
    assert BackupSettings(None, *numbers).off is off


def test_every_fault_is_told_with_its_cure(backups_file: Path) -> None:
    told = faults(
        backups_file, 'folder = "backups"\ndays = -1\nweeks = 1.5\nmonths = true\nyears = 2\n'
    )
    assert told == [
        ("years", "there is no such setting",
         "correct it, or remove the file to have what is usual"),
        ("folder", "'backups' is not a folder's whole path",
         "write it from the root on, or leave it empty for a folder beside the record"),
        ("days", "-1 is less than 0", "write a whole number from 0 to 999"),
        ("weeks", "1.5 is not a whole number", "write a whole number from 0 to 999"),
        ("months", "True is not a whole number", "write a whole number from 0 to 999"),
    ]  # fmt: skip


def test_what_is_no_toml_is_told(backups_file: Path) -> None:
    ((field, problem, cure),) = faults(backups_file, "days: 3\n")
    assert field == ""
    assert problem.startswith("is not TOML in UTF-8 (")
    assert cure == "correct it, or remove the file to have what is usual"


def test_what_can_t_be_read_is_told(backups_file: Path) -> None:
    backups_file.mkdir()
    with pytest.raises(Refused, match="can't be read"):
        read_settings()


def test_what_can_t_be_used_is_not_written(backups_file: Path) -> None:
    with pytest.raises(Refused) as refusal:
        write_settings(BackupSettings(Path("backups"), 1000))
    assert [fault.field for fault in refusal.value.faults] == ["folder", "days"]
    assert not backups_file.exists()
