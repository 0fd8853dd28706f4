"""Recent practice: enough of it, recently enough, eligible, and rechecked after a long gap."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.amounts import Flown
from crewtrack.engine.days import Duration
from crewtrack.engine.practice import Practice
from crewtrack.engine.recent import Track, track
from crewtrack.engine.requirement import MEASURES, Recent
from tests.case_builder import case, written
from tests.evidence_builder import PERFORMER, Bio, day
from tests.standard_builder import Rules, each, within


def rule(amount: int = 1, window: str = "P30D", **more: Any) -> Recent:
    return Recent("r", True, ("recovery",), amount=amount, horizon=within(window), **more)


def followed(requirement: Recent, flown: Sequence[str], signed: Sequence[str] = ()) -> Track:
    asked = case(Rules({"deck": (requirement,)}), flown=flown, bio=Bio(signed=signed))
    return asked.track(requirement, asked.practice(requirement), asked.signoffs)


def met(requirement: Recent, flown: Sequence[str], signed: Sequence[str] = ()) -> list[str]:
    return written(followed(requirement, flown, signed).days)


def test_nobody_is_current_without_practice() -> None:
    assert followed(rule(), []) == Track((), range(0), None)


def test_one_short_of_the_amount_is_not_current() -> None:
    assert met(rule(3), ["2026-01-01 recovery x2"]) == []


def test_the_oldest_of_those_needed_sets_the_last_day() -> None:
    flown = ["2026-01-01 recovery", "2026-01-11 recovery", "2026-01-21 recovery"]
    assert met(rule(2), flown) == ["2026-01-11..2026-02-10"]


def test_what_counts_no_longer_does_not_help() -> None:
    assert met(rule(2), ["2026-01-01 recovery", "2026-02-01 recovery"]) == []


def test_on_the_last_day_of_its_window_a_performance_still_counts() -> None:
    flown = ["2026-01-01 recovery", "2026-01-31 recovery"]
    assert met(rule(2), flown) == ["2026-01-31..2026-01-31"]


def test_practice_on_the_day_after_the_last_leaves_no_gap() -> None:
    assert met(rule(), ["2026-01-01 recovery", "2026-02-01 recovery"]) == ["2026-01-01..2026-03-03"]


def test_practice_a_day_later_leaves_one_day_out() -> None:
    flown = ["2026-01-01 recovery", "2026-02-02 recovery"]
    assert met(rule(), flown) == ["2026-01-01..2026-01-31", "2026-02-02..2026-03-04"]


def test_several_times_on_one_sortie_count_as_several() -> None:
    assert met(rule(3), ["2026-01-01 recovery x3"]) == ["2026-01-01..2026-01-31"]


def test_without_a_window_practice_counts_for_good() -> None:
    requirement = Recent("r", True, ("recovery",), amount=2)
    assert met(requirement, ["2020-01-01 recovery", "2026-01-01 recovery"]) == ["2026-01-01.."]


def test_a_flight_after_clocks_went_back_across_midnight_covers_its_own_earlier_day() -> None:
    # In St. John's on 2010-11-07, one minute past midnight became 23:01 of the evening before
    # (the zone's own history).
    flown = ["2010-11-07T00:00:30-02:30 recovery", "2010-11-06T23:30-03:30 recovery"]
    for requirement in (rule(), rule(drills=9)):
        rules = Rules({"deck": (requirement,)}, zone="America/St_Johns")
        assert written(case(rules, flown=flown).requirement("deck", requirement)) == [
            "2010-11-06..2010-12-07"
        ]


def test_after_clocks_went_back_an_older_flight_that_is_dated_later_still_counts() -> None:
    done = Practice(
        day=[day("2026-03-02"), day("2026-03-01")],
        sortie=[0, 1],
        order=[0, 1],
        times=[1, 1],
        supervisor=[None, None],
        task=["recovery"] * 2,
    )
    flown = Flown([30, 30], [False, False], PERFORMER)
    same_day = Recent("r", True, ("recovery",), amount=2, horizon=within("P1D"), drills=2)
    assert written(track(same_day, done, [], flown).days) == ["2026-03-01..2026-03-03"]


def test_minutes_are_the_sorties_once_however_many_performances_it_holds() -> None:
    requirement = rule(60, measure="minutes")
    assert met(requirement, ["2026-01-01 recovery recovery 40min"]) == []
    flown = ["2026-01-01 recovery recovery 40min", "2026-01-03 recovery 20min"]
    assert met(requirement, flown) == ["2026-01-03..2026-01-31"]


def test_sorties_count_once_whatever_was_done_on_them() -> None:
    flown = ["2026-01-01 recovery x5", "2026-01-01 recovery"]
    assert met(rule(2, measure="sorties"), flown[:1]) == []
    assert met(rule(2, measure="sorties"), flown) == ["2026-01-01..2026-01-31"]


def test_days_are_different_dates() -> None:
    flown = ["2026-01-01 recovery", "2026-01-01 recovery", "2026-01-05 recovery"]
    assert met(rule(2, measure="days"), flown) == ["2026-01-05..2026-01-31"]


def test_drills_count_up_to_their_bound() -> None:
    flown = ["2026-01-01 recovery", "2026-01-10 recovery x5 drill"]
    assert met(rule(2, drills=1), flown) == ["2026-01-10..2026-01-31"]
    assert met(rule(3, drills=1), flown) == []


def test_no_drills_count_where_none_may() -> None:
    flown = ["2026-01-01 recovery drill", "2026-01-10 recovery"]
    assert met(rule(drills=0), flown) == ["2026-01-10..2026-02-09"]


def test_part_of_a_drills_minutes_can_count() -> None:
    flown = ["2026-01-01 recovery 30min", "2026-01-10 recovery 90min drill"]
    assert met(rule(60, measure="minutes", drills=30), flown) == ["2026-01-10..2026-01-31"]
    assert met(rule(61, measure="minutes", drills=30), flown) == []


def test_the_newest_drills_are_those_that_count() -> None:
    flown = ["2026-01-01 recovery drill", "2026-01-05 recovery", "2026-01-10 recovery drill"]
    assert met(rule(2, drills=1), flown) == ["2026-01-05..2026-02-04"]


def test_drills_without_a_bound_count_like_any_other() -> None:
    assert met(rule(2), ["2026-01-01 recovery x2 drill"]) == ["2026-01-01..2026-01-31"]


def test_in_periods_only_what_lies_in_one_period_adds_up() -> None:
    requirement = Recent("r", True, ("recovery",), amount=2, horizon=each("month"))
    assert met(requirement, ["2026-01-31 recovery", "2026-02-01 recovery"]) == []
    flown = ["2026-01-31 recovery", "2026-02-01 recovery", "2026-02-28 recovery"]
    assert met(requirement, flown) == ["2026-02-28..2026-03-31"]


def test_unsupervised_practice_counts_while_the_person_is_current() -> None:
    flown = ["2026-01-01 recovery under:K-09", "2026-01-31 recovery"]
    assert met(rule(supervised_regain=True), flown) == ["2026-01-01..2026-03-02"]


def test_unsupervised_practice_after_the_end_never_counts() -> None:
    flown = ["2026-02-01 recovery", "2026-02-02 recovery under:K-09"]
    requirement = rule(2, supervised_regain=True)
    assert followed(requirement, flown).eligible == [1]
    assert met(requirement, flown) == []


def test_nobody_supervises_himself_or_herself() -> None:
    assert met(rule(supervised_regain=True), [f"2026-01-01 recovery under:{PERFORMER}"]) == []


def test_a_waiver_does_not_make_unsupervised_practice_count() -> None:
    requirement = rule(supervised_regain=True)
    bio = Bio(waivers=("deck r 2026-01-01..2026-01-31",))
    asked = case(Rules({"deck": (requirement,)}), flown=["2026-01-10 recovery"], bio=bio)
    assert written(asked.requirement("deck", requirement)) == ["2026-01-01..2026-01-31"]


RECHECKED = rule(recheck=Duration(days=60))


def test_from_the_very_start_practice_alone_is_not_enough_where_a_recheck_is_asked() -> None:
    assert met(RECHECKED, ["2026-01-01 recovery x9"]) == []


def test_a_passed_sign_off_counts_as_the_whole_requirement() -> None:
    requirement = rule(5, recheck=Duration(days=60))
    assert met(requirement, [], ["2026-01-01 recovery"]) == ["2026-01-01..2026-01-31"]


def test_practice_within_the_recheck_time_brings_a_person_back() -> None:
    found = met(RECHECKED, ["2026-04-01 recovery"], ["2026-01-01 recovery"])
    assert found == ["2026-01-01..2026-01-31", "2026-04-01..2026-05-01"]


def test_practice_a_day_after_the_recheck_time_does_not() -> None:
    found = met(RECHECKED, ["2026-04-02 recovery"], ["2026-01-01 recovery"])
    assert found == ["2026-01-01..2026-01-31"]


def test_the_recheck_time_runs_through_the_months_end_where_the_window_does() -> None:
    # Published two-stage rule: 14 CFR 61.57(c), (d); cases second hand: last events in December
    # 2014, by practice through 2015-12-31, from 2016-01-01 only by a check.
    horizon = within("P6M", "month-end")
    requirement = replace(rule(), horizon=horizon, recheck=Duration(months=6))
    signed = ["2014-12-10 recovery"]
    back = met(requirement, ["2015-12-31 recovery"], signed)
    assert back == ["2014-12-10..2015-06-30", "2015-12-31..2016-06-30"]
    assert met(requirement, ["2016-01-01 recovery"], signed) == ["2014-12-10..2015-06-30"]


def test_practice_that_came_too_late_still_adds_up_after_the_next_sign_off() -> None:
    requirement = rule(2, recheck=Duration(days=10))
    flown = ["2026-01-01 recovery", "2026-01-20 recovery"]
    signed = ["2026-01-05 recovery"]
    assert met(requirement, flown, signed) == ["2026-01-05..2026-02-04"]
    assert met(requirement, [*flown, "2026-02-10 recovery"], signed) == [
        "2026-01-05..2026-02-04",
        "2026-02-10..2026-02-19",
    ]


def test_on_one_date_a_sign_off_comes_after_the_performances() -> None:
    requirement = rule(supervised_regain=True, recheck=Duration(days=60))
    flown = ["2026-01-01 recovery"]
    assert followed(requirement, flown, ["2026-01-01 recovery"]).eligible == []
    assert followed(requirement, flown, ["2025-12-31 recovery"]).eligible == [0]


def test_a_sign_off_after_all_practice_counts() -> None:
    found = met(RECHECKED, ["2026-01-01 recovery"], ["2026-03-01 recovery"])
    assert found == ["2026-03-01..2026-03-31"]


def test_a_sooner_sign_off_counts_in_full_too() -> None:
    signed = ["2026-01-01 recovery", "2026-01-21 recovery"]
    assert met(RECHECKED, [], signed) == ["2026-01-01..2026-02-20"]


@pytest.mark.parametrize("window", ["P1D", "P30D", "P1M"])
@given(
    gaps=st.lists(st.tuples(st.integers(0, 40), st.integers(1, 3)), max_size=8),
    amount=st.integers(1, 4),
)
def test_the_short_way_for_plain_requirements_answers_as_the_whole_walk_does(
    window: str, gaps: list[tuple[int, int]], amount: int
) -> None:
    days = [day("2026-01-01")]
    for gap, _ in gaps:
        days.append(days[-1] + gap)
    times = [1, *(count for _, count in gaps)]
    places = range(len(days))
    done = Practice(days, places, places, times, [None] * len(days), ["recovery"] * len(days))
    flown = Flown([30] * len(days), [False] * len(days), PERFORMER)
    plain = rule(amount, window)
    whole = replace(plain, drills=0)  # no bound that matters: none of them is a drill
    assert track(plain, done, [], flown).days == track(whole, done, [], flown).days


def test_a_measure_that_is_none_of_the_four_is_a_mistake_of_the_program() -> None:
    assert set(MEASURES) == {"times", "minutes", "sorties", "days"}
    with pytest.raises(AssertionError):
        met(rule(measure="hours"), ["2026-01-01 recovery"])
