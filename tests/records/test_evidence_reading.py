"""The evidence that the engine is given, against the rows that went in."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from crewtrack import facts
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Assignment, Certificate, SignOff, StandDown, Waiver
from crewtrack.records.store import Record
from tests.records.samples import at, sortie

DETROIT = ZoneInfo("America/Detroit")


def day(year: int, month: int, of_month: int) -> int:
    return date(year, month, of_month).toordinal()


def test_sorties_come_by_launch_instant_then_key(record: Record) -> None:
    with record.reading() as reading:
        assert reading.evidence(DETROIT, 2).sorties.key == ("S-1", "S-2", "S-3")
        assert reading.evidence(DETROIT).sorties.key == ("S-2", "S-3", "S-1")


def test_a_sorties_day_is_that_of_its_launch_in_the_units_zone(record: Record) -> None:
    with record.reading() as reading:
        detroit, utc = reading.evidence(DETROIT, 2), reading.evidence(ZoneInfo("UTC"), 2)
    assert list(detroit.sorties.day) == [day(2026, 2, 1), day(2026, 2, 2), day(2026, 2, 2)]
    assert list(utc.sorties.day) == [day(2026, 2, 2)] * 3


@pytest.mark.parametrize(
    "launched",
    [datetime(2026, 2, 2, 4, 30, tzinfo=UTC), datetime(1955, 3, 4, 5, 6, 7, tzinfo=UTC),
     datetime(1, 1, 2, tzinfo=UTC), datetime(9999, 12, 30, 23, 59, 59, tzinfo=UTC)],
)  # fmt: skip
def test_instants_are_seconds_since_1970(record: Record, launched: datetime) -> None:
    with record.act("log", "officer", at(5)) as act:
        act.add(facts.SORTIES, [sortie("T-1", launched)])
        sorties = act.evidence(DETROIT).sorties
    since = launched - datetime(1970, 1, 1, tzinfo=UTC)
    assert sorties.launched[sorties.key.index("T-1")] == since.days * 86400 + since.seconds


def test_conditions_are_carried_over_with_craft_by_their_kinds(record: Record) -> None:
    with record.reading() as reading:
        sorties = reading.evidence(DETROIT, 2).sorties
    assert (list(sorties.vessel), list(sorties.aircraft)) == (
        ["rib", "rib", None],
        [None, "light-quad", None],
    )
    assert (list(sorties.way), list(sorties.sea), list(sorties.light)) == (
        [-1, 2, -1], [-1, 3, -1], [2, -1, -1]
    )  # fmt: skip
    assert (list(sorties.drill), list(sorties.minutes)) == ([False, False, True], [13, 13, 13])
    assert (sorties.lat[1], sorties.lon[1], sorties.wind_from[1], sorties.wind[1]) == (
        47.1, -88.6, 240.0, 14.5
    )  # fmt: skip
    assert (sorties.heading[0], sorties.speed[0], sorties.set[0], sorties.drift[0]) == (
        0.0, 1.2, 90.0, 0.25
    )  # fmt: skip


def test_performances_come_in_the_order_in_which_they_happened(record: Record) -> None:
    with record.reading() as reading:
        performances = reading.evidence(DETROIT, 2).books["K-07"].performances["hand-recovery"]
    assert list(performances.sortie) == [0, 1, 2]
    assert list(performances.order) == [2, 1, 0]
    assert list(performances.times) == [1, 2, 1]
    assert list(performances.supervisor) == [None, None, "K-11"]


def test_performances_follow_a_revised_sortie(record: Record) -> None:
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT)
    performances = evidence.books["K-07"].performances["hand-recovery"]
    assert [evidence.sorties.key[index] for index in performances.sortie] == ["S-2", "S-3", "S-1"]
    assert evidence.sorties.sea[2] == 4


def test_a_revised_performance_keeps_its_place_in_the_record(record: Record) -> None:
    revised = ("S-2", "K-07", "hand-recovery", 7, "K-02", None, None, None)
    with record.act("import", "officer", at(5)) as act:
        act.revise(facts.PERFORMANCES, [(2, 1, revised)])
    with record.reading() as reading:
        after = reading.evidence(DETROIT).books["K-07"].performances["hand-recovery"]
        before = reading.evidence(DETROIT, 4).books["K-07"].performances["hand-recovery"]
    assert (list(after.times), list(before.times)) == ([7, 1, 1], [2, 1, 1])
    assert (after.order, after.supervisor) == ([1, 0, 2], ["K-02", "K-11", None])


def test_books_come_by_person_key_with_everything_in_the_order_of_entry(record: Record) -> None:
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT, 2)
    assert list(evidence.books) == ["K-02", "K-07", "K-11"]
    books = evidence.books["K-07"]
    assert (books.person.joined, books.person.born) == (day(2020, 1, 1), date(1988, 2, 29))
    assert books.person.duties == ("pilot", "helm")
    assert books.assignments == (Assignment("deck-pilot", day(2020, 2, 1), FOREVER),)
    assert books.certificates == (
        Certificate("C-1", "medical", day(2025, 1, 2), day(2027, 1, 31)),
        Certificate("C-2", "remote-pilot", day(2025, 1, 2), None, day(2026, 1, 1)),
    )
    assert books.waivers == (
        Waiver(
            "W-1",
            "deck-pilot",
            "recency",
            day(2026, 2, 1),
            day(2026, 3, 1),
            "extension",
            "ice",
            "chief",
        ),
    )
    assert evidence.books["K-02"].standdowns == (
        StandDown("D-1", None, day(2026, 2, 20), FOREVER, "injury", "chief"),
    )


def test_a_sign_off_is_withdrawn_only_from_the_act_that_withdrew_it(record: Record) -> None:
    with record.reading() as reading:
        before = reading.evidence(DETROIT, 2).books["K-07"].signoffs
        after = reading.evidence(DETROIT).books["K-07"].signoffs
    signed = SignOff("G-1", "hand-recovery", day(2026, 2, 2), 2, "passed", "K-11", 1)
    assert before == (signed,)
    # The sortie named is the first one now, since the one before it was put later.
    late = day(2026, 2, 28)
    assert after == (
        SignOff("G-1", "hand-recovery", day(2026, 2, 2), 2, "passed", "K-11", 0, late),
    )


def test_before_any_fact_there_is_no_evidence(record: Record) -> None:
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT, 1)
    assert (list(evidence.sorties.key), dict(evidence.books)) == ([], {})
