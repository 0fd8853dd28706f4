"""Tests of how criteria are marked and recorded."""

from crewtrack.screens.signoff_marks import (
    MARKS,
    Mark,
    contradiction,
    counted,
    mark_told,
    marks_in,
    remarks,
    told,
)

CRITERIA = ("Gloves on", "Calls it", "Steps back")


def test_marks_are_recorded_before_the_words_and_read_back() -> None:
    recorded = remarks(CRITERIA, ("yes", "not-yet", "not-seen"), "Good hands.")
    assert recorded == "[x] Gloves on\n[ ] Calls it\n\nGood hands."
    assert marks_in(CRITERIA, recorded) == ("yes", "not-yet", "not-seen")


def test_without_any_mark_only_the_words_are_recorded() -> None:
    assert remarks(CRITERIA, ("not-seen",) * 3, " Good hands. ") == "Good hands."


def test_recorded_marks_are_counted_of_those_seen() -> None:
    assert counted("[x] Gloves on\n[ ] Calls it") == "1 of 2 criteria met"
    assert counted("[x] Gloves on") == "1 of 1 criterion met"
    assert counted("Good hands.") == ""
    assert counted(None) == ""


def test_recorded_marks_are_told_in_words() -> None:
    assert told("[x] Gloves on\n[ ] Calls it\n\nGood.") == (
        "✔ yes: Gloves on\n✖ not yet: Calls it\nGood."
    )


def test_a_pass_in_spite_of_a_criterion_not_met_is_pointed_out() -> None:
    marks: tuple[Mark, ...] = ("yes", "not-yet", "not-yet")
    assert contradiction(marks, "passed") == (
        "2 criteria are marked not yet, and the result is a pass."
    )
    assert contradiction(marks, "failed") == ""
    assert contradiction(("yes", "not-seen", "yes"), "passed") == ""


def test_each_mark_has_a_sign_and_a_word() -> None:
    assert [mark_told(mark) for mark in MARKS] == ["– not seen", "✔ yes", "✖ not yet"]
