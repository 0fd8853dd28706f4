"""Acts by others are noticed cheaply, and without keeping anybody from writing."""

from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records.backups import backup, restore
from crewtrack.records.store import Record, create
from tests.records.samples import at


def add(record: Record, key: str) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [(key, "x", None, None, None, None, ())])


def test_the_place_of_the_last_act_is_told(record: Record) -> None:
    assert record.head_seq() == 4
    add(record, "K-30")
    assert record.head_seq() == 5


def test_in_an_empty_record_it_is_0(tmp_path: Path) -> None:
    create(tmp_path / "record.crewtrack")
    with Record.open(tmp_path / "record.crewtrack") as record:
        assert record.head_seq() == 0


def test_an_act_by_another_is_noticed(record: Record, sample: Path) -> None:
    assert record.head_seq() == 4
    with Record.open(sample) as other:
        add(other, "K-30")
    assert record.head_seq() == 5


def test_an_act_is_not_noticed_before_it_is_committed(record: Record, sample: Path) -> None:
    with Record.open(sample) as other, other.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
        assert record.head_seq() == 4
    assert record.head_seq() == 5


def test_having_looked_keeps_nobody_from_writing(record: Record, sample: Path) -> None:
    record.head_seq()
    with Record.open(sample, busy_seconds=0) as other:
        add(other, "K-30")


def test_nothing_is_left_beside_the_record_when_it_is_closed(sample: Path) -> None:
    with Record.open(sample) as record:
        record.head_seq()
        add(record, "K-30")
    assert [path.name for path in sample.parent.iterdir()] == [sample.name]


def test_a_record_can_be_looked_at_again_after_it_was_closed(record: Record) -> None:
    record.head_seq()
    record.close()
    assert record.head_seq() == 4


def test_a_record_that_is_gone_is_told(record: Record, sample: Path) -> None:
    record.head_seq()
    sample.rename(sample.with_name("elsewhere.crewtrack"))
    with pytest.raises(RecordUnusable, match="can't be opened"):
        record.head_seq()


def test_another_record_in_its_place_is_noticed(record: Record, sample: Path) -> None:
    assert record.head_seq() == 4
    sample.rename(sample.with_name("elsewhere.crewtrack"))
    create(sample)
    assert record.head_seq() == 0


def test_a_record_that_somebody_looks_at_is_in_use(
    record: Record, sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.records.backups.BUSY_SECONDS", 0)
    copy = sample.with_name("copy.crewtrack")
    backup(record, copy)
    record.head_seq()
    with pytest.raises(RecordUnusable, match="in use by another program"):
        restore(copy, sample)
    record.close()
    restore(copy, sample)
    assert record.head_seq() == 4
