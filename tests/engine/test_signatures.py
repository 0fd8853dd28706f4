"""Which sign-offs count on a day: certified where the standard asks for it, and not withdrawn."""

import pytest

from crewtrack.engine.evidence import SignOff
from crewtrack.engine.signatures import counts_from, standing, turning_days
from crewtrack.engine.standard import Task
from tests.evidence_builder import PERFORMER, Bio, day, evidence

TASKS = {
    "recovery": Task("recovery", "Hand recovery", certified_by="officer"),
    "launch": Task("launch", "Deck launch"),
}


def given(*lines: str) -> tuple[SignOff, ...]:
    return evidence((), (Bio(signed=lines),)).books[PERFORMER].signoffs


def stands(line: str, on: str) -> bool:
    return bool(standing(given(line), day(on), TASKS))


@pytest.mark.parametrize(
    ("told", "first"),
    [
        ("recovery certified:2026-03-20", "2026-03-20"),
        ("recovery certified:2026-03-10", "2026-03-10"),
        ("recovery certified:2026-03-01", "2026-03-10"),  # signed beforehand: from its own date
        ("recovery failed", "2026-03-10"),
        ("launch", "2026-03-10"),
        ("launch certified:2026-03-20", "2026-03-10"),
        ("gone", "2026-03-10"),  # a task that the edition does not have
    ],
)
def test_only_a_pass_of_a_task_that_asks_for_it_waits_for_its_certification(
    told: str, first: str
) -> None:
    assert counts_from(given(f"2026-03-10 {told}")[0], TASKS) == day(first)


def test_a_pass_that_nobody_certified_never_counts() -> None:
    assert counts_from(given("2026-03-10 recovery")[0], TASKS) is None
    assert not stands("2026-03-10 recovery", "2030-01-01")


def test_a_sign_off_stands_from_its_certification_until_its_withdrawal() -> None:
    line = "2026-03-10 recovery certified:2026-03-20 withdrawn:2026-04-01"
    days = ["2026-03-19", "2026-03-20", "2026-03-31", "2026-04-01"]
    assert [stands(line, on) for on in days] == [False, True, True, False]


def test_a_pass_withdrawn_before_its_certification_never_stands() -> None:
    line = "2026-03-10 recovery certified:2026-03-20 withdrawn:2026-03-15"
    days = ["2026-03-10", "2026-03-14", "2026-03-15", "2026-03-20", "2026-03-21"]
    assert not any(stands(line, on) for on in days)


def test_of_those_dated_later_the_ones_stand_that_count_from_their_own_date_on() -> None:
    assert stands("2026-03-10 recovery certified:2026-03-10", "2026-01-01")
    assert not stands("2026-03-10 recovery certified:2026-03-11", "2026-01-01")


def test_all_is_reckoned_anew_from_late_certifications_and_withdrawals_on() -> None:
    lines = (
        "2026-03-10 recovery certified:2026-03-20",
        "2026-03-11 recovery certified:2026-03-20 withdrawn:2026-03-15",
        "2026-03-12 recovery certified:2026-03-01",
        "2026-03-13 recovery",
        "2026-03-14 launch certified:2026-03-30",
    )
    assert turning_days(given(*lines), TASKS) == [day("2026-03-15"), day("2026-03-20")]
