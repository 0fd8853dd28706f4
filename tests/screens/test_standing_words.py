"""How a standing is told in text."""

from datetime import date

from crewtrack.engine.standings import WORDS, Standing
from crewtrack.screens.standing_words import SHAPES, date_told, dates_in_words, shape_and_word

FIRST, LAST = date(2026, 9, 1), date(2026, 12, 3)


def test_every_word_has_a_shape_of_its_own() -> None:
    assert len({SHAPES[word] for word in WORDS}) == len(WORDS)


def test_a_standing_is_told_by_shape_and_word() -> None:
    assert shape_and_word(Standing("K-07", "deck-pilot", "due")) == "▲ due"


def test_letters_stand_beside_the_word() -> None:
    assert shape_and_word(Standing("K-07", "deck-pilot", "current"), "W") == "● current W"


def test_the_date_of_a_current_standing_is_its_last_day() -> None:
    assert date_told(Standing("K-07", "deck-pilot", "current", FIRST, LAST)) == "2026-12-03"


def test_a_current_standing_without_an_end_says_so() -> None:
    assert date_told(Standing("K-07", "deck-pilot", "current", FIRST)) == "no limit"


def test_the_date_of_a_lapse_is_its_first_day() -> None:
    assert date_told(Standing("K-07", "deck-pilot", "lapsed", FIRST)) == "2026-09-01"


def test_a_training_standing_has_no_date() -> None:
    standing = Standing("K-07", "deck-pilot", "training")
    assert (date_told(standing), dates_in_words(standing)) == ("", "")


def test_dates_in_words_name_both_ends() -> None:
    standing = Standing("K-07", "deck-pilot", "due", FIRST, LAST)
    assert dates_in_words(standing) == "since 2026-09-01, through 2026-12-03"


def test_a_lapse_in_words_has_only_its_beginning() -> None:
    assert dates_in_words(Standing("K-07", "deck-pilot", "lapsed", FIRST)) == "since 2026-09-01"
