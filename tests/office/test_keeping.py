"""Keeping the record: a new one, its editions, and whether it is whole."""

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.office import keeping
from crewtrack.office.office import Office
from tests.behind_its_back import change
from tests.office.unit_at_work import EVIDENCE, FIRST_ACT, STANDARD, Clock, Unit


def edition(name: str, effective: str) -> str:
    return STANDARD.replace('"2026-1"', f'"{name}"').replace("2026-01-01", effective)


LATER = edition("2026-2", "2026-09-01")
EARLIER = edition("2025-1", "2025-01-01")


def faults(unit: Unit, text: str, reason: str | None = None) -> list[tuple[str, str]]:
    """The field and problem of every fault of an adoption."""
    with pytest.raises(Refused) as refusal:
        unit.adopt(text, reason)
    return [(fault.field, fault.problem) for fault in refusal.value.faults]


def names(unit: Unit) -> list[str]:
    with unit.office.view() as view:
        return [one.edition for one in view.reading.editions()]


def test_a_new_record_holds_its_standard_and_who_made_it(unit: Unit) -> None:
    assert names(unit) == ["2026-1"]
    with unit.office.view() as view:
        (act,) = view.reading.acts()
    assert (act.kind, act.author, act.reason, act.at) == ("adopt", "Ana", None, FIRST_ACT)


def test_a_new_record_may_take_a_standard_that_is_in_effect_already(unit: Unit) -> None:
    # Its effective date lies before the first act, and no reason was asked for.
    assert keeping.standard_source(unit.office, date(2026, 5, 1)) == STANDARD


def test_no_record_is_made_over_a_file(unit: Unit) -> None:
    path = unit.office.record.path
    before = path.read_bytes()
    with pytest.raises(Refused, match="already"):
        keeping.init(path, unit.standard(STANDARD), "Ana", Clock())
    assert path.read_bytes() == before


def test_no_record_is_made_with_a_standard_that_has_faults(tmp_path: Path) -> None:
    (tmp_path / "unit.toml").write_text(STANDARD.replace("P90D", "P0D"), encoding="utf-8")
    with pytest.raises(Refused):
        keeping.init(tmp_path / "record.crewtrack", tmp_path / "unit.toml", "Ana", Clock())
    assert [path.name for path in tmp_path.iterdir()] == ["unit.toml"]


def test_a_standard_is_checked_without_a_record(tmp_path: Path) -> None:
    (tmp_path / "unit.toml").write_text(STANDARD, encoding="utf-8")
    assert keeping.check_standard(tmp_path / "unit.toml").edition == "2026-1"


def test_an_edition_of_a_coming_day_needs_no_reason(unit: Unit) -> None:
    done = unit.adopt(LATER)
    assert (done.standard.edition, done.digest) == ("2026-2", unit.head())
    assert names(unit) == ["2026-1", "2026-2"]


def test_an_edition_of_today_needs_no_reason(unit: Unit) -> None:
    unit.adopt(edition("2026-2", "2026-06-01"))
    assert names(unit) == ["2026-1", "2026-2"]


@pytest.mark.parametrize("reason", [None, "", "  "])
def test_an_edition_of_a_past_day_needs_a_reason(unit: Unit, reason: str | None) -> None:
    assert faults(unit, EARLIER, reason) == [("effective", "2025-01-01 is in the past")]
    assert names(unit) == ["2026-1"]


def test_today_is_the_units_today_when_an_edition_is_adopted(unit: Unit) -> None:
    # 03:00 UTC on 2 June is still 1 June in Detroit.
    unit.clock.at = FIRST_ACT + timedelta(hours=15)
    unit.adopt(edition("2026-2", "2026-06-01"))


def test_the_reason_stands_in_the_journal(unit: Unit) -> None:
    unit.adopt(EARLIER, "found in the safe")
    with unit.office.view() as view:
        assert [act.reason for act in view.reading.acts()] == [None, "found in the safe"]


def test_the_same_standard_twice_changes_nothing(unit: Unit) -> None:
    before = unit.head()
    assert unit.adopt(STANDARD).digest is None
    assert unit.head() == before


def test_two_editions_of_one_date_are_refused(unit: Unit) -> None:
    unit.adopt(LATER)
    assert faults(unit, edition("2026-3", "2026-09-01")) == [
        ("effective", "edition '2026-2' is in effect from 2026-09-01 too")
    ]


def test_two_editions_of_one_name_are_refused(unit: Unit) -> None:
    ((field, problem),) = faults(unit, edition("2026-1", "2026-09-01"))
    assert field == "edition"
    assert "holds an edition '2026-1' already" in problem


def test_a_unit_keeps_its_zone(unit: Unit) -> None:
    ((field, problem),) = faults(unit, LATER.replace("America/Detroit", "UTC"))
    assert field == "zone"
    assert "'UTC' is not the zone of the editions before" in problem


def test_all_that_is_wrong_with_an_edition_is_told_at_once(unit: Unit) -> None:
    told = faults(unit, edition("2026-1", "2026-01-01").replace("America/Detroit", "UTC"))
    assert [field for field, _ in told] == ["edition", "effective", "zone", "effective"]


def test_an_edition_that_another_desk_adopts_meanwhile_is_seen(unit: Unit) -> None:
    def meanwhile() -> datetime:
        unit.office.clock = unit.clock
        unit.adopt(LATER)
        return unit.clock()

    unit.office.clock = meanwhile
    other = LATER.replace("2026-09-01", "2026-10-01")
    problem = "the record holds an edition '2026-2' already, with another text"
    assert faults(unit, other) == [("edition", problem)]
    assert names(unit) == ["2026-1", "2026-2"]


def test_the_edition_in_effect_is_shown_as_it_was_adopted(unit: Unit) -> None:
    unit.adopt(LATER)
    assert keeping.standard_source(unit.office, date(2026, 8, 31)) == STANDARD
    assert keeping.standard_source(unit.office, date(2026, 9, 1)) == LATER
    assert keeping.standard_source(unit.office, date(1999, 1, 1)) == STANDARD


def test_the_edition_in_effect_today_is_shown_where_no_day_is_asked(unit: Unit) -> None:
    unit.adopt(LATER)
    unit.clock.at = FIRST_ACT + timedelta(days=92)
    assert keeping.standard_source(unit.office) == LATER


def test_a_record_is_verified_whole(full_unit: Unit) -> None:
    assert keeping.verify(full_unit.office) == ()


def test_a_changed_name_is_found(full_unit: Unit) -> None:
    change(full_unit.office.record.path, "UPDATE people SET name = 'Ann' WHERE person = 'K-01'")
    assert any("K-01" in str(found) for found in keeping.verify(full_unit.office))


def test_a_backup_can_be_put_back(full_unit: Unit, tmp_path: Path) -> None:
    path, copy = full_unit.office.record.path, tmp_path / "copy.crewtrack"
    before = full_unit.head()
    keeping.backup(full_unit.office, copy)
    full_unit.take(people="person,name\nK-09,Zoë\n")
    full_unit.office.close()
    kept = keeping.restore(path, copy)
    assert kept is not None
    for where, head_is_old in ((path, True), (kept, False)):
        with Office.open(where) as office, office.view() as view:
            assert (view.head.digest == before) is head_is_old


def test_a_backup_can_be_put_where_nothing_was(full_unit: Unit, tmp_path: Path) -> None:
    keeping.backup(full_unit.office, tmp_path / "copy.crewtrack")
    assert keeping.restore(tmp_path / "new.crewtrack", tmp_path / "copy.crewtrack") is None
    assert (tmp_path / "new.crewtrack").is_file()


def test_what_is_no_record_is_not_put_back(unit: Unit) -> None:
    before = unit.head()
    with pytest.raises(RecordUnusable, match="not a crewtrack record"):
        keeping.restore(unit.office.record.path, unit.files(EVIDENCE)[2])
    assert unit.head() == before
