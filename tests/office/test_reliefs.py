"""Waivers and extensions, judged when they are granted."""

import pytest

from crewtrack.errors import Fault
from tests.office.unit_at_work import STANDARD, Unit, refused

HEAD = "waiver,person,qualification,requirement,from,through,reason,by,kind\n"


def grant(unit: Unit, *spans: str, kind: str = "waiver", person: str = "K-01") -> tuple[Fault, ...]:
    """Grant relief from ``recency`` over spans such as ``2026-06-01 2026-06-30``; its faults."""
    rows = "".join(
        f"{kind}-{person}-{span.replace(' ', '-')},{person},deck-pilot,recency,"
        f"{span.replace(' ', ',')},why,V-01,{kind}\n"
        for span in spans
    )
    return refused(unit, waivers=HEAD + rows)


def test_a_waiver_of_the_default_limit_is_granted(full_unit: Unit) -> None:
    # P180D reckoned like ``within``: the 180th day after the first is still in.
    assert grant(full_unit, "2026-06-01 2026-11-28") == ()


def test_a_waiver_over_the_limit_is_told_with_the_last_day_that_would_do(full_unit: Unit) -> None:
    (fault,) = grant(full_unit, "2026-06-01 2026-11-29")
    assert (fault.place, fault.field) == ("waivers.csv:2", "through")
    assert "2026-06-01 to 2026-11-29 is longer than the standard's waiver_limit" in fault.problem
    assert fault.cure == "end it on 2026-11-28 or earlier"


def test_the_limit_is_the_standards_own(unit: Unit) -> None:
    unit.adopt(
        STANDARD.replace("2026-1", "2026-2")
        .replace("2026-01-01", "2026-06-05")
        .replace("zone", 'waiver_limit = "P1M"\nzone', 1)
    )
    unit.take(people="person,name\nK-01,Ana\nV-01,Sam\n")
    assert grant(unit, "2026-06-01 2026-11-28") == ()
    assert grant(unit, "2027-06-05 2027-07-05") == ()
    (fault,) = grant(unit, "2028-06-05 2028-07-06")
    assert "waiver_limit, P1M" in fault.problem


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("2026-06-01 2026-09-30", "2026-10-01 2026-12-31"),
        ("2026-06-01 2026-10-15", "2026-10-01 2026-12-31"),
    ],
)
def test_waivers_that_touch_or_overlap_count_as_one(full_unit: Unit, one: str, other: str) -> None:
    faults = grant(full_unit, one, other)
    assert [fault.place for fault in faults] == ["waivers.csv:2", "waivers.csv:3"]
    assert all("together with those that it touches" in fault.problem for fault in faults)


def test_a_waiver_that_touches_one_in_the_record_is_refused(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-06-01 2026-11-28") == ()
    (fault,) = grant(full_unit, "2026-11-29 2026-12-31")
    assert fault.cure == "those before it have used all of that"


def test_a_day_between_two_waivers_keeps_them_apart(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-06-01 2026-09-30", "2026-10-02 2026-12-31") == ()


def test_waivers_of_two_people_do_not_touch(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-06-01 2026-09-30") == ()
    assert grant(full_unit, "2026-10-01 2026-12-31", person="K-02") == ()


def test_waivers_of_two_requirements_do_not_touch(full_unit: Unit) -> None:
    row = "W-9,K-01,deck-pilot,signed,2026-10-01,2026-12-31,why,V-01,\n"
    assert grant(full_unit, "2026-06-01 2026-09-30") == ()
    assert refused(full_unit, waivers=HEAD + row) == ()


@pytest.mark.parametrize("start", ["2026-05-01", "2026-07-15", "2026-07-30", "2026-07-31"])
def test_an_extension_may_start_through_the_day_after_the_requirement_ends(
    full_unit: Unit, start: str
) -> None:
    assert grant(full_unit, f"{start} 2026-08-31", kind="extension") == ()


@pytest.mark.parametrize("start", ["2026-08-01", "2026-04-30"])
def test_an_extension_of_what_was_not_met_is_refused(full_unit: Unit, start: str) -> None:
    # 30 April is the day before the first recoveries: then there is nothing to extend yet.
    (fault,) = grant(full_unit, f"{start} 2026-08-31", kind="extension")
    assert (fault.place, fault.field) == ("waivers.csv:2", "from")
    assert "so there is nothing to extend" in fault.problem
    assert "grant a waiver" in fault.cure


def test_a_waiver_may_start_when_nothing_is_met(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-10-01 2026-10-31") == ()


def test_an_extension_may_follow_on_another(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-07-31 2026-08-15", kind="extension") == ()
    assert grant(full_unit, "2026-08-16 2026-09-15", kind="extension") == ()


def test_an_extension_does_not_follow_on_a_waiver_of_what_was_never_met(full_unit: Unit) -> None:
    assert grant(full_unit, "2026-09-01 2026-09-30") == ()
    (fault,) = grant(full_unit, "2026-10-01 2026-10-31", kind="extension")
    assert fault.field == "from"


def test_an_extension_may_follow_on_a_waiver_if_the_requirement_was_met_again(
    full_unit: Unit,
) -> None:
    # The waiver begins while nothing is met; within it three recoveries bring the requirement back.
    assert grant(full_unit, "2026-04-10 2026-04-30") == ()
    assert grant(full_unit, "2026-05-01 2026-08-31", kind="extension") == ()


def test_evidence_later_than_its_start_does_not_help_an_extension(full_unit: Unit) -> None:
    full_unit.take(
        sorties="sortie,launched,minutes,setting\nS-9,2026-09-10T10:00,12,live\n",
        performances="sortie,person,task,times\nS-9,K-01,hand-recovery,3\n",
    )
    (fault,) = grant(full_unit, "2026-09-01 2026-09-30", kind="extension")
    assert fault.field == "from"


def test_a_requirement_that_the_edition_in_effect_lacks_is_not_judged_by_an_extension(
    full_unit: Unit,
) -> None:
    full_unit.adopt(
        STANDARD.replace("2026-1", "2090-1")
        .replace("2026-01-01", "2090-01-01")
        .replace('id = "recency"', 'id = "practice"')
    )
    assert grant(full_unit, "2090-06-01 2090-06-30", kind="extension") == ()
