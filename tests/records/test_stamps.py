"""Which record a file holds, told without opening it as a record."""

from pathlib import Path

import pytest

from crewtrack.records import backups
from crewtrack.records.stamps import stamp, stamp_of
from crewtrack.records.store import Record, create
from tests.behind_its_back import change
from tests.migrations.saved_records import FOLDER


def test_is_that_of_the_record_when_it_is_open(sample: Path) -> None:
    with Record.open(sample) as record, record.reading() as reading:
        said = stamp_of(reading)
    assert said is not None
    assert said == stamp(sample)
    assert said.head.seq == 4


def test_a_copy_has_the_same_and_another_record_another(sample: Path, tmp_path: Path) -> None:
    with Record.open(sample) as record:
        backups.backup(record, tmp_path / "copy.crewtrack")
    assert stamp(tmp_path / "copy.crewtrack") == stamp(sample)
    assert stamp(FOLDER / "0001.crewtrack") != stamp(FOLDER / "0002.crewtrack")


@pytest.mark.parametrize("revision", ["0001", "0002"])
def test_a_file_of_any_revision_stays_as_it_is(revision: str, tmp_path: Path) -> None:
    path = tmp_path / "old.crewtrack"
    path.write_bytes((FOLDER / f"{revision}.crewtrack").read_bytes())
    before = path.read_bytes()
    assert stamp(path) is not None
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == ["old.crewtrack"]


def test_a_record_without_an_act_has_none(tmp_path: Path) -> None:
    create(tmp_path / "new.crewtrack")
    assert stamp(tmp_path / "new.crewtrack") is None


@pytest.mark.parametrize("content", [b"", b"no record", b"SQLite format 3\0" + b"\0" * 5000])
def test_what_is_no_record_has_none(content: bytes, tmp_path: Path) -> None:
    (tmp_path / "odd").write_bytes(content)
    assert stamp(tmp_path / "odd") is None
    assert stamp(tmp_path / "missing") is None


def test_a_journal_that_holds_what_no_act_wrote_has_none(sample: Path) -> None:
    change(sample, "UPDATE acts SET digest = x'ff' WHERE seq = 4")
    assert stamp(sample) is None


def test_a_backup_is_found_whole_or_not_and_stays_as_it_is(sample: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.crewtrack"
    with Record.open(sample) as record:
        backups.backup(record, copy)
    before = copy.read_bytes()
    assert backups.is_whole(copy)
    assert copy.read_bytes() == before
    copy.write_bytes(before[: len(before) // 2])
    assert not backups.is_whole(copy)
