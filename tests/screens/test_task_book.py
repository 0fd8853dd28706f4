"""Tests of the task book."""

from datetime import date

from crewtrack.engine.standard import Task
from crewtrack.screens.task_book import TaskLine, duty_told, sentence, task_lines, task_table
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules

ON = date(2026, 11, 25)
TASKS = {
    "steer": Task("steer", "Helm for flight", "helm"),
    "launch": Task("launch", "Deck launch", "pilot"),
    "catch": Task("catch", "Hand recovery", "pilot"),
}
NAMES = {"K-99": "Ana Kovač"}


def lines(*signed: str, on: date = ON) -> tuple[TaskLine, ...]:
    made = reckoning(Rules({}, tasks=TASKS), bios=(Bio(signed=signed),))
    return task_lines(made.evidence.books["K-01"], made.editions.on(on.toordinal()), on)


def line(*signed: str, on: date = ON) -> TaskLine:
    """The line of the deck launch."""
    return next(one for one in lines(*signed, on=on) if one.task == "launch")


def cells(one: TaskLine) -> dict[str, str]:
    return {column.title: column.text(one) for column in task_table((one,), NAMES).columns}


def test_tasks_stand_by_duty_then_in_the_order_of_the_standard() -> None:
    assert [one.task for one in lines()] == ["launch", "catch", "steer"]


def test_nothing_signed_is_told_by_a_dash() -> None:
    assert cells(line())["Reached"] == "–"
    assert sentence(line()) == "Deck launch: nothing signed that stands"


def test_each_level_shows_its_own_pass_with_date_and_evaluator() -> None:
    one = line("2026-01-02 launch briefed", "2026-02-03 launch supervised")
    assert cells(one)["Briefed"] == "2026-01-02 Ana Kovač"
    assert cells(one)["Supervised"] == "2026-02-03 Ana Kovač"
    assert cells(one)["Reached"] == "supervised"
    assert sentence(one) == "Deck launch: supervised since 2026-02-03"


def test_a_pass_that_waits_for_its_certification_does_not_stand_yet() -> None:
    task = Task("launch", "Deck launch", "pilot", certified_by="officer")
    bio = Bio(signed=("2026-02-03 launch certified:2026-02-20",))
    made = reckoning(Rules({}, tasks={"launch": task}), bios=(bio,))
    days = (date(2026, 2, 19), date(2026, 2, 20))
    told = [task_lines(made.evidence.books["K-01"], made.editions.standards[0], d) for d in days]
    assert [cells(one)["Alone"] for (one,) in told] == ["", "2026-02-03 Ana Kovač"]


def test_a_failure_ends_its_own_level_and_those_above_and_is_told() -> None:
    one = line(
        "2026-01-02 launch supervised", "2026-02-03 launch alone", "2026-05-06 launch failed"
    )
    assert cells(one)["Alone"] == ""
    assert cells(one)["Supervised"] == "2026-01-02 Ana Kovač"
    assert cells(one)["Reached"] == "supervised"
    assert cells(one)["Last not passed"] == "2026-05-06 failed, alone, Ana Kovač"


def test_not_yet_ends_nothing_but_is_told() -> None:
    one = line("2026-02-03 launch alone", "2026-05-06 launch not-yet")
    assert cells(one)["Reached"] == "alone"
    assert cells(one)["Last not passed"] == "2026-05-06 not yet, alone, Ana Kovač"


def test_a_pass_that_was_withdrawn_by_the_day_is_told_apart() -> None:
    signed = "2026-02-03 launch withdrawn:2026-06-01"
    assert cells(line(signed))["Reached"] == "–"
    assert (
        cells(line(signed))["Last withdrawn"] == "2026-06-01: that of 2026-02-03, alone, Ana Kovač"
    )
    assert cells(line(signed, on=date(2026, 5, 31)))["Reached"] == "alone"


def test_what_is_dated_later_counts_for_nothing_yet() -> None:
    one = line("2026-12-01 launch", "2026-12-02 launch failed")
    assert (one.reached, one.missed, one.withdrawn) == (-1, None, None)


def test_a_task_that_the_edition_lacks_stands_last_and_says_so() -> None:
    last = lines("2026-01-01 old-task")[-1]
    assert (last.task, last.known, last.reached) == ("old-task", False, 2)
    assert duty_told(last) == "not in this edition"
