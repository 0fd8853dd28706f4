"""Second signatures, worked by hand: a pass of a task with ``certified_by`` is known from its
certification on, and from then on as if it had counted since its own date.

Source of every figure: a calendar and that sentence; trust: no engine had a part in them.
"""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from crewtrack.engine.days import Horizon
from crewtrack.engine.requirement import AnyOf, Holds, Requirement
from crewtrack.engine.standard import Task
from tests.evidence_builder import Bio
from tests.reckoned import Story, signature, with_recheck
from tests.standard_builder import Rules, within

TWO = {"hand-recovery": Task("hand-recovery", "Hand recovery", certified_by="officer")}
YEARLY = signature(within("P12M", "month-end"))
FOR_GOOD = signature(Horizon())


def certifying(need: Requirement, *signed: str, flown: Sequence[str] = ()) -> Story:
    """A qualification that asks for no more than this; each line without its task."""
    lines = [line.replace(" ", " hand-recovery ", 1) for line in (f"{s} " for s in signed)]
    return Story((Rules({"tested": (need,)}, tasks=TWO),), flown, Bio(signed=lines))


def test_a_pass_covers_from_its_certification_through_the_horizon_of_its_own_date() -> None:
    story = certifying(YEARLY, "2026-03-10 certified:2026-03-20")
    assert story.spans() == ["2026-03-20..2027-03-31"]
    assert story.told("2026-03-19") == ("training", "", "")
    assert story.told("2026-03-20") == ("current", "2026-03-20", "2027-03-31")


def test_a_pass_that_nobody_certified_never_covers() -> None:
    assert certifying(YEARLY, "2026-03-10").spans() == []


def test_a_certification_dated_before_the_result_counts_as_on_its_date() -> None:
    assert certifying(YEARLY, "2026-03-10 certified:2026-03-01").spans() == [
        "2026-03-10..2027-03-31"
    ]


def test_a_pass_certified_after_its_horizon_covers_nothing() -> None:
    need = signature(within("P30D"))
    assert certifying(need, "2026-03-10 certified:2026-04-10").spans() == []
    assert certifying(need, "2026-03-10 certified:2026-04-09").spans() == ["2026-04-09..2026-04-09"]


def test_a_failed_result_between_a_pass_and_its_certification_ends_it() -> None:
    lines = ("2026-03-10 certified:2026-03-20", "2026-03-15 failed")
    assert certifying(YEARLY, *lines).spans() == []


def test_a_failed_result_after_the_certification_ends_the_cover_at_once() -> None:
    lines = ("2026-03-10 certified:2026-03-20", "2026-03-25 failed")
    assert certifying(YEARLY, *lines).spans() == ["2026-03-20..2026-03-24"]


def test_of_two_results_of_one_date_the_order_recorded_holds_whenever_one_is_certified() -> None:
    passed, failed = "2026-03-10 certified:2026-03-20", "2026-03-10 failed"
    assert certifying(FOR_GOOD, passed, failed).spans() == []
    assert certifying(FOR_GOOD, failed, passed).spans() == ["2026-03-20.."]


def test_a_second_pass_that_waits_leaves_the_cover_of_the_first() -> None:
    first = "2026-03-10 certified:2026-03-20"
    assert certifying(YEARLY, first, "2027-02-10").spans() == ["2026-03-20..2027-03-31"]
    second = "2027-02-10 certified:2027-03-05"
    assert certifying(YEARLY, first, second).spans() == ["2026-03-20..2028-02-29"]
    late = "2027-02-10 certified:2027-04-05"
    assert certifying(YEARLY, first, late).spans() == [
        "2026-03-20..2027-03-31",
        "2027-04-05..2028-02-29",
    ]


def test_the_due_month_goes_by_the_dates_of_the_results() -> None:
    need = signature(within("P12M", "month-end"), early=1, late=1)
    lines = ("2024-03-10 certified:2024-03-10", "2025-04-20 certified:2025-06-02")
    assert certifying(need, *lines).spans() == ["2024-03-10..2025-04-30", "2025-06-02..2026-04-30"]


@pytest.mark.parametrize(
    ("withdrawn", "spans"),
    [
        ("2026-04-01", ["2026-03-20..2026-03-31"]),
        ("2026-03-20", []),
        ("2026-03-15", []),
    ],
)
def test_a_withdrawn_result_stays_withdrawn(withdrawn: str, spans: list[str]) -> None:
    line = f"2026-03-10 certified:2026-03-20 withdrawn:{withdrawn}"
    assert certifying(FOR_GOOD, line).spans() == spans


def test_a_sign_off_as_recheck_counts_once_it_is_certified_and_the_practice_after_it_too() -> None:
    need = with_recheck(1, within("P30D"), "P60D")
    flown = ["2026-01-20 hand-recovery"]
    assert certifying(need, "2026-01-01", flown=flown).spans() == []
    certified = certifying(need, "2026-01-01 certified:2026-01-25", flown=flown)
    assert certified.spans() == ["2026-01-25..2026-02-19"]


def test_each_edition_judges_by_its_own_tasks() -> None:
    one, two = Rules({"tested": (FOR_GOOD,)}), Rules({"tested": (FOR_GOOD,)}, "2026-06-01")
    bio = Bio(signed=["2026-03-10 hand-recovery certified:2026-08-01"])
    stricter = Story((one, replace(two, tasks=TWO)), bio=bio)
    assert stricter.spans() == ["2026-03-10..2026-05-31", "2026-08-01.."]
    looser = Story((replace(one, tasks=TWO), two), bio=bio)
    assert looser.spans() == ["2026-06-01.."]


def test_a_qualification_that_rests_on_another_waits_with_it() -> None:
    either = AnyOf("either", True, (Holds("holds", True, "basic"),))
    rules = Rules({"basic": (FOR_GOOD,), "tested": (either,)}, tasks=TWO)
    bio = Bio(signed=["2026-03-10 hand-recovery certified:2026-03-20"])
    assert Story((rules,), bio=bio).spans() == ["2026-03-20.."]
