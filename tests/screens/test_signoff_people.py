"""Tests of who may sign a task off."""

from datetime import date

from crewtrack.engine.requirement import Certified
from crewtrack.engine.standard import Task
from crewtrack.screens.signoff_people import (
    Evaluator,
    choice_line,
    evaluator,
    evaluators,
    standing_told,
    warning,
)
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules, within

ON = date(2026, 11, 25)
RULES = Rules(
    {"teacher": (Certified("course", True, "course", within("P1Y")),)},
    tasks={
        "launch": Task("launch", "Launch", evaluator="teacher"),
        "free": Task("free", "Free for all"),
    },
)
ASSIGNED = ("teacher 2020-01-01..",)
UNIT = reckoning(
    RULES,
    bios=(
        Bio("K-01"),
        Bio("K-02", ASSIGNED, certificates=("course 2025-06-01",)),
        Bio("K-03", ASSIGNED, certificates=("course 2026-06-01",)),
        Bio("K-04", ASSIGNED),
        Bio("K-05", ASSIGNED, standdowns=("teacher 2026-11-01..",)),
        Bio("K-06", ASSIGNED, certificates=("course 2026-06-01",), left="2026-10-01"),
        Bio("K-07"),
    ),
)


def one(key: str, task: str = "launch") -> Evaluator:
    return evaluator(UNIT, task, key, ON)


def test_those_current_in_what_the_task_asks_for_stand_first() -> None:
    told = [found.key for found in evaluators(UNIT, "launch", ON, "K-01")]
    assert told == ["K-03", "K-02", "K-05", "K-04", "K-07"]


def test_nobody_signs_for_himself_or_off_the_books() -> None:
    keys = {found.key for found in evaluators(UNIT, "launch", ON, "K-03")}
    assert not keys & {"K-03", "K-06"}


def test_where_the_task_asks_nothing_everybody_is_alike() -> None:
    found = evaluators(UNIT, "free", ON, "K-01")
    assert [each.key for each in found] == ["K-02", "K-03", "K-04", "K-05", "K-07"]
    assert all(each.current and not warning(each) for each in found)
    assert choice_line(found[0]) == "K-02"


def test_a_choice_tells_the_standing_by_shape_and_words() -> None:
    assert choice_line(one("K-03")) == "● K-03, current through 2027-06-01"
    assert choice_line(one("K-02")) == "✖ K-02, lapsed since 2026-06-02"
    assert choice_line(one("K-01")) == "– K-01, not assigned"


def test_the_standing_on_the_day_is_one_sentence() -> None:
    told = standing_told(one("K-02"), ON)
    assert told == "K-02, teacher on 2026-11-25: lapsed since 2026-06-02."
    assert standing_told(one("K-02", "free"), ON).startswith("The standard asks nothing")


def test_nothing_is_warned_of_where_the_evaluator_is_current() -> None:
    assert warning(one("K-03")) == ""


def test_a_warning_says_what_the_record_will_show() -> None:
    begins = "Signing is possible; the record will show that"
    assert warning(one("K-02")) == f"{begins} K-02 had lapsed as teacher on 2026-06-02."
    assert warning(one("K-04")) == f"{begins} K-04 was still in training as teacher."
    assert warning(one("K-05")) == f"{begins} K-05 was stood down as teacher."
    assert warning(one("K-01")) == f"{begins} K-01 was not assigned as teacher."
