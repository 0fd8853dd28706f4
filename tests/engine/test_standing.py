"""Where one person is with one qualification on one day."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.days import FOREVER
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Requirement
from crewtrack.engine.standing import standing
from crewtrack.engine.standings import Standing, Word
from tests.case_builder import reckoning, written
from tests.evidence_builder import PERFORMER, Bio, day
from tests.standard_builder import Rules

MEDICAL = Certified("medical", True, "medical")
RADIO = Certified("radio", True, "radio")
ALWAYS_ASSIGNED = ("deck 2020-01-01..",)
MARCH = "medical 2026-03-01 expires:2026-03-31"
JUNE = "medical 2026-06-01 expires:2026-06-30"


def on(when: str, bio: Bio, *needs: Requirement, rules: Sequence[Rules] = ()) -> Standing:
    asked = reckoning(*(rules or (Rules({"deck": needs or (MEDICAL,)}),)), bios=(bio,))
    return asked.standing(bio.key, "deck", date.fromisoformat(when))


def bio(
    *certificates: str,
    assigned: Sequence[str] = ALWAYS_ASSIGNED,
    waivers: Sequence[str] = (),
    standdowns: Sequence[str] = (),
) -> Bio:
    return Bio(assigned=assigned, certificates=certificates, waivers=waivers, standdowns=standdowns)


@pytest.mark.parametrize(
    ("when", "word"),
    [
        ("2026-02-28", "training"),
        ("2026-03-01", "current"),
        ("2026-03-02", "due"),
        ("2026-03-31", "due"),
        ("2026-04-01", "lapsed"),
    ],
)
def test_the_word_follows_the_requirements_and_the_notice(when: str, word: Word) -> None:
    assert on(when, bio(MARCH)).word == word


@pytest.mark.parametrize(
    ("when", "word"), [("2026-03-04", "none"), ("2026-03-05", "due"), ("2026-03-11", "none")]
)
def test_somebody_not_assigned_that_day_has_no_standing(when: str, word: Word) -> None:
    assert on(when, bio(MARCH, assigned=("deck 2026-03-05..2026-03-10",))).word == word


@pytest.mark.parametrize(
    ("when", "word"),
    [
        ("2026-03-04", "none"),
        ("2026-03-05", "due"),
        ("2026-03-10", "due"),
        ("2026-03-11", "none"),
    ],
)
def test_somebody_not_on_the_books_that_day_has_no_standing(when: str, word: Word) -> None:
    person = Bio(
        assigned=ALWAYS_ASSIGNED, certificates=(MARCH,), joined="2026-03-05", left="2026-03-10"
    )
    assert on(when, person).word == word


def test_a_stand_down_goes_before_the_requirements() -> None:
    found = on("2026-03-15", bio(MARCH, standdowns=("all 2026-03-10..2026-03-20",)))
    assert found == Standing(PERFORMER, "deck", "stood-down")


def test_a_planned_end_of_assignment_is_not_a_lapse() -> None:
    found = on("2026-03-01", bio(MARCH, assigned=("deck 2026-03-01..2026-03-03",)))
    assert (found.word, found.through) == ("current", date(2026, 3, 31))


def test_a_span_tells_its_first_and_last_day_and_what_ends_it() -> None:
    assert on("2026-03-15", bio(MARCH)) == Standing(
        PERFORMER, "deck", "due", date(2026, 3, 1), date(2026, 3, 31), ("medical",)
    )


def test_a_span_without_end_has_no_last_day_and_nothing_that_limits_it() -> None:
    found = on("2026-03-15", bio("medical 2026-03-01"))
    assert (found.word, found.through, found.limiting) == ("current", None, ())


def test_a_span_that_ends_with_the_calendar_limits_nothing() -> None:
    found = on("2026-03-15", bio("medical 2026-03-01 expires:9999-12-31"))
    assert (found.through, found.limiting) == (date(9999, 12, 31), ())


def test_a_lapse_begins_the_day_after_the_span_and_tells_what_is_not_met() -> None:
    found = on("2026-05-01", bio(MARCH, "radio 2026-01-01"), MEDICAL, RADIO)
    assert found == Standing(
        PERFORMER, "deck", "lapsed", since=date(2026, 4, 1), limiting=("medical",)
    )


def test_the_first_day_of_a_span_is_not_cut_by_the_assignment() -> None:
    found = on("2026-03-15", bio(MARCH, assigned=("deck 2026-03-10..",)))
    assert found.since == date(2026, 3, 1)


def test_in_training_nothing_began() -> None:
    found = on("2026-02-01", bio(MARCH, "radio 2026-01-01"), MEDICAL, RADIO)
    assert found == Standing(PERFORMER, "deck", "training", limiting=("medical",))


def test_what_was_met_before_this_assignment_only_is_training() -> None:
    assigned = ("deck 2026-01-01..2026-03-31", "deck 2026-05-01..")
    assert on("2026-05-10", bio(MARCH, assigned=assigned)).word == "training"


def test_touching_assignments_are_one() -> None:
    assigned = ("deck 2026-01-01..2026-03-31", "deck 2026-04-01..")
    assert on("2026-05-10", bio(MARCH, assigned=assigned)).word == "lapsed"


def test_only_the_top_requirements_limit() -> None:
    both = AllOf("both", True, (MEDICAL, RADIO))
    assert on("2026-02-01", bio(MARCH), both).limiting == ("both",)


OLD = Rules({"deck": (MEDICAL,)}, effective="2026-01-01")


def test_a_later_edition_ends_the_span_under_its_own_rules() -> None:
    stricter = Rules({"deck": (MEDICAL, RADIO)}, effective="2026-03-20")
    found = on("2026-03-10", bio(MARCH), rules=(OLD, stricter))
    assert (found.word, found.through, found.limiting) == ("due", date(2026, 3, 19), ("radio",))


def test_a_span_goes_on_where_the_next_edition_is_met_too() -> None:
    renamed = Rules({"deck": (Certified("papers", True, "medical"),)}, effective="2026-03-20")
    found = on("2026-03-25", bio(MARCH), rules=(OLD, renamed))
    assert (found.since, found.limiting) == (date(2026, 3, 1), ("papers",))


def test_an_edition_that_drops_the_qualification_ends_the_span() -> None:
    without = Rules({"night": ()}, effective="2026-03-20")
    found = on("2026-03-10", bio(MARCH), rules=(OLD, without))
    assert (found.through, found.limiting) == (date(2026, 3, 19), ("edition",))


def test_under_an_edition_that_lacks_the_qualification_nobody_has_a_standing() -> None:
    without = Rules({"night": ()}, effective="2026-03-20")
    assert on("2026-03-25", bio(MARCH), rules=(OLD, without)).word == "none"


def test_a_waiver_that_reaches_further_is_named() -> None:
    found = on("2026-03-15", bio(MARCH, waivers=("deck medical 2026-03-10..2026-04-15",)))
    assert (found.through, found.by_waiver) == (date(2026, 4, 15), ("W-001",))


def test_a_waiver_that_changes_nothing_is_not_named() -> None:
    found = on("2026-03-15", bio(MARCH, waivers=("deck medical 2026-03-10..2026-03-20",)))
    assert found.by_waiver == ()


def test_a_waiver_that_has_ended_is_not_named() -> None:
    waivers = ("deck medical 2026-05-01..2026-05-31",)
    assert on("2026-06-15", bio(JUNE, waivers=waivers)).by_waiver == ()


def test_a_waiver_is_named_also_by_way_of_a_qualification_held() -> None:
    rules = Rules({"basic": (MEDICAL,), "deck": (Holds("holds", True, "basic"),)})
    found = on("2026-03-15", bio(waivers=("basic medical 2026-03-01..2026-04-30",)), rules=(rules,))
    assert found.by_waiver == ("W-001",)


def test_both_are_named_where_neither_is_enough() -> None:
    waivers = ("deck medical 2026-03-01..2026-04-30", "deck radio 2026-03-01..2026-04-30")
    found = on("2026-03-15", bio(waivers=waivers), MEDICAL, RADIO)
    assert found.by_waiver == ("W-001", "W-002")


def test_both_are_named_where_either_would_do() -> None:
    waivers = ("deck medical 2026-03-01..2026-04-30", "deck medical 2026-03-10..2026-04-30")
    assert on("2026-03-15", bio(waivers=waivers)).by_waiver == ("W-001", "W-002")


def test_a_waiver_that_no_way_of_being_current_needs_is_not_named() -> None:
    waivers = (
        "deck medical 2026-03-01..2026-04-30",
        "deck medical 2026-03-10..2026-04-30",
        "deck medical 2026-03-12..2026-03-20",
    )
    assert on("2026-03-15", bio(waivers=waivers)).by_waiver == ("W-001", "W-002")


def test_one_that_is_needed_beside_two_of_which_either_would_do_is_named_with_them() -> None:
    waivers = (
        "deck radio 2026-03-01..2026-04-30",
        "deck medical 2026-03-01..2026-04-30",
        "deck medical 2026-03-10..2026-04-30",
    )
    found = on("2026-03-15", bio(waivers=waivers), MEDICAL, RADIO)
    assert found.by_waiver == ("W-001", "W-002", "W-003")


def test_those_that_only_together_stand_in_for_another_are_named_whatever_their_order() -> None:
    # Either the waiver of the whole, or both parts' waivers together: three ways to record them.
    both = AllOf("both", True, (MEDICAL, RADIO))
    need = AnyOf("either", True, (Certified("ice", True, "ice"), both))
    span = "2026-03-01..2026-04-30"
    lines = [f"deck ice {span}", f"deck medical {span}", f"deck radio {span}"]
    for order in ([0, 1, 2], [1, 0, 2], [1, 2, 0]):
        found = on("2026-03-15", bio(waivers=[lines[place] for place in order]), need)
        assert found.by_waiver == ("W-001", "W-002", "W-003"), order


def test_where_very_many_would_do_for_each_other_all_are_named_without_trying_every_set() -> None:
    waivers = ["deck medical 2026-03-01..2026-04-30"] * 30
    found = on("2026-03-15", bio(waivers=waivers))
    assert found.by_waiver == tuple(f"W-{number:03}" for number in range(1, 31))


def test_a_forecast_leaves_out_what_is_dated_after_the_last_day_known() -> None:
    asked = reckoning(Rules({"deck": (MEDICAL,)}), bios=(bio(MARCH, JUNE),))
    docket = asked.docket(asked.evidence.books[PERFORMER], day("2026-03-15"))
    assert docket.until == day("2026-03-15")
    assert standing(docket, "deck", day("2026-06-10")).word == "lapsed"


def test_an_assignment_does_not_show_before_its_first_day() -> None:
    asked = reckoning(Rules({"deck": (MEDICAL,)}), bios=(bio(assigned=("deck 2026-03-10..",)),))
    books = asked.evidence.books[PERFORMER]
    assert asked.docket(books, day("2026-03-09")).assigned("deck") == ()
    assert written(asked.docket(books, day("2026-03-10")).assigned("deck")) == ["2026-03-10.."]


def test_what_counts_lies_within_assignment_and_books_and_outside_stand_downs() -> None:
    known = replace(
        bio(MARCH, assigned=("deck 2026-03-05..",), standdowns=("deck 2026-03-10..2026-03-12",)),
        left="2026-03-20",
    )
    asked = reckoning(Rules({"deck": (MEDICAL,)}), bios=(known,))
    docket = asked.docket(asked.evidence.books[PERFORMER], FOREVER)
    assert written(docket.counting("deck")) == ["2026-03-05..2026-03-09", "2026-03-13..2026-03-20"]
