from hypothesis import given
from hypothesis import strategies as st

from crewtrack.prints.wrapping import Style, balanced, fitted, wrap

STYLE = Style("plain", 8.0, "#000000")
TEXTS = st.text(st.sampled_from("abW -/é0\u0301\u00a0"), max_size=60)


def test_lines_break_at_spaces() -> None:
    assert wrap("Deck pilot, rough water", STYLE, STYLE.width("Deck pilot, x")) == (
        "Deck pilot,",
        "rough water",
    )


def test_an_empty_text_is_one_empty_line() -> None:
    assert wrap("", STYLE, 50) == ("",)


def test_a_word_too_wide_breaks_after_its_hyphens_first() -> None:
    assert wrap("hand-recovery", STYLE, STYLE.width("recovery")) == ("hand-", "recovery")


def test_dates_and_keys_do_not_break_at_their_hyphens_while_they_fit() -> None:
    assert wrap("on 2026-11-25", STYLE, STYLE.width("2026-11-25")) == ("on", "2026-11-25")


def test_letters_keep_their_combining_marks() -> None:
    marked = "q\u0303" * 8
    assert all(not line.startswith("\u0303") for line in wrap(marked, STYLE, STYLE.width("qq")))


@given(TEXTS, st.floats(12, 80))
def test_no_line_is_wider_than_asked_and_no_letter_is_lost(text: str, width: float) -> None:
    lines = wrap(text, STYLE, width)
    assert all(STYLE.width(line) <= width + 1e-6 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


@given(TEXTS, st.floats(12, 80))
def test_balancing_never_adds_a_line_nor_widens_one(text: str, width: float) -> None:
    lines = balanced(text, STYLE, width)
    assert len(lines) == len(wrap(text, STYLE, width))
    assert all(STYLE.width(line) <= width + 1e-6 for line in lines)


def test_balancing_evens_the_lines() -> None:
    width = STYLE.width("Deck pilot, under w")
    assert wrap("Deck pilot, under way", STYLE, width) == ("Deck pilot, under", "way")
    assert balanced("Deck pilot, under way", STYLE, width) == ("Deck pilot,", "under way")


def test_a_text_that_fits_keeps_its_size() -> None:
    assert fitted("Sam Lee", STYLE, 100, lines=1, least=5) == (STYLE, ("Sam Lee",))


def test_a_long_text_is_set_smaller_before_it_takes_more_lines() -> None:
    style, lines = fitted("Wilhelmina Ó Briain", STYLE, 60, lines=1, least=5)
    assert len(lines) == 1
    assert 5 <= style.size < STYLE.size


def test_a_very_long_text_takes_as_many_lines_as_it_needs_at_the_least_size() -> None:
    style, lines = fitted("W" * 200, STYLE, 60, lines=2, least=5)
    assert style.size == 5
    assert "".join(lines) == "W" * 200
