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
    at_least,
    at_level,
    grounds,
    length,
    light_told,
    needed,
    only_on,
    relief_told,
    rule,
    signer_told,
)
from crewtrack.facts import DUTIES, LEVELS, LIGHTS, WAYS
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


NIGHT = LIGHTS.index("night")


@pytest.mark.parametrize(
    ("requirement", "words"),
    [
        (recent(), "Hand recovery: 3 times in 90 days"),
        (recent(count=1), "Hand recovery: once in 90 days"),
        (recent(Horizon()), "Hand recovery: 3 times, at any time"),
        (recent(each("month")), "Hand recovery: 3 times in each calendar month"),
        (recent(each("half-year")), "Hand recovery: 3 times in each half of a calendar year"),
        (
            recent(within("P6M", "month-end")),
            "Hand recovery: 3 times in 6 months, to the end of that month",
        ),
        (
            Recent("r", True, ("recovery", "launch"), "minutes", 30, WINDOW),
            "Hand recovery or Deck launch: 30 minutes in 90 days",
        ),
        (recent(count=1, measure="sorties"), "Hand recovery: on 1 sortie in 90 days"),
        (recent(count=2, measure="sorties"), "Hand recovery: on 2 sorties in 90 days"),
        (recent(count=1, measure="days"), "Hand recovery: on 1 day in 90 days"),
        (recent(count=2, measure="days"), "Hand recovery: on 2 different days in 90 days"),
    ],
)
def test_practice_tells_what_how_much_and_in_which_time(
    requirement: Requirement, words: str
) -> None:
    assert told(requirement) == words


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"floor": Floor(light=NIGHT), "only": Only(vessel=("rib",))}, "at night, from rib"),
        ({"drills": 0}, "none of it a drill"),
        ({"drills": 1}, "at most 1 of them a drill"),
        ({"drills": 2}, "at most 2 of them drills"),
        ({"drills": 1, "measure": "minutes"}, "at most 1 minute of it in drills"),
        ({"supervised_regain": True}, "once lapsed, only supervised ones count"),
        (
            {"recheck": Duration(months=6)},
            "at the start, and after more than 6 months out, only by a sign-off",
        ),
    ],
)
def test_practice_tells_what_counts_of_it(more: dict[str, Any], words: str) -> None:
    assert told(recent(**more)).endswith(f" in 90 days, {words}")


@pytest.mark.parametrize(
    ("requirement", "words"),
    [
        (
            Signed("s", True, "recovery", horizon=within("P12M")),
            "Hand recovery: signed off at level alone or above, good for 1 year",
        ),
        (
            Signed("s", True, "recovery", horizon=within("P12M", "month-end"), early=1, late=2),
            "Hand recovery: signed off at level alone or above, good for 1 year, to the end of"
            " that month, up to 1 month early keeps the date, up to 2 months late is allowed",
        ),
        (
            Signed("s", True, "recovery", horizon=each("year")),
            "Hand recovery: signed off at level alone or above, anew in each calendar year",
        ),
        (MEDICAL, "certificate medical"),
        (
            Certified("m", True, "medical", within("P2Y")),
            "certificate medical, good for 2 years",
        ),
        (
            Certified(
                "m", True, "medical", ages=(AgeBand(40, within("P60M")), AgeBand(None, Horizon()))
            ),
            "certificate medical, good for 5 years if issued before the age of 40,"
            " good for all time from there on",
        ),
        (Holds("h", True, "basic"), "basic is held"),
        (AnyOf("n", True, (MEDICAL,)), "any one of these"),
        (AllOf("n", True, (MEDICAL,)), "all of these"),
    ],
)
def test_every_other_requirement_tells_its_rule(requirement: Requirement, words: str) -> None:
    assert told(requirement) == words


def test_nothing_is_above_the_highest_level() -> None:
    assert at_level(LEVELS.index("evaluator")) == "at level evaluator"


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


def test_of_times_only_the_number_is_needed_since_the_task_is_named_before() -> None:
    assert needed(recent()) == "3"
    assert needed(recent(measure="days")) == "3 days"
    assert needed(recent(count=1, measure="sorties")) == "1 sortie"
    assert needed(recent(count=120, measure="minutes")) == "120 minutes"


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


def test_every_duty_has_words_for_somebody_with_it() -> None:
    assert len({str(signer_told(duty)) for duty in DUTIES}) == len(DUTIES)
    assert signer_told("officer") == "an officer"


def test_conditions_and_reliefs_have_words_of_their_own() -> None:
    assert (light_told("night"), relief_told("extension")) == ("night", "extension")
