"""Backups: consistent copies, checked; and back, without destroying what was there."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable, Refused
from crewtrack.facts import Row
from crewtrack.records.backups import backup, restore
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import at

NEW: Row = ("K-30", "Somebody", None, None, None, None, ())


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def head(path: Path) -> int:
    with Record.open(path) as record, record.reading() as reading:
        return reading.head().seq


def spoil(path: Path) -> None:
    """Change a fact behind the record's back."""
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("DROP TRIGGER people_no_update")
        connection.execute("UPDATE people SET name = 'X' WHERE id = 1")


@pytest.fixture
def copy(record: Record, tmp_path: Path) -> Path:
    """A backup of the sample."""
    path = tmp_path / "copy.crewtrack"
    backup(record, path)
    return path


def test_a_backup_made_during_an_act_holds_what_was_before_it(
    record: Record, tmp_path: Path
) -> None:
    path = tmp_path / "copy.crewtrack"
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        backup(record, path)
    assert (head(path), head(record.path)) == (4, 5)


def test_a_backup_is_one_file_and_verifies(copy: Path) -> None:
    assert names(copy.parent) - {"record.crewtrack-wal", "record.crewtrack-shm"} == {
        "record.crewtrack",
        "copy.crewtrack",
    }
    with Record.open(copy) as record:
        assert verify(record) == ()


def test_a_backup_is_never_written_over_a_file(record: Record, copy: Path) -> None:
    before = copy.read_bytes()
    with pytest.raises(Refused, match="there is a file of this name already"):
        backup(record, copy)
    assert copy.read_bytes() == before


def test_a_backup_into_a_folder_that_is_not_there_is_told(record: Record, tmp_path: Path) -> None:
    with pytest.raises(RecordUnusable, match=r"can't be made .* look whether the folder"):
        backup(record, tmp_path / "none" / "copy.crewtrack")


def test_a_backup_of_a_record_that_was_changed_is_not_kept(record: Record, tmp_path: Path) -> None:
    spoil(record.path)
    with pytest.raises(RecordUnusable, match="not as it was recorded") as told:
        backup(record, tmp_path / "copy.crewtrack")
    assert str(record.path) in str(told.value)
    assert "copy.crewtrack" not in names(tmp_path)


def test_a_backup_is_put_back_and_what_was_there_is_kept(sample: Path, copy: Path) -> None:
    with Record.open(sample) as record, record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
    aside = restore(copy, sample)
    assert aside == sample.with_name("record.before-restore.crewtrack")
    assert (head(sample), head(aside), head(copy)) == (4, 5, 4)


def test_each_restore_keeps_what_it_replaces_under_a_name_of_its_own(
    sample: Path, copy: Path
) -> None:
    restore(copy, sample)
    assert restore(copy, sample) == sample.with_name("record.before-restore-2.crewtrack")


def test_a_backup_can_be_put_where_nothing_is(copy: Path, tmp_path: Path) -> None:
    assert restore(copy, tmp_path / "new.crewtrack") is None
    assert head(tmp_path / "new.crewtrack") == 4


@pytest.mark.parametrize("content", [b"", b"not a record at all"])
def test_a_record_that_is_damaged_is_moved_aside_as_it_is(
    sample: Path, copy: Path, content: bytes
) -> None:
    sample.write_bytes(content)
    aside = restore(copy, sample)
    assert aside is not None
    assert (aside.read_bytes(), head(sample)) == (content, 4)


def test_a_log_beside_a_damaged_record_goes_aside_with_it(sample: Path, copy: Path) -> None:
    sample.write_bytes(b"not a record at all")
    sample.with_name("record.crewtrack-wal").write_bytes(b"log")
    restore(copy, sample)
    assert sample.with_name("record.before-restore.crewtrack-wal").read_bytes() == b"log"
    assert not sample.with_name("record.crewtrack-wal").exists()


def test_a_backup_that_was_changed_is_not_put_back(sample: Path, copy: Path) -> None:
    spoil(copy)
    before = sample.read_bytes()
    with pytest.raises(RecordUnusable, match="not as it was recorded") as told:
        restore(copy, sample)
    assert str(copy) in str(told.value)
    assert sample.read_bytes() == before
    assert names(sample.parent) == {"record.crewtrack", "copy.crewtrack"}


def test_what_is_no_record_is_not_put_back(sample: Path, tmp_path: Path) -> None:
    other = tmp_path / "people.csv"
    other.write_text("person,name\n", encoding="utf-8")
    with pytest.raises(RecordUnusable) as told:
        restore(other, sample)
    assert str(told.value) == (
        f"{other} is not a crewtrack record, so it can't be put back; name a whole backup of a "
        "crewtrack record, made with 'crewtrack backup'"
    )
    assert head(sample) == 4


def test_a_backup_that_is_damaged_is_to_be_replaced_by_another(sample: Path, copy: Path) -> None:
    whole = bytearray(copy.read_bytes())
    whole[100:4096] = b"\xff" * 3996
    copy.write_bytes(whole)
    with pytest.raises(RecordUnusable) as told:
        restore(copy, sample)
    assert str(told.value).startswith(f"{copy} is damaged; name a whole backup")
    assert head(sample) == 4


def test_a_disk_that_is_too_full_for_the_copy_is_that_of_the_record(
    sample: Path, copy: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        error = sqlite3.OperationalError("database or disk is full")
        error.sqlite_errorcode = sqlite3.SQLITE_FULL
        raise error

    (tmp_path / "unit").mkdir()
    monkeypatch.setattr("crewtrack.records.backups.copy_consistent", full)
    with pytest.raises(RecordUnusable, match="is full; nothing of this was recorded") as told:
        restore(copy, tmp_path / "unit" / "record.crewtrack")
    assert f"the disk that holds {tmp_path / 'unit'} is full" in str(told.value)


def test_a_record_is_not_put_back_over_itself(sample: Path) -> None:
    with pytest.raises(Refused, match="is the record itself"):
        restore(sample, sample)


def test_a_record_that_is_in_use_is_not_replaced(
    sample: Path, copy: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.records.backups.BUSY_SECONDS", 0)
    with Record.open(sample) as record, record.reading() as reading:
        reading.head()
        with pytest.raises(RecordUnusable, match="in use by another program"):
            restore(copy, sample)
    assert head(sample) == 4
    assert "record.before-restore.crewtrack" not in names(sample.parent)


def test_a_backup_that_may_only_be_read_is_put_back(sample: Path, copy: Path) -> None:
    copy.chmod(0o444)
    restore(copy, sample)
    with Record.open(sample) as record, record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
    assert head(sample) == 5
