"""What is said of waivers and extensions."""

from dataclasses import replace

from crewtrack.screens.relief_words import kinds_of, letters, span, told
from tests.screens.rosters import EXTENSION, ROWS, WAIVER, roster

BOTH = replace(ROWS[1], by_waiver=("X-1", "W-3"))


def test_a_waiver_and_an_extension_have_letters_of_their_own() -> None:
    kinds = kinds_of(roster())
    assert [letters(row, kinds) for row in (ROWS[0], ROWS[1], ROWS[6])] == ["", "W", "E"]


def test_both_letters_stand_in_one_order() -> None:
    assert letters(BOTH, kinds_of(roster())) == "WE"


def test_one_whose_kind_is_not_told_has_a_letter_too() -> None:
    assert (letters(ROWS[1], {}), told(ROWS[1], {})) == ("R", ("relief W-3",))


def test_each_is_told_with_its_kind() -> None:
    assert told(BOTH, kinds_of(roster())) == ("extension X-1", "waiver W-3")


def test_a_span_names_the_requirement_and_both_days() -> None:
    assert span(WAIVER).startswith("of recency-night, 2026-11-20 to 2026-12-03,")
    assert span(EXTENSION) == "of medical, 2026-11-25 to 2026-12-03"


def test_a_span_tells_who_granted_it_and_why() -> None:
    assert span(WAIVER).endswith(", by A. Moss: boat in the yard")
