"""Sign-offs in reasons: those that count, and a pass that only waits to be certified."""

from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.case import Case
from crewtrack.engine.days import FOREVER
from crewtrack.engine.signature_reasons import signoff_counted, waits
from crewtrack.engine.standard import Task
from crewtrack.engine.standings import Counted
from tests.case_builder import case
from tests.evidence_builder import Bio, day
from tests.standard_builder import Rules

ONE = Task("recovery", "Hand recovery")
TWO = replace(ONE, certified_by="officer")
WAITS = "passed on 2026-03-10 by K-99, and waits for certification by an officer"


def asked(*signed: str, task: Task = TWO) -> Case:
    return case(Rules({}, tasks={"recovery": task}), "2026-06-01", bio=Bio(signed=signed))


def counted(line: str, task: Task = TWO, through: int = FOREVER) -> Counted:
    told = asked(line, task=task)
    return signoff_counted(told, told.signoffs[0], through)


def test_a_sign_off_that_counts_tells_its_task_and_its_last_day() -> None:
    assert counted("2026-03-10 recovery", ONE, day("2026-09-10")) == Counted(
        "sign-off", "E-001", date(2026, 3, 10), task="Hand recovery", through=date(2026, 9, 10)
    )


@pytest.mark.parametrize(
    ("told", "task", "words"),
    [
        ("certified:2026-03-20 signer:K-01", TWO, "certified on 2026-03-20 by K-01"),
        ("certified:2026-03-20 signer:gone", TWO, "certified on 2026-03-20 by gone"),
        ("certified:2026-03-20", TWO, "certified on 2026-03-20"),
        ("certified:2026-03-20", ONE, ""),
        ("", TWO, ""),
    ],
)
def test_the_second_signature_is_told_where_the_edition_asks_for_one(
    told: str, task: Task, words: str
) -> None:
    assert counted(f"2026-03-10 recovery {told}", task).conditions == words


def waiting(now: tuple[int, int] | None, then: tuple[int, int] | None, *lines: str) -> str:
    told = asked(*lines)
    counting = told.standing_signoffs(told.until)
    return waits(told, counting, told.unwithdrawn_signoffs(told.until), (now, then))


def test_the_latest_pass_that_waits_is_told_with_its_evaluator_and_who_certifies() -> None:
    lines = (
        "2026-02-10 recovery",
        "2026-03-10 recovery",
        "2026-04-10 recovery certified:2026-04-11",
    )
    assert waiting(None, (5, 9), *lines) == WAITS


@pytest.mark.parametrize(
    ("now", "then", "told"),
    [
        (None, (5, 9), WAITS),
        ((5, 8), (5, 9), WAITS),
        ((5, 9), (5, 9), ""),
        (None, None, ""),
    ],
)
def test_a_pass_that_waits_is_told_only_where_it_would_help(
    now: tuple[int, int] | None, then: tuple[int, int] | None, told: str
) -> None:
    assert waiting(now, then, "2026-03-10 recovery") == told


def test_nothing_waits_where_all_is_certified() -> None:
    assert waiting(None, (5, 9), "2026-03-10 recovery certified:2026-03-10") == ""
