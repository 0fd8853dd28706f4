"""The worked examples and tables of the contract on requirements, as they stand there.

Source of every figure: the unit contract of what "current" means, sections 2, 3 and 4.1 to 4.3;
trust: these are the rules themselves, not somebody's reading of them.
"""

from dataclasses import replace

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import Floor, Only, Recent
from tests.evidence_builder import Bio
from tests.reckoned import (
    one_need,
    practice,
    supervised_way_back,
    with_recheck,
)
from tests.standard_builder import each, within

THREE_IN_90 = practice(3, within("P90D"))
ONCE_IN_90 = practice(1, within("P90D"))


def once(need: Recent, *flown: str, bio: Bio | None = None) -> list[str]:
    """The spans of one requirement."""
    return one_need(need, flown=flown, bio=bio).spans()


class TestDays:
    """Section 2."""

    def test_a_sortie_belongs_to_the_local_date_of_its_launch_also_when_it_lands_after_midnight(
        self,
    ) -> None:
        flown = ["2026-11-25T23:50 hand-recovery 45min"]
        story = one_need(ONCE_IN_90, flown=flown, zone="America/Detroit")
        assert story.spans() == ["2026-11-25..2027-02-23"]

    def test_the_date_is_that_of_the_unit_and_not_that_of_utc(self) -> None:
        story = one_need(
            ONCE_IN_90, flown=["2026-11-26T04:50Z hand-recovery"], zone="America/Detroit"
        )
        assert story.spans() == ["2026-11-25..2027-02-23"]

    def test_both_passes_of_an_hour_that_comes_twice_belong_to_the_day_before_midnight(
        self,
    ) -> None:
        flown = ["2018-02-17T23:30-02:00 hand-recovery", "2018-02-17T23:30-03:00 hand-recovery"]
        story = one_need(practice(2, within("P1D")), flown=flown, zone="America/Sao_Paulo")
        assert story.spans() == ["2018-02-17..2018-02-18"]

    def test_where_clocks_go_back_across_midnight_the_earlier_date_goes_first(self) -> None:
        # In Newfoundland in 2007 the clock went back at 00:01 to 23:01 of the day before.
        supervised = "2007-11-04T00:00:30-02:30 hand-recovery under:K-09"
        an_hour_later = "2007-11-03T23:30-03:30 hand-recovery"
        need = supervised_way_back(1, within("P30D"))
        story = one_need(need, flown=[supervised, an_hour_later], zone="America/St_Johns")
        assert story.spans() == ["2007-11-04..2007-12-04"]
        assert story.told("2007-11-03") == ("training", "", "")

    def test_what_is_dated_later_does_not_show(self) -> None:
        flown = ["2026-01-01 hand-recovery", "2026-01-20 hand-recovery"]
        assert one_need(ONCE_IN_90, flown=flown).told("2026-01-10") == (
            "current",
            "2026-01-01",
            "2026-04-01",
        )


class TestHorizons:
    """Section 3, the table; and what follows from its sentences."""

    @pytest.mark.parametrize(
        ("horizon", "done", "through"),
        [
            (within("P90D"), "2026-01-01", "2026-04-01"),
            (within("P90D"), "2023-12-01", "2024-02-29"),
            (within("P6M"), "2026-08-31", "2027-02-28"),
            (within("P2Y"), "2024-02-29", "2026-02-28"),
            (within("P24M", "month-end"), "2024-06-15", "2026-06-30"),
            (within("P6M", "month-end"), "2025-08-01", "2026-02-28"),
            (within("P2W"), "2026-02-20", "2026-03-06"),
            (each("month"), "2026-05-01", "2026-06-30"),
            (each("half-year"), "2026-03-09", "2026-12-31"),
            (each("quarter"), "2026-11-25", "2027-03-31"),
            (each("year"), "2026-05-01", "2027-12-31"),
            (Horizon(), "2026-05-01", ""),
            (within("P9000Y"), "2026-05-01", ""),
        ],
    )
    def test_one_performance_counts_through_its_horizon(
        self, horizon: Horizon, done: str, through: str
    ) -> None:
        assert once(practice(1, horizon), f"{done} hand-recovery") == [f"{done}..{through}"]


class TestRecent:
    """Section 4.1."""

    def test_three_within_90_days_counts_back_from_the_newest(self) -> None:
        three = [f"{day} hand-recovery" for day in ("2026-01-01", "2026-03-22", "2026-04-11")]
        assert once(THREE_IN_90, *three) == []
        assert once(THREE_IN_90, *three, "2026-04-21 hand-recovery") == ["2026-04-21..2026-06-20"]

    def test_the_way_back_under_supervision(self) -> None:
        flown = [
            "2026-01-01 hand-recovery x3 under:K-09",
            "2026-04-02 hand-recovery",
            "2026-04-02 hand-recovery",
            "2026-04-02 hand-recovery",
            "2026-05-01 hand-recovery under:K-09",
            "2026-05-01 hand-recovery under:K-09",
            "2026-05-02 hand-recovery under:K-09",
        ]
        assert once(supervised_way_back(3, within("P90D")), *flown) == [
            "2026-01-01..2026-04-01",
            "2026-05-02..2026-07-30",
        ]

    def test_a_recheck_is_due_once_out_of_currency_for_too_long(self) -> None:
        need = with_recheck(1, within("P30D"), "P60D")
        flown = ["2026-03-31 hand-recovery", "2026-06-30 hand-recovery"]
        bio = Bio(signed=["2026-01-01 hand-recovery"])
        spans = ["2026-01-01..2026-01-31", "2026-03-31..2026-04-30"]
        assert once(need, *flown, bio=bio) == spans
        later = Bio(signed=[*bio.signed, "2026-07-10 hand-recovery"])
        assert once(need, *flown, bio=later) == [*spans, "2026-07-10..2026-08-09"]

    def test_with_recheck_practice_alone_does_not_start_anybody(self) -> None:
        need = with_recheck(1, within("P30D"), "P60D")
        assert once(need, "2026-01-01 hand-recovery", "2026-01-02 hand-recovery") == []

    def test_without_recheck_sign_offs_do_not_count_as_practice(self) -> None:
        assert once(ONCE_IN_90, bio=Bio(signed=["2026-01-01 hand-recovery"])) == []

    def test_a_failed_result_leaves_practice_alone(self) -> None:
        need = with_recheck(1, within("P30D"), "P60D")
        bio = Bio(signed=["2026-01-01 hand-recovery", "2026-01-05 hand-recovery failed"])
        assert once(need, bio=bio) == ["2026-01-01..2026-01-31"]

    def test_a_recheck_under_a_floor_needs_a_sortie_that_meets_it(self) -> None:
        need = replace(with_recheck(1, within("P30D"), "P60D"), floor=Floor(way=2))
        flown = ["2026-01-01 deck-launch drifting as:A", "2026-01-02 deck-launch moored as:B"]
        for told, spans in (
            ("on:A", ["2026-01-03..2026-02-02"]),
            ("on:B", []),
            ("", []),
        ):
            bio = Bio(signed=[f"2026-01-03 hand-recovery {told}"])
            assert once(need, *flown, bio=bio) == spans

    def test_a_recheck_without_drills_needs_a_live_sortie(self) -> None:
        need = replace(with_recheck(1, within("P30D"), "P60D"), drills=0)
        flown = ["2026-01-01 deck-launch drill as:A", "2026-01-02 deck-launch as:B"]
        dry, live = (Bio(signed=[f"2026-01-03 hand-recovery on:{key}"]) for key in "AB")
        assert once(need, *flown, bio=dry) == []
        assert once(need, *flown, bio=live) == ["2026-01-03..2026-02-02"]

    def test_flights_under_a_waiver_count_like_any_others_while_it_is_not_met(self) -> None:
        need = supervised_way_back(1, within("P30D"))
        bio = Bio(waivers=["tested practice 2026-01-01..2026-01-31"])
        assert once(need, "2026-01-15 hand-recovery", bio=bio) == ["2026-01-01..2026-01-31"]

    def test_nobody_supervises_himself_or_herself(self) -> None:
        need = supervised_way_back(1, within("P30D"))
        assert once(need, "2026-01-15 hand-recovery under:K-01") == []

    def test_one_unsupervised_performance_later_on_the_day_of_regaining_counts(self) -> None:
        need = supervised_way_back(1, within("P30D"))
        flown = ["2026-01-15T10:00 hand-recovery under:K-09", "2026-01-15T11:00 hand-recovery"]
        assert once(replace(need, amount=2), *flown) == []
        twice = [*flown, "2026-02-14T10:00 hand-recovery"]
        assert once(need, *twice) == ["2026-01-15..2026-03-16"]

    def test_each_counts_what_lies_in_one_period(self) -> None:
        need = practice(2, each("month"))
        flown = ["2026-05-31 hand-recovery", "2026-06-01 hand-recovery", "2026-06-30 hand-recovery"]
        assert once(need, *flown) == ["2026-06-30..2026-07-31"]

    def test_part_of_a_drill_can_count(self) -> None:
        need = replace(practice(3, within("P30D")), drills=1)
        flown = ["2026-01-01 hand-recovery x2 drill", "2026-01-02 hand-recovery x2"]
        assert once(need, *flown) == ["2026-01-02..2026-01-31"]
        assert once(replace(need, drills=0), *flown) == []

    def test_minutes_of_a_sortie_count_once_however_many_performances_it_holds(self) -> None:
        need = replace(practice(60, within("P30D")), measure="minutes")
        need = replace(need, tasks=("hand-recovery", "deck-launch"))
        assert once(need, "2026-01-01 hand-recovery deck-launch 40min") == []
        flown = ["2026-01-01 hand-recovery deck-launch 40min", "2026-01-05 deck-launch 20min"]
        assert once(need, *flown) == ["2026-01-05..2026-01-31"]

    def test_sorties_and_days_count_once_each(self) -> None:
        flown = ["2026-01-01 hand-recovery x9", "2026-01-01 hand-recovery x9"]
        sorties = replace(practice(2, within("P30D")), measure="sorties")
        days = replace(practice(2, within("P30D")), measure="days")
        assert once(sorties, *flown) == ["2026-01-01..2026-01-31"]
        assert once(days, *flown) == []

    @pytest.mark.parametrize(
        ("floor", "counts"),
        [
            (Floor(light=2), True),
            (Floor(way=2), True),
            (Floor(way=3), False),
            (Floor(sea=3), True),
            (Floor(sea=4), False),
            (Floor(wind=12), True),
            (Floor(wind=12.5), False),
        ],
    )
    def test_conditions_at_or_above_the_floor_count(self, floor: Floor, counts: bool) -> None:
        done = once(
            replace(ONCE_IN_90, floor=floor), "2026-01-01 hand-recovery night drifting sea3 wind12"
        )
        assert bool(done) is counts

    @pytest.mark.parametrize(
        "floor", [Floor(light=0), Floor(way=0), Floor(sea=0), Floor(wind=0), Floor(apparent=0)]
    )
    def test_what_was_not_recorded_never_meets_a_floor(self, floor: Floor) -> None:
        assert once(replace(ONCE_IN_90, floor=floor), "2026-01-01 hand-recovery") == []

    @pytest.mark.parametrize(
        ("told", "counts"),
        [
            ("drifting from240 wind14 set90 drift1.2 heading60 speed0", True),  # 12.97 kn
            ("drifting from240 wind13 speed0", True),  # no current recorded: none
            ("drifting from240 wind14 set60 drift1.2 speed0", False),  # 12.8 kn
            ("moored from240 wind14 set60 drift1.2", True),  # the boat does not move
            ("anchored from240 wind14 set60 drift1.2", True),
            ("moored wind14", True),  # nor does it matter where the wind comes from
            ("drifting from240 wind14", False),  # no speed recorded
            ("under-way from240 wind14 speed2", False),  # nor heading
            ("under-way from240 wind8 heading240 speed5", True),
        ],
    )
    def test_apparent_wind_is_the_wind_over_the_deck(self, told: str, counts: bool) -> None:
        need = replace(ONCE_IN_90, floor=Floor(apparent=13))
        assert bool(once(need, f"2026-01-01 hand-recovery {told}")) is counts

    def test_only_the_named_kinds_of_craft_count(self) -> None:
        need = replace(ONCE_IN_90, only=Only(aircraft=("light-quad",), vessel=("rib", "lifeboat")))
        counted = "2026-01-01 hand-recovery aircraft:light-quad vessel:rib"
        assert once(need, counted) == ["2026-01-01..2026-04-01"]
        assert once(need, "2026-01-01 hand-recovery aircraft:light-quad vessel:barge") == []
        assert once(need, "2026-01-01 hand-recovery vessel:rib") == []


def test_a_recheck_within_months_goes_with_the_requirements_own_month_end() -> None:
    need = with_recheck(1, within("P6M", "month-end"), "P6M")
    bio = Bio(signed=["2026-01-10 hand-recovery"])
    in_time = once(need, "2027-01-31 hand-recovery", bio=bio)
    assert in_time == ["2026-01-10..2026-07-31", "2027-01-31..2027-07-31"]
    assert once(need, "2027-02-01 hand-recovery", bio=bio) == ["2026-01-10..2026-07-31"]
    assert Duration.parse("P6M") == need.recheck
