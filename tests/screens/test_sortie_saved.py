"""What saving a sortie changed, in sentences."""

from datetime import date

import pytest

from crewtrack.engine.standings import Standing
from crewtrack.office.changes import Change, Changes
from crewtrack.screens.sortie_saved import saved_told, standing_told

OLD, NEW = date(2026, 12, 3), date(2027, 1, 14)


def standing(word: str, through: date | None = None, since: date | None = None) -> Standing:
    return Standing("K-01", "deck-pilot", word, since, through)  # type: ignore[arg-type]  # a word


def told(before: Standing, after: Standing) -> str:
    change = Change("K-01", "Ana Kovač", "deck-pilot", "Deck pilot", before, after)
    changes = Changes("d" * 64, 5, {"sorties": 1, "performances": 3}, standings=(change,))
    return saved_told("S-9", changes)[1]


def test_a_later_last_day_is_told_with_the_one_before() -> None:
    assert told(standing("current", OLD), standing("current", NEW)) == (
        "Deck pilot, Ana Kovač: through 2027-01-14 (was 2026-12-03)."
    )


def test_a_lapse_that_ended_is_told() -> None:
    assert told(standing("lapsed", since=OLD), standing("current", NEW)) == (
        "Deck pilot, Ana Kovač: through 2027-01-14 (was lapsed since 2026-12-03)."
    )


def test_due_that_became_current_is_told() -> None:
    assert told(standing("due", OLD), standing("current", NEW)) == (
        "Deck pilot, Ana Kovač: through 2027-01-14 (was due, through 2026-12-03)."
    )


@pytest.mark.parametrize(
    ("one", "sentence"),
    [
        (standing("current"), "current without limit"),
        (standing("lapsed"), "lapsed"),
        (standing("training"), "in training"),
        (standing("stood-down"), "stood down"),
        (standing("none"), "not assigned"),
    ],
)
def test_every_standing_has_words(one: Standing, sentence: str) -> None:
    assert standing_told(one) == sentence


def test_what_was_written_comes_first() -> None:
    changes = Changes("d" * 64, 5, {"sorties": 1, "performances": 1})
    assert saved_told("S-9", changes) == (
        "Sortie S-9 is in the record, with 1 task.",
        "Nobody's standing today changes by it.",
    )


def test_a_correction_and_a_strike_are_told_apart() -> None:
    assert saved_told("S-9", Changes("d", 5, revised={"sorties": 1}))[0] == (
        "Sortie S-9 is corrected."
    )
    assert saved_told("S-9", Changes("d", 5, struck={"sorties": 1}))[0] == (
        "Sortie S-9 is struck out."
    )


def test_that_nothing_changed_is_told() -> None:
    assert saved_told("S-9", Changes()) == ("Nothing changed: the record holds it already.",)
