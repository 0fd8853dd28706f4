"""A requirement's rule in plain words."""

from typing import Any

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import (
    AgeBand,
    AllOf,
    AnyOf,
    Certified,
    Floor,
    Holds,
    Only,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.standard import Task
from crewtrack.engine.wording import (
    amount,
    at_least,
    at_level,
    grounds,
    length,
    needed,
    only_on,
    rule,
)
from crewtrack.facts import LEVELS, LIGHTS, WAYS
from tests.standard_builder import Rules, each, standard, within

TASKS = {
    "recovery": Task("recovery", "Hand recovery"),
    "launch": Task("launch", "Deck launch"),
}
MEDICAL = Certified("medical", True, "medical")
WINDOW = within("P90D")


def told(requirement: Requirement) -> str:
    edition = standard(Rules({"basic": (), "deck": (requirement,)}, tasks=TASKS))
    return rule(requirement, edition)


def recent(horizon: Horizon = WINDOW, count: int = 3, **more: Any) -> Recent:
    return Recent("r", True, ("recovery",), amount=count, horizon=horizon, **more)


def test_practice_tells_what_how_much_and_in_which_time() -> None:
    assert told(recent()) == "Hand recovery: 3 times in 90 days"


def test_once_is_one_time() -> None:
    assert told(recent(count=1)) == "Hand recovery: 1 time in 90 days"


def test_any_of_several_tasks_is_told_as_or() -> None:
    requirement = Recent("r", True, ("recovery", "launch"), amount=2, horizon=WINDOW)
    assert told(requirement) == "Hand recovery or Deck launch: 2 times in 90 days"


def test_practice_tells_the_conditions_and_the_craft_that_count() -> None:
    floor = Floor(light=LIGHTS.index("night"))
    requirement = recent(floor=floor, only=Only(vessel=("rib",)))
    assert told(requirement) == "Hand recovery: 3 times in 90 days, at night, from rib"


@pytest.mark.parametrize(
    ("drills", "words"),
    [(0, "drills do not count"), (1, "at most 1 time of that in drills")],
)
def test_practice_tells_how_much_may_come_from_drills(drills: int, words: str) -> None:
    assert told(recent(drills=drills)) == f"Hand recovery: 3 times in 90 days, {words}"


def test_practice_tells_that_only_supervised_ones_bring_it_back() -> None:
    assert told(recent(supervised_regain=True)) == (
        "Hand recovery: 3 times in 90 days, while it is not met only supervised ones count"
    )


def test_practice_tells_when_it_takes_a_sign_off() -> None:
    assert told(recent(recheck=Duration(months=6))) == (
        "Hand recovery: 3 times in 90 days, at first, and after more than 6 months without it, "
        "only by a sign-off"
    )


@pytest.mark.parametrize(
    ("horizon", "words"),
    [
        (Horizon(), "Hand recovery: 3 times"),
        (each("half-year"), "Hand recovery: 3 times each half-year"),
        (within("P6M"), "Hand recovery: 3 times in 6 months"),
        (within("P6M", "month-end"), "Hand recovery: 3 times in 6 months, to the month's end"),
    ],
)
def test_the_window_is_told_in_words(horizon: Horizon, words: str) -> None:
    assert told(recent(horizon)) == words


def test_a_sign_off_tells_its_level_and_how_long_it_counts() -> None:
    requirement = Signed("s", True, "recovery", horizon=within("P12M"))
    assert told(requirement) == "Hand recovery: signed off at level alone or above in 1 year"


def test_a_sign_off_tells_how_early_and_how_late_it_may_be_done() -> None:
    horizon = within("P12M", "month-end")
    requirement = Signed("s", True, "recovery", horizon=horizon, early=1, late=2)
    assert told(requirement).endswith(", 1 month early keeps the date, 2 months late allowed")


def test_nothing_is_above_the_highest_level() -> None:
    assert at_level(LEVELS.index("evaluator")) == "at level evaluator"


def test_a_certificate_is_told_by_its_kind_and_window() -> None:
    assert told(MEDICAL) == "certificate medical"
    assert told(Certified("m", True, "medical", within("P2Y"))) == "certificate medical in 2 years"


def test_a_certificate_tells_its_windows_by_age() -> None:
    ages = (AgeBand(40, within("P60M")), AgeBand(None, within("P24M")))
    assert told(Certified("m", True, "medical", ages=ages)) == (
        "certificate medical, by age on the issue date: under 40 in 5 years; older in 2 years"
    )


def test_a_qualification_held_is_told_by_its_title() -> None:
    assert told(Holds("h", True, "basic")) == "basic is held"


def test_nests_tell_how_their_parts_join() -> None:
    assert told(AnyOf("n", True, (MEDICAL,))) == "any one of these"
    assert told(AllOf("n", True, (MEDICAL,))) == "all of these"


@pytest.mark.parametrize(
    ("duration", "words"),
    [
        ("P1D", "1 day"),
        ("P90D", "90 days"),
        ("P2W", "14 days"),
        ("P1M", "1 month"),
        ("P18M", "18 months"),
        ("P12M", "1 year"),
        ("P24M", "2 years"),
    ],
)
def test_a_duration_is_told_in_words(duration: str, words: str) -> None:
    assert length(Duration.parse(duration)) == words


def test_an_amount_is_told_in_its_measure() -> None:
    assert amount(recent(measure="sorties"), 1) == "1 sortie"
    assert amount(recent(measure="minutes"), 120) == "120 minutes"


def test_of_times_only_the_number_is_needed_since_the_task_is_named_before() -> None:
    assert (needed(recent()), needed(recent(measure="days"))) == ("3", "3 days")


@pytest.mark.parametrize(
    ("floor", "words"),
    [
        (Floor(), ""),
        (Floor(light=LIGHTS.index("day")), "by day or darker"),
        (Floor(light=LIGHTS.index("twilight")), "in twilight or at night"),
        (Floor(light=LIGHTS.index("night")), "at night"),
        (Floor(way=WAYS.index("anchored")), "anchored, drifting or under way"),
        (Floor(way=WAYS.index("under-way")), "under way"),
        (Floor(sea=3), "sea 3 or above"),
        (Floor(wind=12.0), "wind 12 kn or more"),
        (Floor(apparent=10.5), "10.5 kn or more over the deck"),
        (Floor(light=LIGHTS.index("night"), sea=3), "at night, sea 3 or above"),
    ],
)
def test_the_least_demanding_conditions_are_told_in_words(floor: Floor, words: str) -> None:
    assert at_least(floor) == words


@pytest.mark.parametrize(
    ("only", "words"),
    [
        (Only(), ""),
        (Only(aircraft=("light-quad", "wing")), "on light-quad or wing"),
        (Only(aircraft=("wing",), vessel=("rib", "lifeboat")), "on wing, from rib or lifeboat"),
    ],
)
def test_the_craft_that_count_are_told_in_words(only: Only, words: str) -> None:
    assert only_on(only) == words


@pytest.mark.parametrize(
    ("reason", "by", "words"),
    [
        ("boat in the yard", "A. Moss", "by A. Moss: boat in the yard"),
        ("boat in the yard", "", "boat in the yard"),
        ("", "A. Moss", "by A. Moss"),
        ("", "", ""),
    ],
)
def test_a_decision_tells_who_took_it_and_why_as_far_as_is_known(
    reason: str, by: str, words: str
) -> None:
    assert grounds(reason, by) == words
