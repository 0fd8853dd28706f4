"""Sign-offs: a pass covers through its horizon, a failed result ends the cover."""

from collections.abc import Sequence
from typing import Any

import pytest

from crewtrack.engine.days import Horizon, month_index
from crewtrack.engine.evidence import SignOff
from crewtrack.engine.requirement import Signed
from crewtrack.engine.signed import days_met, due_month, results
from crewtrack.facts import LEVELS
from tests.case_builder import written
from tests.evidence_builder import PERFORMER, Bio, day, evidence
from tests.standard_builder import within

YEARLY = within("P12M", "month-end")
NO_WINDOW = Horizon()


def rule(level: str = "alone", horizon: Horizon = NO_WINDOW, **more: Any) -> Signed:
    return Signed("s", True, "recovery", LEVELS.index(level), horizon, **more)


def given(*lines: str) -> tuple[SignOff, ...]:
    return evidence((), (Bio(signed=lines),)).books[PERFORMER].signoffs


def met(requirement: Signed, *lines: str) -> list[str]:
    return written(days_met(requirement, given(*lines)))


def due(requirement: Signed, lines: Sequence[str]) -> int | None:
    return due_month(requirement, given(*lines))


def test_without_a_window_a_pass_covers_for_good() -> None:
    assert met(rule(), "2026-01-10 recovery") == ["2026-01-10.."]


def test_a_pass_covers_through_its_horizon() -> None:
    assert met(rule(horizon=YEARLY), "2025-01-10 recovery") == ["2025-01-10..2026-01-31"]


def test_a_pass_of_another_task_covers_nothing() -> None:
    assert met(rule(), "2026-01-10 launch") == []


@pytest.mark.parametrize(("level", "counts"), [("supervised", False), ("evaluator", True)])
def test_a_pass_counts_at_the_level_asked_or_above(level: str, *, counts: bool) -> None:
    assert bool(met(rule("alone"), f"2026-01-10 recovery {level}")) is counts


def test_not_yet_changes_nothing() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery not-yet")
    assert met(rule(), *lines) == ["2026-01-10.."]


def test_a_failed_result_ends_the_cover_from_its_own_date_on() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery failed")
    assert met(rule(), *lines) == ["2026-01-10..2026-01-31"]


def test_a_failed_result_at_a_lower_level_ends_the_cover_too() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery failed supervised")
    assert met(rule("alone"), *lines) == ["2026-01-10..2026-01-31"]


def test_a_failed_result_at_a_higher_level_leaves_a_lower_one_alone() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery failed evaluator")
    assert met(rule("alone"), *lines) == ["2026-01-10.."]


def test_a_later_pass_starts_anew() -> None:
    lines = ("2026-01-10 recovery", "2026-02-01 recovery failed", "2026-03-01 recovery")
    assert met(rule(), *lines) == ["2026-01-10..2026-01-31", "2026-03-01.."]


def test_two_results_of_one_date_take_effect_in_the_order_recorded() -> None:
    passed, failed = "2026-01-10 recovery", "2026-01-10 recovery failed"
    assert met(rule(), failed, passed) == ["2026-01-10.."]
    assert met(rule(), passed, failed) == []


def test_results_come_by_date_whatever_the_order_recorded() -> None:
    lines = ("2026-02-01 recovery failed", "2026-01-10 recovery")
    assert [signoff.day for signoff in results(rule(), given(*lines))] == [
        day("2026-01-10"),
        day("2026-02-01"),
    ]


KEEPING = rule(horizon=YEARLY, early=1, late=1)


def test_cover_runs_through_the_late_month() -> None:
    assert met(KEEPING, "2024-03-10 recovery") == ["2024-03-10..2025-04-30"]


@pytest.mark.parametrize("second", ["2025-02-01", "2025-03-31", "2025-04-30"])
def test_a_pass_in_the_months_around_the_due_one_keeps_the_date(second: str) -> None:
    lines = ("2024-03-10 recovery", f"{second} recovery")
    assert met(KEEPING, *lines) == ["2024-03-10..2026-04-30"]


def test_a_pass_before_those_months_starts_anew_from_its_own() -> None:
    lines = ("2024-03-10 recovery", "2025-01-31 recovery")
    assert met(KEEPING, *lines) == ["2024-03-10..2026-02-28"]


def test_a_pass_after_those_months_leaves_a_gap_and_starts_anew() -> None:
    lines = ("2024-03-10 recovery", "2025-05-02 recovery")
    assert met(KEEPING, *lines) == ["2024-03-10..2025-04-30", "2025-05-02..2026-06-30"]


@pytest.mark.parametrize("second", ["2025-02-20", "2025-03-05", "2025-04-30"])
def test_a_second_pass_in_the_same_months_changes_nothing(second: str) -> None:
    lines = ("2024-03-10 recovery", "2025-02-01 recovery", f"{second} recovery")
    assert due(KEEPING, lines) == month_index(day("2026-03-01"))


def test_a_second_pass_in_the_very_first_month_changes_nothing() -> None:
    lines = ("2024-03-10 recovery", "2024-03-20 recovery")
    assert met(KEEPING, *lines) == ["2024-03-10..2025-04-30"]


def test_a_pass_never_moves_the_due_month_back() -> None:
    long_early = rule(horizon=YEARLY, early=6)
    lines = ("2024-03-10 recovery", "2024-09-01 recovery", "2024-10-01 recovery")
    assert due(long_early, lines[:2]) == month_index(day("2026-03-01"))
    assert due(long_early, (*lines[:2], "2025-01-20 recovery")) == month_index(day("2026-03-01"))


def test_after_a_failed_result_the_due_month_is_forgotten() -> None:
    lines = ("2024-03-10 recovery", "2025-02-01 recovery failed", "2025-02-20 recovery")
    assert due(KEEPING, lines) == month_index(day("2026-02-01"))
    assert met(KEEPING, *lines) == ["2024-03-10..2025-01-31", "2025-02-20..2026-03-31"]


def test_nothing_is_due_before_the_first_pass() -> None:
    assert due(KEEPING, ()) is None


def test_only_late_months_are_enough_for_the_date_to_be_kept() -> None:
    lines = ("2024-03-10 recovery", "2025-04-30 recovery")
    assert met(rule(horizon=YEARLY, late=1), *lines) == ["2024-03-10..2026-04-30"]
