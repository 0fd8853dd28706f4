"""What the contract says of qualifications: sections 4.4, 4.5 and 5, sentence by sentence.

Source: the unit contract of what "current" means; trust: these are the rules themselves.
"""

from datetime import date

import pytest

from crewtrack.engine.days import Horizon
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Recent, Requirement
from tests.evidence_builder import PERFORMER, Bio, evidence, flights
from tests.reckoned import TESTED, Story, one_need, practice
from tests.standard_builder import Rules, editions, within

FLY = practice(1, within("P30D"))
MEDICAL = Certified("medical", True, "medical", Horizon())
DECK = Holds("deck-first", True, "deck")


def fly(days: int, task: str = "hand-recovery", named: bool = True) -> Recent:
    """Once within so many days."""
    return Recent(f"fly-{task}", named, (task,), horizon=within(f"P{days}D"))


def story(*needs: Requirement, flown: tuple[str, ...] = (), **bio: object) -> Story:
    """One qualification; flights and the rest in notation."""
    return one_need(*needs, flown=flown, bio=Bio(**bio))  # type: ignore[arg-type] # lines


def night(flown: tuple[str, ...], **bio: object) -> Story:
    """``night`` holds ``deck``; ``deck`` asks for one flight within 30 days."""
    rules = Rules({"deck": [FLY], "night": [DECK]})
    return Story((rules,), flown, Bio(**bio))  # type: ignore[arg-type] # lines


JANUARY = ("2026-01-01 hand-recovery",)


class TestHolds:
    """Section 4.4."""

    def test_it_is_met_while_the_other_qualifications_requirements_are(self) -> None:
        assert night(JANUARY).spans("night") == ["2026-01-01..2026-01-31"]

    def test_the_others_waivers_are_included_and_shown(self) -> None:
        waived = night(JANUARY, waivers=["deck practice 2026-02-01..2026-02-10"])
        assert waived.spans("night") == ["2026-01-01..2026-02-10"]
        assert waived.standing("2026-02-05", "night").by_waiver == ("W-001",)
        assert waived.standing("2026-01-05", "night").by_waiver == ()

    def test_a_stand_down_from_the_other_ends_it(self) -> None:
        down = night(JANUARY, standdowns=["deck 2026-01-10..2026-01-12"])
        assert down.spans("night") == ["2026-01-01..2026-01-09", "2026-01-13..2026-01-31"]

    def test_a_stand_down_does_not_show_before_it_starts(self) -> None:
        down = night(JANUARY, standdowns=["deck 2026-01-10..2026-01-12"])
        assert down.told("2026-01-09", "night") == ("due", "2026-01-01", "2026-01-31")
        assert down.told("2026-01-13", "night") == ("due", "2026-01-13", "2026-01-31")

    def test_assignment_to_the_other_and_time_on_the_books_are_not_asked(self) -> None:
        assigned = ["night 2025-01-01.."]
        alone = night(JANUARY, assigned=assigned, left="2026-01-20")
        assert alone.told("2026-01-20", "night") == ("due", "2026-01-01", "2026-01-31")
        assert alone.spans("night") == ["2026-01-01..2026-01-20"]

    def test_any_is_the_union_and_all_the_intersection(self) -> None:
        flown = ("2026-01-01 hand-recovery", "2026-01-20 deck-launch")
        both = fly(30), fly(30, "deck-launch")
        any_of, all_of = AnyOf("any", False, both), AllOf("all", False, both)
        assert story(any_of, flown=flown).spans() == ["2026-01-01..2026-02-19"]
        assert story(all_of, flown=flown).spans() == ["2026-01-20..2026-01-31"]


class TestWaivers:
    """Section 4.5, waivers and extensions."""

    @pytest.mark.parametrize("kind", ["waiver", "extension"])
    def test_the_requirement_stands_as_met_over_the_span(self, kind: str) -> None:
        waived = story(
            FLY, flown=JANUARY, waivers=[f"tested practice 2026-02-01..2026-02-10 {kind}"]
        )
        assert waived.spans() == ["2026-01-01..2026-02-10"]
        assert waived.told("2026-02-05") == ("due", "2026-01-01", "2026-02-10")
        assert waived.standing("2026-02-05").by_waiver == ("W-001",)

    def test_it_does_not_show_before_it_starts(self) -> None:
        waived = story(FLY, flown=JANUARY, waivers=["tested practice 2026-02-01..2026-02-10"])
        assert waived.told("2026-01-31") == ("due", "2026-01-01", "2026-01-31")

    def test_a_waiver_that_changes_nothing_is_not_shown(self) -> None:
        waived = story(FLY, flown=JANUARY, waivers=["tested practice 2026-01-05..2026-01-31"])
        assert waived.standing("2026-01-10").by_waiver == ()

    def test_a_waiver_that_only_moves_through_is_shown(self) -> None:
        waived = story(FLY, flown=JANUARY, waivers=["tested practice 2026-01-05..2026-02-01"])
        assert waived.standing("2026-01-10").by_waiver == ("W-001",)

    def test_two_waivers_of_the_same_days_are_both_shown(self) -> None:
        same = ["tested practice 2026-02-01..2026-02-10"] * 2
        waived = story(FLY, flown=JANUARY, waivers=same)
        assert waived.standing("2026-02-05").by_waiver == ("W-001", "W-002")

    def test_only_an_id_written_in_the_standard_can_be_waived(self) -> None:
        waivers = ["tested fly-hand-recovery 2026-02-01..2026-02-10"]
        unnamed = story(fly(30, named=False), flown=JANUARY, waivers=waivers)
        assert unnamed.spans() == ["2026-01-01..2026-01-31"]

    def test_it_can_be_waived_at_any_depth(self) -> None:
        nested = AllOf("all", False, (AnyOf("any", False, (FLY,)), MEDICAL))
        waived = story(
            nested,
            certificates=["medical 2026-01-01"],
            waivers=["tested practice 2026-02-01..2026-02-10"],
        )
        assert waived.spans() == ["2026-02-01..2026-02-10"]

    def test_a_waiver_of_one_qualification_leaves_the_others(self) -> None:
        waived = night(JANUARY, waivers=["night practice 2026-02-01..2026-02-10"])
        assert waived.spans("night") == ["2026-01-01..2026-01-31"]

    def test_it_has_no_effect_under_an_edition_that_lacks_the_id(self) -> None:
        rules = Rules({TESTED: [FLY]}), Rules({TESTED: [fly(30)]}, effective="2026-02-05")
        waived = Story(rules, JANUARY, Bio(waivers=["tested practice 2026-02-01..2026-02-10"]))
        assert waived.spans() == ["2026-01-01..2026-02-04"]


class TestStandings:
    """Section 5, the table in its order."""

    def test_none_where_not_assigned_or_not_on_the_books(self) -> None:
        bio = {"assigned": ["tested 2026-01-05..2026-01-20"], "joined": "2026-01-10"}
        told = story(FLY, flown=JANUARY, **bio)
        words = [told.told(f"2026-01-{day}")[0] for day in ("04", "09", "10", "20", "21")]
        assert words == ["none", "none", "due", "due", "none"]

    def test_none_goes_before_stood_down_and_that_before_all_else(self) -> None:
        told = story(
            FLY, flown=JANUARY, assigned=["tested 2026-01-05.."], standdowns=["all 2026-01-01.."]
        )
        assert [told.told(f"2026-01-{day}") for day in ("04", "05")] == [
            ("none", "", ""),
            ("stood-down", "", ""),
        ]

    def test_current_while_met_on_every_day_of_the_notice_else_due(self) -> None:
        told = story(fly(90), flown=JANUARY)
        assert told.told("2026-03-02") == ("current", "2026-01-01", "2026-04-01")
        assert told.told("2026-03-03") == ("due", "2026-01-01", "2026-04-01")
        assert told.told("2026-04-01") == ("due", "2026-01-01", "2026-04-01")

    def test_lapsed_from_the_day_after(self) -> None:
        assert story(fly(90), flown=JANUARY).told("2026-05-01") == ("lapsed", "2026-04-02", "")

    def test_training_until_first_met_in_this_assignment(self) -> None:
        told = story(
            FLY, flown=JANUARY, assigned=["tested 2025-01-01..2026-01-15", "tested 2026-02-10.."]
        )
        assert told.told("2025-12-31") == ("training", "", "")
        assert told.told("2026-02-10") == ("training", "", "")

    @pytest.mark.parametrize("second", ["tested 2026-01-16..", "tested 2026-01-05.."])
    def test_assignments_that_touch_or_overlap_are_one(self, second: str) -> None:
        told = story(FLY, flown=JANUARY, assigned=["tested 2025-01-01..2026-01-15", second])
        assert told.told("2026-02-10") == ("lapsed", "2026-02-01", "")

    def test_since_is_not_cut_by_assignment_books_or_stand_downs(self) -> None:
        told = story(
            fly(90),
            flown=JANUARY,
            assigned=["tested 2026-02-01.."],
            joined="2026-01-20",
            standdowns=["tested 2026-02-02..2026-02-03"],
        )
        assert told.told("2026-02-04") == ("current", "2026-01-01", "2026-04-01")

    def test_a_planned_stand_down_or_a_leaving_date_is_not_a_lapse(self) -> None:
        told = story(fly(90), flown=JANUARY, left="2026-02-20", standdowns=["tested 2026-02-01.."])
        assert told.told("2026-01-31") == ("current", "2026-01-01", "2026-04-01")

    def test_limiting_names_what_is_not_met_on_the_day_after(self) -> None:
        flown = ("2026-01-01 hand-recovery", "2026-01-10 deck-launch")
        told = story(fly(30), fly(30, "deck-launch"), flown=flown)
        assert told.standing("2026-01-20").limiting == ("fly-hand-recovery",)
        assert told.standing("2026-02-05").limiting == ("fly-hand-recovery",)
        assert told.standing("2026-02-20").limiting == ("fly-hand-recovery", "fly-deck-launch")
        assert told.standing("2026-01-05").limiting == ("fly-deck-launch",)

    def test_limiting_is_empty_where_there_is_no_end(self) -> None:
        told = story(MEDICAL, certificates=["medical 2026-01-01"])
        assert told.standing("2026-01-20").limiting == ()


class TestEditions:
    """Section 5, the last paragraph."""

    STRICTER = (Rules({TESTED: [fly(90)]}), Rules({TESTED: [fly(30)]}, effective="2026-02-15"))

    def test_the_edition_in_effect_judges_all_evidence_old_evidence_included(self) -> None:
        told = Story(self.STRICTER, JANUARY)
        assert told.spans() == ["2026-01-01..2026-02-14"]
        assert told.told("2026-02-15") == ("lapsed", "2026-02-15", "")

    def test_a_coming_edition_shows_in_through_and_due(self) -> None:
        told = Story(self.STRICTER, JANUARY)
        assert told.told("2026-01-20") == ("due", "2026-01-01", "2026-02-14")

    def test_spans_of_editions_are_joined_where_they_touch(self) -> None:
        rules = Rules({TESTED: [fly(30)]}), Rules({TESTED: [fly(90)]}, effective="2026-01-15")
        assert Story(rules, JANUARY).spans() == ["2026-01-01..2026-04-01"]

    def test_before_the_first_edition_the_first_one_serves(self) -> None:
        rules = (Rules({TESTED: [fly(30)]}, effective="2026-06-01"),)
        assert Story(rules, JANUARY).spans() == ["2026-01-01..2026-01-31"]

    def test_a_qualification_that_an_edition_lacks_is_none_under_it(self) -> None:
        rules = Rules({TESTED: [fly(90)]}), Rules({"other": [MEDICAL]}, effective="2026-02-15")
        told = Story(rules, JANUARY)
        assert told.told("2026-02-15") == ("none", "", "")
        assert told.standing("2026-02-01").limiting == ("edition",)
        assert told.spans() == ["2026-01-01..2026-02-14"]

    def test_limiting_goes_by_the_edition_of_the_day_after(self) -> None:
        later = Rules({TESTED: [fly(90), MEDICAL]}, effective="2026-02-15")
        told = Story((Rules({TESTED: [fly(90)]}), later), JANUARY)
        assert told.standing("2026-02-01").limiting == ("medical",)

    def test_flights_that_were_eligible_under_one_edition_may_not_be_under_the_next(self) -> None:
        supervised = Recent("fly", True, ("hand-recovery",), horizon=within("P90D"))
        strict = Recent(
            "fly", True, ("hand-recovery",), horizon=within("P90D"), supervised_regain=True
        )
        rules = Rules({TESTED: [supervised]}), Rules({TESTED: [strict]}, effective="2026-02-15")
        assert Story(rules, JANUARY).spans() == ["2026-01-01..2026-02-14"]


class TestRosterAndHistory:
    """Which rows there are, and their order."""

    RULES = editions(
        Rules({"b": [FLY], "a": [MEDICAL]}),
        Rules({"c": [FLY], "a": [MEDICAL]}, effective="2026-06-01"),
    )
    BIOS = (
        Bio("K-02", assigned=["a 2026-01-01..", "b 2026-01-01..", "c 2026-01-01.."]),
        Bio("K-01", assigned=["a 2026-01-01.."], left="2026-03-01"),
    )

    def test_history_has_every_pair_with_an_assignment_in_order(self) -> None:
        rows = Reckoning(evidence((), self.BIOS), self.RULES).history()
        assert [(row.person, row.qualification) for row in rows] == [
            (PERFORMER, "a"),
            ("K-02", "b"),
            ("K-02", "a"),
            ("K-02", "c"),
        ]

    def test_standings_has_everybody_on_the_books_that_day_by_that_days_edition(self) -> None:
        engine = Reckoning(evidence(flights(JANUARY), self.BIOS), self.RULES)
        rows = engine.standings(date(2026, 2, 1))
        assert [(row.person, row.qualification) for row in rows] == [
            (PERFORMER, "b"),
            (PERFORMER, "a"),
            ("K-02", "b"),
            ("K-02", "a"),
        ]
        later = engine.standings(date(2026, 7, 1))
        assert [(row.person, row.qualification) for row in later] == [("K-02", "a"), ("K-02", "c")]
