"""One person's evidence before one edition: requirements of every kind as sets of days."""

from collections.abc import Sequence

from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.standard import Task
from tests.case_builder import case, written
from tests.evidence_builder import PERFORMER, Bio, day
from tests.standard_builder import Rules, within

RECOVERY = Recent("recency", True, ("recovery",), horizon=within("P30D"))
SIGNED = Signed("signed", True, "recovery")
MEDICAL = Certified("medical", True, "medical")
RADIO = Certified("radio", True, "radio")
MARCH = "medical 2026-03-01 expires:2026-03-31"
TWENTIETH = "2026-01-20 recovery"
SPRING = "radio 2026-03-20 expires:2026-05-31"


def met(need: Requirement, bio: Bio, until: str = "", flown: Sequence[str] = ()) -> list[str]:
    return written(case(Rules({"deck": (need,)}), until, flown, bio).requirement("deck", need))


def test_recent_practice_is_met_by_the_persons_own_performances() -> None:
    flown = ["2026-01-01 recovery", "2026-01-20 recovery by:K-02"]
    assert met(RECOVERY, Bio(), flown=flown) == ["2026-01-01..2026-01-31"]


def test_what_is_dated_later_than_the_day_asked_about_is_not_counted() -> None:
    bio = Bio(signed=("2026-01-10 recovery",))
    assert met(SIGNED, bio, until="2026-01-09") == []


def test_all_is_met_where_each_part_is() -> None:
    both = AllOf("both", True, (MEDICAL, RADIO))
    assert met(both, Bio(certificates=(MARCH, SPRING))) == ["2026-03-20..2026-03-31"]


def test_any_is_met_where_some_part_is() -> None:
    either = AnyOf("either", True, (MEDICAL, RADIO))
    assert met(either, Bio(certificates=(MARCH, SPRING))) == ["2026-03-01..2026-05-31"]


HELD = Rules({"basic": (MEDICAL,), "deck": (Holds("holds", True, "basic"),)})


def test_another_qualification_is_held_while_its_requirements_are_met() -> None:
    asked = case(HELD, bio=Bio(certificates=(MARCH,)))
    assert written(asked.qualification("deck")) == ["2026-03-01..2026-03-31"]


def test_another_qualification_is_held_under_its_waivers() -> None:
    asked = case(HELD, bio=Bio(waivers=("basic medical 2026-01-01..2026-01-31",)))
    assert written(asked.qualification("deck")) == ["2026-01-01..2026-01-31"]


def test_another_qualification_is_not_held_while_stood_down() -> None:
    bio = Bio(certificates=(MARCH,), standdowns=("basic 2026-03-10..2026-03-20",))
    assert written(case(HELD, bio=bio).qualification("deck")) == [
        "2026-03-01..2026-03-09",
        "2026-03-21..2026-03-31",
    ]


def test_assignment_and_time_on_the_books_are_not_asked_of_a_qualification_held() -> None:
    bio = Bio(certificates=(MARCH,), joined="2026-03-15", left="2026-03-20")
    assert written(case(HELD, bio=bio).qualification("deck")) == ["2026-03-01..2026-03-31"]


def test_a_qualification_that_asks_for_nothing_is_always_met() -> None:
    assert written(case(Rules({"deck": ()})).qualification("deck")) == ["0001-01-01.."]


def test_a_waiver_lets_a_requirement_stand_as_met_over_its_span() -> None:
    bio = Bio(certificates=(MARCH,), waivers=("deck medical 2026-04-10..2026-04-20",))
    assert met(MEDICAL, bio) == ["2026-03-01..2026-03-31", "2026-04-10..2026-04-20"]


def test_a_waiver_does_not_show_before_its_first_day() -> None:
    bio = Bio(waivers=("deck medical 2026-04-10..2026-04-20",))
    assert met(MEDICAL, bio, until="2026-04-09") == []


def test_a_waiver_of_another_requirement_or_qualification_changes_nothing() -> None:
    waivers = ("deck radio 2026-04-10..2026-04-20", "basic medical 2026-04-10..2026-04-20")
    assert met(MEDICAL, Bio(waivers=waivers)) == []


def test_a_requirement_without_a_written_id_cannot_be_waived() -> None:
    need = Certified("certificate-medical", False, "medical")
    assert met(need, Bio(waivers=("deck certificate-medical 2026-04-10..2026-04-20",))) == []


def test_a_requirement_inside_another_can_be_waived() -> None:
    both = AllOf("both", False, (MEDICAL, RADIO))
    bio = Bio(certificates=(SPRING,), waivers=("deck medical 2026-04-10..2026-04-20",))
    assert met(both, bio) == ["2026-04-10..2026-04-20"]


def test_a_waiver_that_is_left_out_has_no_effect_and_the_case_itself_keeps_it() -> None:
    asked = case(HELD, bio=Bio(waivers=("basic medical 2026-01-01..2026-01-31",)))
    assert written(asked.leaving_out(["W-001"]).qualification("deck")) == []
    assert written(asked.qualification("deck")) == ["2026-01-01..2026-01-31"]


def test_a_stand_down_from_one_qualification_leaves_others_alone() -> None:
    asked = case(HELD, bio=Bio(standdowns=("basic 2026-03-10..",)))
    assert written(asked.stood_down("basic")) == ["2026-03-10.."]
    assert written(asked.stood_down("deck")) == []


def test_a_stand_down_from_all_covers_every_qualification() -> None:
    asked = case(HELD, bio=Bio(standdowns=("all 2026-03-10..2026-03-12",)))
    assert written(asked.stood_down("deck")) == ["2026-03-10..2026-03-12"]


def test_a_stand_down_does_not_show_before_its_first_day() -> None:
    asked = case(HELD, until="2026-03-09", bio=Bio(standdowns=("all 2026-03-10..",)))
    assert written(asked.stood_down("deck")) == []


def test_a_withdrawn_sign_off_counts_on_the_days_before_its_withdrawal() -> None:
    bio = Bio(signed=("2026-01-10 recovery withdrawn:2026-06-01",))
    assert met(SIGNED, bio) == ["2026-01-10..2026-05-31"]


def test_a_withdrawal_does_not_show_before_its_date() -> None:
    bio = Bio(signed=("2026-01-10 recovery withdrawn:2026-06-01",))
    assert met(SIGNED, bio, until="2026-05-31") == ["2026-01-10.."]


def test_when_a_failed_result_is_withdrawn_the_pass_before_it_covers_again() -> None:
    signed = ("2026-01-10 recovery", "2026-02-01 recovery failed withdrawn:2026-03-01")
    assert met(SIGNED, Bio(signed=signed)) == ["2026-01-10..2026-01-31", "2026-03-01.."]


def test_two_that_ask_for_the_same_are_waived_each_by_its_own_id() -> None:
    first, second = Certified("one", True, "medical"), Certified("two", True, "medical")
    bio = Bio(waivers=("deck two 2026-01-01..2026-01-31",))
    asked = case(Rules({"deck": (first, second)}), bio=bio)
    assert written(asked.requirement("deck", first)) == []
    assert written(asked.requirement("deck", second)) == ["2026-01-01..2026-01-31"]


def test_two_on_the_same_practice_ask_each_for_its_own_amount() -> None:
    twice = Recent("twice", True, ("recovery",), amount=2, horizon=within("P30D"))
    asked = case(Rules({"deck": (RECOVERY, twice)}), flown=["2026-01-01 recovery"])
    assert written(asked.requirement("deck", RECOVERY)) == ["2026-01-01..2026-01-31"]
    assert written(asked.requirement("deck", twice)) == []


def test_a_qualification_that_two_others_hold_is_the_same_for_both() -> None:
    deck, night = Holds("d", True, "basic"), Holds("n", True, "basic")
    rules = Rules({"basic": (MEDICAL,), "deck": (deck,), "night": (night,)})
    asked = case(rules, bio=Bio(certificates=(MARCH,)))
    assert asked.qualification("deck") == asked.qualification("night") != ()


def test_by_itself_a_requirement_is_met_without_its_waivers() -> None:
    bio = Bio(certificates=(MARCH,), waivers=("deck medical 2026-04-10..2026-04-20",))
    asked = case(Rules({"deck": (MEDICAL,)}), bio=bio)
    assert written(asked.by_itself("deck", MEDICAL)) == ["2026-03-01..2026-03-31"]


def test_sign_offs_stand_until_the_day_of_their_withdrawal() -> None:
    bio = Bio(signed=("2026-01-10 recovery withdrawn:2026-06-01",))
    asked = case(Rules({"deck": (SIGNED,)}), bio=bio)
    assert len(asked.standing_signoffs(day("2026-05-31"))) == 1
    assert len(asked.standing_signoffs(day("2026-06-01"))) == 0


def test_the_same_case_can_be_asked_as_of_another_day() -> None:
    asked = case(Rules({"deck": (MEDICAL,)}), bio=Bio(certificates=(MARCH,)))
    assert asked.as_of(day("2026-02-28")).qualification("deck") == ()
    assert written(asked.as_of(day("2026-03-01")).qualification("deck")) == [
        "2026-03-01..2026-03-31"
    ]


def test_ahead_says_nothing_of_the_days_before() -> None:
    asked = case(Rules({"deck": (MEDICAL,)}), "2026-03-20", bio=Bio(certificates=(MARCH,)))
    assert written(asked.ahead.qualification("deck")) == ["2026-03-20..2026-03-31"]


def test_a_waiver_left_out_is_left_out_ahead_too() -> None:
    bio = Bio(waivers=("deck medical 2026-03-01..2026-03-31",))
    asked = case(Rules({"deck": (MEDICAL,)}), "2026-03-20", bio=bio)
    assert asked.leaving_out(["W-001"]).ahead.qualification("deck") == ()


def test_practice_is_that_of_the_days_up_to_the_last_one() -> None:
    asked = case(Rules({"deck": (RECOVERY,)}), "2026-01-19", ["2026-01-01 recovery", TWENTIETH])
    assert len(asked.practice(RECOVERY).day) == 1
    assert len(asked.as_of(day("2026-01-20")).practice(RECOVERY).day) == 2


def test_a_track_follows_the_practice_that_it_is_given() -> None:
    asked = case(Rules({"deck": (RECOVERY,)}), "2026-01-20", [TWENTIETH])
    followed = asked.track(RECOVERY, asked.practice(RECOVERY), asked.signoffs)
    assert written(followed.days) == ["2026-01-20..2026-02-19"]
    assert asked.flown.person == PERFORMER


def test_the_waivers_that_bear_on_a_requirement_are_those_begun_by_the_last_day() -> None:
    bio = Bio(waivers=("deck medical 2026-03-01..2026-03-31",))
    rules = Rules({"deck": (MEDICAL,)})
    assert len(case(rules, "2026-03-01", bio=bio).waived("deck", MEDICAL)) == 1
    assert case(rules, "2026-02-28", bio=bio).waived("deck", MEDICAL) == ()


def test_a_pass_that_waits_to_be_certified_does_not_stand_but_would() -> None:
    tasks = {"recovery": Task("recovery", "Hand recovery", certified_by="officer")}
    bio = Bio(signed=("2026-05-01 recovery certified:2026-06-01",))
    asked = case(Rules({"deck": (SIGNED,)}, tasks=tasks), bio=bio)
    for on, stand in (("2026-05-31", 0), ("2026-06-01", 1)):
        assert len(asked.standing_signoffs(day(on))) == stand
        assert len(asked.unwithdrawn_signoffs(day(on))) == 1


def test_what_is_dated_after_the_last_day_known_bears_on_no_sign_off() -> None:
    bio = Bio(signed=("2026-05-01 recovery withdrawn:2026-06-01",))
    asked = case(Rules({"deck": (SIGNED,)}), "2026-05-31", bio=bio)
    assert len(asked.standing_signoffs(day("2026-07-01"))) == 1


def test_people_are_called_by_name_and_strangers_by_their_key() -> None:
    asked = case(Rules({"deck": (SIGNED,)}))
    assert (asked.name(PERFORMER), asked.name("K-77")) == (PERFORMER, "K-77")
