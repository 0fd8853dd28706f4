"""Where a record is opened, and what the clock says there."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.office import keeping
from crewtrack.office.office import (
    Office,
    editions_of,
    now,
    parsed,
    silent,
)
from crewtrack.records.reading import StoredEdition
from crewtrack.records.store import create
from tests.office.unit_at_work import EVIDENCE, FIRST_ACT, STANDARD, Clock, Unit


def test_the_clock_tells_an_aware_instant() -> None:
    assert now().utcoffset() == timedelta(0)


@pytest.mark.parametrize(
    ("instant", "today"),
    [
        # Midnight in Detroit is 05:00 UTC in winter, 04:00 in summer.
        (datetime(2026, 1, 15, 4, 59, tzinfo=UTC), date(2026, 1, 14)),
        (datetime(2026, 1, 15, 5, 0, tzinfo=UTC), date(2026, 1, 15)),
        (datetime(2026, 7, 15, 4, 0, tzinfo=UTC), date(2026, 7, 15)),
    ],
)
def test_today_is_the_date_in_the_units_zone(unit: Unit, instant: datetime, today: date) -> None:
    unit.clock.at = instant
    assert unit.office.today() == today
    assert str(unit.office.zone()) == "America/Detroit"


def test_before_its_first_act_a_record_knows_nothing(unit: Unit) -> None:
    before = FIRST_ACT - timedelta(microseconds=1)
    with pytest.raises(Refused) as refusal, unit.office.view(before):
        pass
    assert str(refusal.value) == (
        "--known-at: the record held nothing yet at 2026-06-01T07:59-04:00; it begins at"
        " 2026-06-01T08:00-04:00; ask about that instant or a later one"
    )


def test_the_instant_named_as_the_beginning_is_one_that_can_be_asked_about(tmp_path: Path) -> None:
    clock = Clock(FIRST_ACT + timedelta(microseconds=1))
    (tmp_path / "unit.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(tmp_path / "record", tmp_path / "unit.toml", "ana", clock)
    with Office.open(tmp_path / "record", clock) as office:
        with pytest.raises(Refused, match="begins at 2026-06-01T08:01-04:00"):
            office.view(FIRST_ACT).__enter__()
        clock.at = FIRST_ACT + timedelta(hours=1)
        with office.view(FIRST_ACT + timedelta(minutes=1)) as view:
            assert view.head.seq == 1


def test_what_will_be_known_later_is_not_known_now(unit: Unit) -> None:
    unit.clock.at = FIRST_ACT + timedelta(hours=1)
    with unit.office.view(unit.clock.at) as view:
        assert view.head.seq == 1
    later = unit.clock.at + timedelta(minutes=1)
    with pytest.raises(Refused) as refusal, unit.office.view(later):
        pass
    assert str(refusal.value) == (
        "--known-at: 2026-06-01T09:01-04:00 is later than now, 2026-06-01T09:00-04:00: the record"
        " can't know yet; leave it out for all that is recorded"
    )


@pytest.mark.parametrize("known_at", [None, FIRST_ACT])
def test_a_record_that_was_never_finished_is_unusable(
    tmp_path: Path, known_at: datetime | None
) -> None:
    create(tmp_path / "record")
    with (
        Office.open(tmp_path / "record") as office,
        pytest.raises(RecordUnusable, match="never finished"),
    ):
        office.view(known_at).__enter__()


def test_a_view_goes_through_the_last_act_that_was_known(unit: Unit) -> None:
    unit.clock.at = FIRST_ACT + timedelta(hours=1)
    unit.take(people=EVIDENCE["people"])
    with unit.office.view(FIRST_ACT) as then, unit.office.view(unit.clock.at) as now_known:
        assert (then.head.seq, now_known.head.seq) == (1, 2)
        assert then.reckoning().evidence.books == {}
        assert list(now_known.reckoning().evidence.books) == ["K-01", "K-02", "V-01"]


def test_a_view_stays_as_it_is_while_others_write(unit: Unit) -> None:
    with unit.office.view() as view:
        unit.take(people=EVIDENCE["people"])
        assert view.reckoning().evidence.books == {}


def test_an_edition_that_can_no_longer_be_read_makes_the_record_unusable() -> None:
    stored = StoredEdition("2026-1", date(2026, 1, 1), STANDARD.replace("P90D", "PT5H"), 1)
    with pytest.raises(RecordUnusable, match="edition '2026-1'") as error:
        editions_of((stored,))
    assert "use the version of the program that adopted it" in str(error.value)
    assert "\n" not in str(error.value)


def test_an_edition_is_read_once() -> None:
    assert parsed("2026-1", STANDARD) is parsed("2026-1", STANDARD)


def test_a_file_that_is_not_there_is_said_on_opening(tmp_path: Path) -> None:
    with pytest.raises(RecordUnusable, match="does not exist"):
        Office.open(str(tmp_path / "none.crewtrack"))


def test_progress_that_nobody_watches_says_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    silent("people.csv", 1, 2)
    assert capsys.readouterr() == ("", "")
