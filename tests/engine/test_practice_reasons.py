"""Why recent practice is met or not: what counts, and what is missing in words."""

from collections.abc import Sequence
from datetime import date
from typing import Any

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.practice_reasons import counted_and_missing
from crewtrack.engine.requirement import Floor, Only, Recent
from crewtrack.engine.standard import Task
from crewtrack.engine.standings import Counted
from crewtrack.facts import LIGHTS, WAYS
from tests.case_builder import case
from tests.evidence_builder import Bio, day
from tests.standard_builder import Rules, each, within

TASKS = {
    "recovery": Task("recovery", "Hand recovery", moment="recovery"),
    "launch": Task("launch", "Deck launch"),
}
WINDOW = within("P90D")


def rule(count: int = 1, horizon: Horizon = WINDOW, **more: Any) -> Recent:
    tasks = more.pop("tasks", ("recovery",))
    return Recent("r", True, tasks, amount=count, horizon=horizon, **more)


def told(
    requirement: Recent, on: str, flown: Sequence[str] = (), signed: Sequence[str] = ()
) -> tuple[tuple[Counted, ...], tuple[str, ...]]:
    asked = case(Rules({"deck": (requirement,)}, tasks=TASKS), on, flown, Bio(signed=signed))
    return counted_and_missing(asked, requirement, day(on))


def missing(
    requirement: Recent, on: str, flown: Sequence[str] = (), signed: Sequence[str] = ()
) -> str:
    [words] = told(requirement, on, flown, signed)[1]
    return words


def counts(
    requirement: Recent, on: str, flown: Sequence[str], signed: Sequence[str] = ()
) -> list[tuple[str, int]]:
    return [(c.key, c.amount) for c in told(requirement, on, flown, signed)[0]]


def test_a_performance_that_counts_tells_its_sortie_day_and_conditions() -> None:
    flown = ["2026-01-01 recovery x2 night drifting sea3 vessel:rib as:S-7"]
    [found] = told(rule(2), "2026-01-10", flown)[0]
    assert found == Counted(
        "performance",
        "S-7",
        date(2026, 1, 1),
        amount=2,
        task="Hand recovery",
        through=date(2026, 4, 1),
        conditions="night (stated), drifting, sea 3, live, from a rib",
    )


def test_what_counts_is_told_newest_first_and_no_more_than_is_needed() -> None:
    flown = ["2026-01-01 recovery as:a", "2026-01-02 recovery as:b", "2026-01-03 recovery as:c"]
    assert counts(rule(2), "2026-01-10", flown) == [("c", 1), ("b", 1)]


def test_what_is_too_old_on_the_day_is_not_counted() -> None:
    flown = ["2026-01-01 recovery as:a", "2026-03-01 recovery as:b"]
    assert counts(rule(2), "2026-04-01", flown) == [("b", 1), ("a", 1)]
    assert counts(rule(2), "2026-04-02", flown) == [("b", 1)]


def test_each_performance_is_told_by_its_own_task() -> None:
    flown = ["2026-01-01 launch", "2026-01-02 recovery"]
    found = told(rule(2, tasks=("recovery", "launch")), "2026-01-10", flown)[0]
    assert [c.task for c in found] == ["Hand recovery", "Deck launch"]


def test_a_sign_off_that_counts_as_the_whole_is_told_before_the_performances() -> None:
    requirement = rule(recheck=Duration(months=6))
    flown = ["2026-01-20 recovery as:S-7"]
    found = counts(requirement, "2026-02-01", flown, ["2026-01-01 recovery"])
    assert found == [("E-001", 1), ("S-7", 1)]


def test_a_sign_off_that_counts_no_longer_is_not_told() -> None:
    requirement = rule(recheck=Duration(months=6))
    assert counts(requirement, "2026-04-02", [], ["2026-01-01 recovery"]) == []


def test_nothing_is_missing_where_it_is_met_without_limit() -> None:
    found, words = told(rule(horizon=Horizon()), "2026-06-01", ["2026-01-01 recovery as:S-7"])
    assert ([c.key for c in found], words) == (["S-7"], ())


def test_what_was_never_met_says_what_meets_it() -> None:
    assert missing(rule(3), "2026-04-01", ["2026-03-01 recovery"]) == (
        "Hand recovery: 1 of 3 since 2026-01-01; 2 more meet this"
    )


def test_what_has_ended_says_what_brings_it_back() -> None:
    flown = ["2026-01-01 recovery x2", "2026-03-01 recovery"]
    assert missing(rule(2), "2026-04-02", flown) == (
        "Hand recovery: 1 of 2 since 2026-01-02; 1 more brings this back"
    )


def test_what_is_met_says_how_much_by_when_keeps_it() -> None:
    flown = ["2026-01-01 recovery", "2026-03-01 recovery"]
    assert missing(rule(2), "2026-03-15", flown) == (
        "Hand recovery: 1 of 2 since 2026-01-02; 1 more by 2026-04-01 keeps this"
    )


def test_without_a_window_there_is_no_day_since_when() -> None:
    requirement = rule(3, horizon=Horizon())
    assert missing(requirement, "2026-04-02", ["2020-01-01 recovery"]) == (
        "Hand recovery: 1 of 3; 2 more meet this"
    )


def test_minutes_are_told_in_minutes() -> None:
    requirement = rule(120, measure="minutes")
    assert missing(requirement, "2026-04-01", ["2026-03-01 recovery 90min"]) == (
        "Hand recovery: 90 of 120 minutes since 2026-01-01; 30 more meet this"
    )


def test_the_conditions_and_craft_that_count_are_asked_of_what_is_to_come() -> None:
    floor = Floor(light=LIGHTS.index("night"), way=WAYS.index("drifting"))
    requirement = rule(floor=floor, only=Only(aircraft=("wing",)))
    assert missing(requirement, "2026-04-01") == (
        "Hand recovery: 0 of 1 since 2026-01-01; 1 more, at night, drifting or under way, on wing, "
        "meets this"
    )


def test_supervision_is_asked_only_while_it_is_not_met() -> None:
    requirement = rule(supervised_regain=True)
    flown = ["2026-01-01 recovery under:K-09"]
    assert missing(requirement, "2026-03-31", flown) == (
        "Hand recovery: 0 of 1 since 2026-01-02; 1 more by 2026-04-01 keeps this"
    )
    assert missing(requirement, "2026-04-02", flown) == (
        "Hand recovery: 0 of 1 since 2026-01-02; 1 more, supervised, brings this back"
    )


def test_unsupervised_practice_that_never_counts_is_not_counted_here_either() -> None:
    requirement = rule(2, supervised_regain=True)
    flown = ["2026-03-01 recovery", "2026-03-02 recovery under:K-09"]
    assert missing(requirement, "2026-04-01", flown).startswith("Hand recovery: 1 of 2 since")


@pytest.mark.parametrize(
    ("drills", "flown", "words"),
    [
        (0, "2026-03-01 recovery", "2 more, live, meet this"),
        (1, "2026-03-01 recovery drill", "2 more, live, meet this"),
        (1, "2026-03-01 recovery", "2 more, at least 1 of them live, meet this"),
        (2, "2026-03-01 recovery", "2 more meet this"),
    ],
)
def test_as_much_is_asked_to_be_live_as_drills_cannot_make_up(
    drills: int, flown: str, words: str
) -> None:
    assert missing(rule(3, drills=drills), "2026-04-01", [flown]) == (
        f"Hand recovery: 1 of 3 since 2026-01-01; {words}"
    )


MONTHLY = rule(2, horizon=each("month"))
MAY = ["2026-05-03 recovery as:a", "2026-05-04 recovery as:b"]


def test_in_periods_the_evidence_is_that_of_the_period_it_rests_on() -> None:
    flown = [*MAY, "2026-06-01 recovery as:c"]
    assert counts(MONTHLY, "2026-06-15", flown) == [("b", 1), ("a", 1)]


def test_in_periods_what_was_done_in_the_last_one_counts_toward_keeping_it() -> None:
    flown = [*MAY, "2026-06-01 recovery as:c"]
    assert missing(MONTHLY, "2026-06-15", flown) == (
        "Hand recovery: 1 of 2 since 2026-06-01; 1 more by 2026-06-30 keeps this"
    )


def test_before_the_period_in_which_it_is_due_that_period_is_named() -> None:
    assert missing(MONTHLY, "2026-05-20", MAY) == (
        "Hand recovery: 2 from 2026-06-01 through 2026-06-30 keep this"
    )


def test_in_periods_only_the_current_one_counts_toward_coming_back() -> None:
    flown = [*MAY, "2026-06-20 recovery as:c", "2026-07-01 recovery as:d"]
    assert counts(MONTHLY, "2026-07-10", flown) == [("d", 1)]
    assert missing(MONTHLY, "2026-07-10", flown) == (
        "Hand recovery: 1 of 2 since 2026-07-01; 1 more brings this back"
    )


RECHECKED = rule(recheck=Duration(days=60))
SIGNED = ["2026-01-01 recovery"]


def test_at_first_it_takes_a_sign_off() -> None:
    assert missing(RECHECKED, "2026-04-01", ["2026-03-01 recovery"]) == (
        "Hand recovery: a sign-off passed at level alone or above meets this"
    )


def test_while_practice_still_brings_it_back_the_last_day_of_that_is_told() -> None:
    assert missing(RECHECKED, "2026-05-31", [], SIGNED) == (
        "Hand recovery: 0 of 1 since 2026-03-02; 1 more brings this back "
        "(after 2026-05-31 only a sign-off does)"
    )


def test_after_too_long_it_takes_a_sign_off() -> None:
    assert missing(RECHECKED, "2026-06-01", [], SIGNED) == (
        "Hand recovery: a sign-off passed at level alone or above brings this back"
    )


def test_while_it_is_met_no_sign_off_is_asked() -> None:
    assert missing(RECHECKED, "2026-03-31", [], SIGNED) == (
        "Hand recovery: 0 of 1 since 2026-01-02; 1 more by 2026-04-01 keeps this"
    )


def test_a_time_for_practice_that_never_runs_out_is_not_told() -> None:
    requirement = rule(recheck=Duration(months=999_999))
    assert missing(requirement, "2026-05-31", [], SIGNED).endswith("; 1 more brings this back")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"floor": Floor(sea=3)}, "on a sortie (sea 3 or above)"),
        ({"drills": 0}, "on a live sortie"),
        ({"drills": 0, "only": Only(vessel=("rib",))}, "on a live sortie (from rib)"),
    ],
)
def test_the_sign_off_is_asked_on_a_sortie_that_meets_the_requirement(
    more: dict[str, Any], words: str
) -> None:
    requirement = rule(recheck=Duration(days=60), **more)
    assert missing(requirement, "2026-04-01") == (
        f"Hand recovery: a sign-off passed at level alone or above {words} meets this"
    )


def certifying(on: str, flown: Sequence[str], *signed: str, **more: Any) -> list[str]:
    """What is missing where a pass of the task has to be certified."""
    tasks = {"recovery": Task("recovery", "Hand recovery", certified_by="officer")}
    need = rule(recheck=Duration(days=60), **more)
    asked = case(Rules({"deck": (need,)}, tasks=tasks), on, flown, Bio(signed=signed))
    return [str(words) for words in counted_and_missing(asked, need, day(on))[1]]


def test_a_recheck_that_waits_for_its_certification_is_what_is_missing() -> None:
    assert certifying("2026-01-20", (), "2026-01-10 recovery") == [
        "Hand recovery: passed on 2026-01-10 by K-99, and waits for certification by an officer; "
        "its certification meets this"
    ]


def test_a_recheck_that_waits_can_keep_what_a_certified_one_began() -> None:
    first = "2026-01-10 recovery certified:2026-01-10"
    assert certifying("2026-04-01", (), first, "2026-03-10 recovery") == [
        "Hand recovery: passed on 2026-03-10 by K-99, and waits for certification by an officer; "
        "its certification by 2026-04-10 keeps this"
    ]


def test_a_recheck_that_would_not_help_is_not_asked_for() -> None:
    lines = ("2026-01-10 recovery", "2026-03-10 recovery certified:2026-03-10")
    assert certifying("2026-04-01", (), *lines) == [
        "Hand recovery: 0 of 1 since 2026-03-11; 1 more by 2026-06-08 keeps this"
    ]
