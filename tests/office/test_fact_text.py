"""A fact's key as one text, and back."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.facts import ASSIGNMENTS, DISPUTES, KEY_LENGTH, PERFORMANCES, SORTIES, Text
from crewtrack.office.fact_text import fact_key, fact_text

awkward = st.text("+ \\ab", min_size=1, max_size=KEY_LENGTH).filter(lambda key: key == key.strip())


def test_the_values_of_a_key_stand_with_a_plus_between() -> None:
    assert fact_text(("S-1", "K-07", "hand-recovery")) == "S-1 + K-07 + hand-recovery"


def test_a_day_in_a_key_comes_back_as_a_day() -> None:
    key = ("K-01", "deck-pilot", date(2026, 1, 1))
    assert fact_key(ASSIGNMENTS, fact_text(key)) == key


def test_keys_that_hold_the_mark_are_told_apart() -> None:
    texts = {
        fact_text(("a + b", "c", "d")),
        fact_text(("a", "b + c", "d")),
        fact_text(("a", "+", "b")),
    }
    assert len(texts) == 3


@given(st.tuples(awkward, awkward, awkward))
def test_every_key_comes_back_as_it_was(key: tuple[str, str, str]) -> None:
    assert fact_key(PERFORMANCES, fact_text(key)) == key


@given(st.tuples(awkward, awkward, awkward))
def test_every_key_fits_into_its_column(key: tuple[str, str, str]) -> None:
    column = DISPUTES.columns[DISPUTES.index("fact")]
    assert isinstance(column.type, Text)
    assert len(fact_text(key)) <= column.type.longest


def test_the_longest_and_most_awkward_key_fits() -> None:
    assert len(fact_text((" ".join("+" * 20) + "+",) * 3)) <= 200


@pytest.mark.parametrize("text", ["", "S-1 + K-07", "a + b + c + d"])
def test_a_text_of_another_shape_is_no_key(text: str) -> None:
    assert fact_key(PERFORMANCES, text) is None


def test_a_text_whose_day_can_t_be_read_is_no_key() -> None:
    assert fact_key(ASSIGNMENTS, "K-01 + deck-pilot + soon") is None


def test_a_single_key_stands_as_it_is() -> None:
    assert fact_key(SORTIES, fact_text(("S + 1",))) == ("S + 1",)
