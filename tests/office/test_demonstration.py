"""The demonstration record, made the ordinary way."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from crewtrack.errors import Refused
from crewtrack.facts import KINDS, SIGNOFFS, SORTIES
from crewtrack.office.demonstration import make
from crewtrack.office.demonstration_acts import adoptions, imports
from crewtrack.office.demonstration_rows import ZONE, rows
from crewtrack.office.office import Office
from tests.office.demonstration_days import standings

ON = date(2026, 11, 25)


def _never() -> datetime:
    raise AssertionError("the clock was read though a day was given")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make(tmp_path_factory.mktemp("demonstration"), ON, _never)


@pytest.fixture
def office(made: Path) -> Iterator[Office]:
    with Office.open(made) as opened:
        yield opened


def test_the_record_holds_the_generated_rows(office: Office) -> None:
    with office.view() as view:
        held = {kind.name: sorted(view.reading.rows(kind), key=repr) for kind in KINDS}
    assert held == {name: sorted(given, key=repr) for name, given in rows(ON).items()}


def test_the_record_gives_the_answers_that_its_rows_give(office: Office) -> None:
    with office.view() as view:
        assert view.reckoning().standings(ON) == standings(ON)


def test_for_one_day_it_is_the_same_to_the_last_digest(
    office: Office, tmp_path_factory: pytest.TempPathFactory
) -> None:
    record = make(tmp_path_factory.mktemp("again"), ON)
    with Office.open(record) as again, office.view() as first, again.view() as second:
        assert first.head == second.head


def test_without_a_day_it_is_made_for_today_in_the_units_zone(tmp_path: Path) -> None:
    evening = datetime(2026, 11, 24, 23, 30, tzinfo=ZONE)
    with (
        Office.open(make(tmp_path, None, lambda: evening)) as made_today,
        made_today.view() as view,
    ):
        launched = [row[1] for row in view.reading.rows(SORTIES)]
    assert max(launched) == max(row[1] for row in rows(date(2026, 11, 24))["sorties"])  # type: ignore[type-var]


def test_nothing_is_written_over(made: Path) -> None:
    with pytest.raises(Refused, match="already"):
        make(made.parent, ON)


@pytest.mark.parametrize("on", [date.min, date(2009, 12, 31), date.max], ids=str)
def test_a_day_out_of_all_reason_is_refused_and_leaves_nothing(tmp_path: Path, on: date) -> None:
    with pytest.raises(Refused, match="from 2010-01-01 through 2999-12-31"):
        make(tmp_path / "folder", on)
    assert not (tmp_path / "folder").exists()


def test_every_act_lies_before_the_day_and_after_the_one_before_it(office: Office) -> None:
    with office.view() as view:
        instants = [act.at for act in view.reading.acts()]
    assert instants == sorted(set(instants))
    assert instants[-1].astimezone(ZONE).date() == ON - timedelta(days=1)
    assert len(instants) == len(adoptions(ON)) + len(imports(ON))


def test_what_was_known_half_a_year_ago_leaves_out_what_came_in_since(office: Office) -> None:
    then = datetime(2026, 5, 25, tzinfo=ZONE)
    with office.view(then) as past, office.view() as present:
        known = {row[0] for row in past.reading.rows(SORTIES, past.head.seq)}
        assert known < {row[0] for row in present.reading.rows(SORTIES)}


def test_a_card_that_was_found_late_was_not_known_when_its_neighbours_were(office: Office) -> None:
    late_days = set()
    with office.view(datetime.combine(ON - timedelta(days=100), datetime.min.time(), ZONE)) as view:
        known = {str(row[0]) for row in view.reading.rows(SORTIES, view.head.seq)}
    for row in rows(ON)["sorties"]:
        assert isinstance(row[1], datetime)
        if str(row[0]) not in known and row[1].date() < ON - timedelta(days=180):
            late_days.add(row[1].date())
    assert len(late_days) == 1


def test_a_sea_state_was_corrected_with_a_reason_and_both_values_stand(office: Office) -> None:
    sea = SORTIES.index("sea")
    with office.view() as view:
        revised = [view.reading.revisions(SORTIES, (row[0],)) for row in view.reading.rows(SORTIES)]
    (corrected,) = [revisions for revisions in revised if len(revisions) > 1]
    first, second = corrected
    assert (first.number, second.number) == (1, 2)
    assert first.row[sea] == second.row[sea] + 1  # type: ignore[operator]
    assert second.act.reason


def test_a_sign_off_was_withdrawn_by_a_revision(office: Office) -> None:
    withdrawn = SIGNOFFS.index("withdrawn")
    with office.view() as view:
        (row,) = [one for one in view.reading.rows(SIGNOFFS) if one[withdrawn] is not None]
        first, second = view.reading.revisions(SIGNOFFS, (row[0],))
    assert first.row[withdrawn] is None
    assert second.act.reason == row[SIGNOFFS.index("withdrawn_reason")]
