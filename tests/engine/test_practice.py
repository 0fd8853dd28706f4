"""What one person has done that bears on a requirement."""

from collections.abc import Sequence

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.days import FOREVER, Duration
from crewtrack.engine.practice import Practice, checks, practice
from crewtrack.engine.requirement import Floor, Only, Recent
from crewtrack.facts import WAYS
from tests.evidence_builder import PERFORMER, Bio, day, evidence, flights
from tests.standard_builder import Rules, standard

RECOVERY = Recent("recovery", True, ("recovery",))
BOTH = Recent("both", True, ("recovery", "launch"))
DRIFTING = Floor(way=WAYS.index("drifting"))
RECHECKED = Recent("recovery", True, ("recovery",), recheck=Duration(months=6))


def done(requirement: Recent, flown: Sequence[str], until: int = FOREVER) -> Practice:
    known = evidence(flights(flown), (Bio(),))
    conditions = Conditions(known.sorties, standard(Rules({"deck": (requirement,)})))
    return practice(requirement, known.books[PERFORMER], known.sorties, conditions, until)


def counting(requirement: Recent, signed: Sequence[str], flown: Sequence[str] = ()) -> list[str]:
    known = evidence(flights(flown), (Bio(signed=signed),))
    conditions = Conditions(known.sorties, standard(Rules({"deck": (requirement,)})))
    found = checks(requirement, known.books[PERFORMER].signoffs, known.sorties, conditions)
    return [signoff.key for signoff in found]


def test_performances_carry_their_day_times_supervisor_and_task() -> None:
    found = done(RECOVERY, ["2026-01-01 recovery x2 under:K-09"])
    assert (found.day, found.times) == ([day("2026-01-01")], (2,))
    assert (found.supervisor, found.task) == (("K-09",), ["recovery"])


def test_another_task_does_not_bear_on_it() -> None:
    assert list(done(RECOVERY, ["2026-01-01 launch"]).day) == []


def test_any_of_several_tasks_counts_in_the_order_in_which_they_happened() -> None:
    flown = ["2026-01-03 launch", "2026-01-01 recovery", "2026-01-02 launch recovery"]
    found = done(BOTH, flown)
    assert list(found.task) == ["recovery", "launch", "recovery", "launch"]
    assert list(found.sortie) == [0, 1, 1, 2]


def test_of_two_tasks_on_one_sortie_the_one_recorded_first_comes_first() -> None:
    assert list(done(BOTH, ["2026-01-02 launch recovery"]).task) == ["launch", "recovery"]


def test_what_is_below_the_floor_is_left_out() -> None:
    requirement = Recent("r", True, ("recovery",), floor=DRIFTING)
    flown = ["2026-01-01 recovery moored", "2026-01-02 recovery under-way", "2026-01-03 recovery"]
    assert done(requirement, flown).day == [day("2026-01-02")]


def test_craft_of_another_kind_are_left_out() -> None:
    requirement = Recent("r", True, ("recovery",), only=Only(vessel=("rib",)))
    flown = ["2026-01-01 recovery vessel:lifeboat", "2026-01-02 recovery vessel:rib"]
    assert done(requirement, flown).day == [day("2026-01-02")]


def test_several_tasks_none_of_which_meets_the_floor_leave_nothing() -> None:
    requirement = Recent("r", True, ("recovery", "launch"), floor=DRIFTING)
    flown = ["2026-01-01 recovery moored", "2026-01-01 launch moored"]
    assert list(done(requirement, flown).day) == []


def test_what_is_dated_later_is_left_out() -> None:
    flown = ["2026-01-01 recovery", "2026-01-02 launch", "2026-01-03 recovery"]
    found = done(BOTH, flown, day("2026-01-02"))
    assert found.day == [day("2026-01-01"), day("2026-01-02")]
    assert list(found.task) == ["recovery", "launch"]
    assert len(found.sortie) == len(found.order) == len(found.times) == len(found.supervisor) == 2


def test_without_recheck_no_sign_off_counts_as_practice() -> None:
    assert counting(RECOVERY, ["2026-01-01 recovery"]) == []


def test_sign_offs_that_count_come_by_date() -> None:
    signed = ["2026-02-01 recovery as:later", "2026-01-01 recovery evaluator as:sooner"]
    assert counting(RECHECKED, signed) == ["sooner", "later"]


def test_only_a_pass_of_the_task_at_level_alone_or_above_counts() -> None:
    signed = [
        "2026-01-01 recovery failed",
        "2026-01-02 recovery not-yet",
        "2026-01-03 recovery supervised",
        "2026-01-04 launch",
    ]
    assert counting(RECHECKED, signed) == []


def test_with_a_floor_a_sign_off_needs_a_sortie_that_meets_it() -> None:
    requirement = Recent("r", True, ("recovery",), floor=DRIFTING, recheck=Duration(months=6))
    flown = ["2026-01-01 recovery moored as:low", "2026-01-02 recovery drifting as:high"]
    signed = [
        "2026-01-01 recovery on:low as:below",
        "2026-01-02 recovery on:high as:meets",
        "2026-01-03 recovery as:without",
    ]
    assert counting(requirement, signed, flown) == ["meets"]


def test_without_drills_a_sign_off_needs_a_live_sortie() -> None:
    requirement = Recent("r", True, ("recovery",), drills=0, recheck=Duration(months=6))
    flown = ["2026-01-01 recovery drill as:dock", "2026-01-02 recovery as:sea"]
    signed = [
        "2026-01-01 recovery on:dock as:drilled",
        "2026-01-02 recovery on:sea as:live",
        "2026-01-03 recovery as:without",
    ]
    assert counting(requirement, signed, flown) == ["live"]


def test_where_some_drills_may_count_a_sign_off_needs_no_sortie() -> None:
    requirement = Recent("r", True, ("recovery",), drills=1, recheck=Duration(months=6))
    assert counting(requirement, ["2026-01-01 recovery as:it"]) == ["it"]
