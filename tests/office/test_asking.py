"""Questions to the record: roster, history, why; on a day, and as known at an instant."""

from datetime import date, datetime, timedelta

import pytest

from crewtrack.errors import Refused
from crewtrack.office import asking
from crewtrack.office.asking import did_you_mean
from tests.office.unit_at_work import FIRST_ACT, ON, STANDARD, Unit

WAIVERS = "waiver,person,qualification,requirement,from,through,reason,by,kind\n"


def told(refusal: pytest.ExceptionInfo[Refused]) -> list[str]:
    return [str(fault) for fault in refusal.value.faults]


def test_a_roster_has_a_row_for_each_person_and_qualification(full_unit: Unit) -> None:
    roster = asking.roster(full_unit.office, ON)
    assert [(row.person, row.qualification, row.word) for row in roster.rows] == [
        ("K-01", "deck-pilot", "due"),
        ("K-01", "observer", "none"),
        ("K-02", "deck-pilot", "lapsed"),
        ("K-02", "observer", "none"),
        ("V-01", "deck-pilot", "none"),
        ("V-01", "observer", "none"),
    ]
    assert [person.key for person in roster.people] == ["K-01", "K-02", "V-01"]
    assert [one.key for one in roster.qualifications] == ["deck-pilot", "observer"]


def test_a_roster_says_what_it_rests_on(full_unit: Unit) -> None:
    roster = asking.roster(full_unit.office, ON)
    assert (roster.on, roster.known_at, roster.unit, roster.edition, roster.head) == (
        ON, None, "Small unit", "2026-1", full_unit.head()
    )  # fmt: skip


def test_a_roster_explains_each_lapse(full_unit: Unit) -> None:
    (lapse,) = asking.roster(full_unit.office, ON).lapses
    assert lapse.standing.person == "K-02"
    assert lapse.standing.limiting == ("recency",)
    assert any(need.missing for need in lapse.requirements)


def test_a_roster_names_the_reliefs_that_it_rests_on_and_no_others(full_unit: Unit) -> None:
    full_unit.take(
        waivers=WAIVERS
        + "W-2,K-02,deck-pilot,recency,2026-07-01,2026-07-31,why,V-01,extension\n"
        + "W-1,K-01,deck-pilot,signed,2026-06-15,2026-07-31,why,V-01,\n"
    )
    roster = asking.roster(full_unit.office, ON)
    assert [(one.key, one.kind) for one in roster.reliefs] == [("W-2", "extension")]
    assert roster.cells()["K-02", "deck-pilot"].by_waiver == ("W-2",)


def test_a_roster_tells_who_is_stood_down_that_day_and_why(full_unit: Unit) -> None:
    full_unit.take(
        standdowns="standdown,person,qualification,from,through,reason,by\n"
        "D-3,K-02,,2026-07-01,,a broken wrist,V-01\n"
        "D-2,K-01,deck-pilot,2026-06-01,2026-07-01,on leave,V-01\n"
        "D-1,K-01,deck-pilot,2026-06-01,2026-06-30,on leave,V-01\n"
    )
    found = asking.roster(full_unit.office, ON).standdowns
    assert [(one.person, one.down.key, one.down.reason, one.down.by) for one in found] == [
        ("K-01", "D-2", "on leave", "V-01"),
        ("K-02", "D-3", "a broken wrist", "V-01"),
    ]


def test_a_roster_without_a_day_is_todays_in_the_units_zone(full_unit: Unit) -> None:
    full_unit.clock.at = FIRST_ACT + timedelta(days=30, hours=15)  # 2 July, 03:00 UTC
    assert asking.roster(full_unit.office).on == date(2026, 7, 1)


def test_who_has_left_is_on_no_roster(full_unit: Unit) -> None:
    full_unit.take(people="person,name,left\nK-02,Олена Ґедзь,2026-06-30\n", reason="moved away")
    people = asking.roster(full_unit.office, ON).people
    assert [person.key for person in people] == ["K-01", "V-01"]


def test_an_edition_without_qualifications_still_lists_the_people(full_unit: Unit) -> None:
    head = STANDARD.partition("[tasks")[0]
    full_unit.adopt(head.replace("2026-1", "2090-1").replace("2026-01-01", "2090-01-01"))
    roster = asking.roster(full_unit.office, date(2090, 6, 1))
    assert [person.key for person in roster.people] == ["K-01", "K-02", "V-01"]
    assert (roster.rows, roster.edition) == ((), "2090-1")


def test_a_history_has_a_row_for_each_assignment(full_unit: Unit) -> None:
    rows = asking.history(full_unit.office)
    assert [(row.person, row.qualification) for row in rows] == [
        ("K-01", "deck-pilot"),
        ("K-02", "deck-pilot"),
    ]
    assert [(span.first, span.last) for span in rows[0].spans] == [
        (date(2026, 5, 1), date(2026, 7, 30))
    ]


def test_a_history_may_be_of_one_person_or_qualification(full_unit: Unit) -> None:
    office = full_unit.office
    assert [row.person for row in asking.history(office, person="K-02")] == ["K-02"]
    assert asking.history(office, qualification="observer") == ()
    assert len(asking.history(office, "K-02", "deck-pilot")) == 1


def test_a_history_of_nobody_is_refused_with_the_nearest(full_unit: Unit) -> None:
    with pytest.raises(Refused) as refusal:
        asking.history(full_unit.office, "K-1", "deck-pilto")
    assert told(refusal) == [
        "--person: no person 'K-1'; did you mean 'K-01'?",
        "--qualification: no qualification 'deck-pilto'; did you mean 'deck-pilot'?",
    ]


def test_why_opens_a_standing_down_to_its_evidence(full_unit: Unit) -> None:
    explained = asking.why(full_unit.office, "K-01", "deck-pilot", ON)
    assert (explained.standing.word, explained.standing.through) == ("due", date(2026, 7, 30))
    assert [need.id for need in explained.requirements] == ["recency", "signed"]
    assert [one.key for one in explained.requirements[0].counted] == ["S-3", "S-2"]
    assert [one.key for one in explained.requirements[1].counted] == ["E-1"]


def test_why_without_a_day_is_about_today(full_unit: Unit) -> None:
    full_unit.clock.at = FIRST_ACT + timedelta(days=60)
    assert asking.why(full_unit.office, "K-01", "deck-pilot").standing.word == "lapsed"


def test_why_of_nobody_is_refused(full_unit: Unit) -> None:
    with pytest.raises(Refused) as refusal:
        asking.why(full_unit.office, "Z", "cook", ON)
    assert told(refusal) == [
        "PERSON: no person 'Z'; known are K-01, K-02, V-01",
        "QUALIFICATION: no qualification 'cook'; known are deck-pilot, observer",
    ]


def test_a_cure_names_a_few_where_none_is_near() -> None:
    assert did_you_mean("x", dict.fromkeys(map(str, range(100, 109)), 1)).endswith("107, …")
    assert did_you_mean("x", {}) == "none is recorded yet"


BEFORE = FIRST_ACT + timedelta(days=30)
AFTER = FIRST_ACT + timedelta(days=60)
CORRECTION = "sortie,person,task,times\nS-2,K-01,hand-recovery,2\nS-3,K-01,hand-recovery,1\n"


@pytest.fixture
def corrected(full_unit: Unit) -> Unit:
    """The unit after somebody found, two months later, that S-2 was two recoveries, not three."""
    full_unit.clock.at = AFTER
    full_unit.take(performances=CORRECTION, reason="the log says two")
    return full_unit


def through(unit: Unit, known_at: datetime | None) -> date | None:
    return asking.why(unit.office, "K-01", "deck-pilot", ON, known_at).standing.through


def since(unit: Unit, known_at: datetime | None) -> date | None:
    return asking.why(unit.office, "K-01", "deck-pilot", ON, known_at).standing.since


def test_a_late_correction_shows_from_its_own_instant_on(corrected: Unit) -> None:
    assert since(corrected, BEFORE) == date(2026, 5, 1)
    assert since(corrected, AFTER - timedelta(microseconds=1)) == date(2026, 5, 1)
    assert since(corrected, AFTER) == date(2026, 5, 20)
    assert since(corrected, None) == date(2026, 5, 20)


def test_a_roster_can_be_asked_again_as_it_was_known(full_unit: Unit) -> None:
    full_unit.clock.at = BEFORE
    first = asking.roster(full_unit.office, ON, BEFORE)
    full_unit.clock.at = AFTER
    full_unit.take(performances=CORRECTION, reason="the log says two")
    full_unit.take(people="person,name\nA-00,Newcomer\n")
    assert asking.roster(full_unit.office, ON, BEFORE) == first
    assert asking.roster(full_unit.office, ON) != first


def test_a_history_is_asked_as_it_was_known(corrected: Unit) -> None:
    (then,) = asking.history(corrected.office, "K-01", known_at=BEFORE)
    (today,) = asking.history(corrected.office, "K-01")
    assert (then.spans[0].first, today.spans[0].first) == (date(2026, 5, 1), date(2026, 5, 20))


def test_a_person_who_was_not_known_yet_is_refused(corrected: Unit) -> None:
    corrected.take(people="person,name\nK-09,Newcomer\n")
    with pytest.raises(Refused, match="no person 'K-09'"):
        asking.why(corrected.office, "K-09", "deck-pilot", ON, BEFORE)


def test_an_edition_counts_only_from_when_it_was_known(corrected: Unit) -> None:
    once = STANDARD.replace("2026-1", "2026-2").replace("2026-01-01", "2026-02-01")
    corrected.adopt(once.replace("times = 3, ", ""), "the edition had been forgotten")
    assert asking.roster(corrected.office, ON, BEFORE).edition == "2026-1"
    assert asking.roster(corrected.office, ON).edition == "2026-2"
    assert through(corrected, BEFORE) == date(2026, 7, 30)
    assert through(corrected, None) == date(2026, 8, 18)
