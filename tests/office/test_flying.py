"""A sortie and its performances, logged and corrected in one act."""

from datetime import UTC, datetime

import pytest

from crewtrack.errors import Fault, Refused
from crewtrack.facts import PERFORMANCES, SORTIES, Row
from crewtrack.office import flying
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry
from crewtrack.office.flying import Flown
from crewtrack.office.snapshot import history_of
from tests.office.given_by_hand import ANA, MENDED, changed, done, held, recovery, sortie
from tests.office.unit_at_work import Unit, places


def seen(unit: Unit, key: str) -> Flown:
    flown = flying.flown(unit.office, key)
    assert flown is not None
    return flown


def corrected(unit: Unit, flown: Flown, values: Row, *performances: Row) -> Changes:
    return flying.correct_sortie(unit.office, flown, values, performances, MENDED)


def rows(unit: Unit, key: str) -> list[Row]:
    return [one.row for one in seen(unit, key).performances]


def refusal(unit: Unit, values: Row, *performances: Row) -> tuple[Fault, ...]:
    with pytest.raises(Refused) as refused:
        flying.log_sortie(unit.office, values, performances, ANA)
    return refused.value.faults


def test_a_sortie_is_logged_with_all_that_was_performed_on_it(full_unit: Unit) -> None:
    performances = [recovery("K-01"), recovery("K-02", times=3)]
    changes = flying.log_sortie(full_unit.office, sortie("S-9"), performances, ANA)
    assert changes.added == {"sorties": 1, "performances": 2}
    assert rows(full_unit, "S-9") == [recovery("K-01", "S-9"), recovery("K-02", "S-9", 3)]
    (only,) = history_of(full_unit.office, SORTIES, ("S-9",))
    assert only.act.kind == "sortie"


def test_logging_says_whose_date_moved(full_unit: Unit) -> None:
    performances = [recovery("K-01", times=3)]
    changes = flying.log_sortie(full_unit.office, sortie("S-9"), performances, ANA)
    assert changes.touched == ("K-01",)
    (change,) = changes.standings
    assert (change.person, change.name, change.title) == ("K-01", "Ana Kovač", "Deck pilot")
    days = change.before.through, change.after.through
    assert tuple(map(str, days)) == ("2026-07-30", "2026-08-30")


def test_faults_are_at_the_sortie_and_at_the_performances_by_number(full_unit: Unit) -> None:
    told = refusal(full_unit, sortie("S-1"), recovery("K-01"), recovery("K-9"), recovery("K-01"))
    assert places(told) == [
        ("sorties 1", "sortie"),
        ("performances 2", "person"),
        ("performances 3", "task"),
    ]


def test_a_sortie_without_a_key_is_refused_at_its_key(full_unit: Unit) -> None:
    told = refusal(full_unit, changed(sortie("x"), SORTIES, sortie=None), recovery("K-01"))
    assert ("sorties 1", "sortie") in places(told)


def test_what_is_not_there_was_not_flown(full_unit: Unit) -> None:
    assert flying.flown(full_unit.office, "S-9") is None


def test_correcting_adds_revises_and_strikes_in_one_act(full_unit: Unit) -> None:
    flying.log_sortie(
        full_unit.office, sortie("S-9"), [recovery("K-01"), recovery("K-02"), recovery("V-01")], ANA
    )
    now = [recovery("V-01"), recovery("K-02", times=2)]
    changes = corrected(full_unit, seen(full_unit, "S-9"), sortie("S-9", sea=3), *now)
    assert (changes.added, changes.struck) == ({}, {"performances": 1})
    assert changes.revised == {"sorties": 1, "performances": 1}
    assert rows(full_unit, "S-9") == [recovery("K-02", "S-9", 2), recovery("V-01", "S-9")]
    last = history_of(full_unit.office, SORTIES, ("S-9",))[-1]
    assert (last.act.kind, last.act.reason, last.row) == (
        "correct", "typing slip", sortie("S-9", sea=3)
    )  # fmt: skip


def test_a_performance_that_was_taken_off_can_come_back(full_unit: Unit) -> None:
    first, _ = held(full_unit, SORTIES, "S-2")
    corrected(full_unit, seen(full_unit, "S-2"), first)
    assert rows(full_unit, "S-2") == []
    changes = corrected(full_unit, seen(full_unit, "S-2"), first, recovery("K-01", times=3))
    assert changes.added == {"performances": 1}
    assert full_unit.word("K-01") == "due"


def test_correcting_a_launch_touches_everybody_aboard(full_unit: Unit) -> None:
    flown = seen(full_unit, "S-2")
    earlier = changed(flown.sortie.row, SORTIES, launched=datetime(2026, 1, 5, 15, tzinfo=UTC))
    changes = corrected(full_unit, flown, earlier, *rows(full_unit, "S-2"))
    assert changes.revised == {"sorties": 1}
    assert changes.touched == ("K-01",)
    assert [change.after.word for change in changes.standings] == ["training"]


def test_the_same_again_changes_nothing(full_unit: Unit) -> None:
    flown = seen(full_unit, "S-2")
    assert corrected(full_unit, flown, flown.sortie.row, *rows(full_unit, "S-2")) == Changes()


def test_the_key_of_a_sortie_stays(full_unit: Unit) -> None:
    flown = seen(full_unit, "S-2")
    other = changed(flown.sortie.row, SORTIES, sortie="S-99", sea=2)
    corrected(full_unit, flown, other, *rows(full_unit, "S-2"))
    assert held(full_unit, SORTIES, "S-2")[0][SORTIES.index("sea")] == 2
    assert flying.flown(full_unit.office, "S-99") is None


def test_a_performance_that_somebody_else_changed_meanwhile_is_refused(full_unit: Unit) -> None:
    flown = seen(full_unit, "S-2")
    entry = Entry(PERFORMANCES, recovery("K-01", "S-2", 5), 1)
    done(full_unit, entry, order=MENDED)
    with pytest.raises(Refused) as refused:
        corrected(full_unit, flown, flown.sortie.row)
    assert places(refused.value.faults) == [("struck performances 1", "task")]


def test_a_performance_that_somebody_else_added_meanwhile_stays(full_unit: Unit) -> None:
    flown = seen(full_unit, "S-2")
    done(full_unit, Entry(PERFORMANCES, recovery("K-02", "S-2")))
    corrected(full_unit, flown, changed(flown.sortie.row, SORTIES, sea=2))
    assert rows(full_unit, "S-2") == [recovery("K-02", "S-2")]
