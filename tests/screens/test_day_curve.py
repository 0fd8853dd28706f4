"""The curve of the day line."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Editions, Qualification
from crewtrack.engine.standings import HistoryRow
from crewtrack.screens.day_curve import (
    Curve,
    Step,
    curve_choices,
    people_curve,
    summary,
    title_of,
    told,
)
from crewtrack.screens.strip_days import StripDays
from tests.standard_builder import Rules, standard

DAYS = StripDays(date(2026, 11, 1), date(2026, 11, 10))
CURVE = Curve("Deck pilot", DAYS.first, (2, 2, 1, 1, 3), (2, 2, 2, 2, 2))


def day(number: int) -> date:
    return date(2026, 11, number)


def edition(effective: str, **minimums: int) -> Editions:
    return Editions((_standard(effective, minimums),))


def _standard(effective: str, minimums: dict[str, int]):  # type: ignore[no-untyped-def]
    told = {key: Qualification(key, key.title(), None, n, ()) for key, n in minimums.items()}
    return replace(standard(Rules({}, effective=effective)), qualifications=told)


def curve(*spans: Span, editions: Editions | None = None) -> Curve:
    rows = [HistoryRow(f"K-{n}", "deck", (span,)) for n, span in enumerate(spans)]
    other = HistoryRow("K-99", "helm", (Span(date(2020, 1, 1), None),))
    return people_curve([*rows, other], editions or edition("2020-01-01", deck=2), "deck", DAYS)


def test_each_day_counts_the_people_who_are_ready_on_it() -> None:
    found = curve(Span(day(2), day(4)), Span(day(4), None), Span(date(2025, 1, 1), day(1)))
    assert found.counts == (1, 1, 1, 2, 1, 1, 1, 1, 1, 1)


def test_spans_outside_the_strip_count_nothing() -> None:
    found = curve(Span(date(2025, 1, 1), date(2026, 10, 31)), Span(day(11), None))
    assert found.counts == (0,) * 10


@given(st.lists(st.tuples(st.integers(-20, 30), st.integers(0, 30)), max_size=8))
def test_it_agrees_with_counting_day_by_day(pairs: list[tuple[int, int]]) -> None:
    spans = [
        Span(day(1) + timedelta(days=first), day(1) + timedelta(days=first + long))
        for first, long in pairs
    ]
    slow = tuple(
        sum(s.first <= DAYS.first + timedelta(days=n) <= (s.last or date.max) for s in spans)
        for n in range(10)
    )
    assert curve(*spans).counts == slow


def test_the_least_is_that_of_each_days_edition() -> None:
    both = Editions((_standard("2020-01-01", {"deck": 1}), _standard("2026-11-04", {"deck": 3})))
    assert curve(editions=both).least == (1, 1, 1, 3, 3, 3, 3, 3, 3, 3)


def test_an_edition_without_the_qualification_asks_for_nobody() -> None:
    assert curve(editions=edition("2020-01-01", helm=1)).least == (0,) * 10


def test_its_steps_are_the_days_on_which_nothing_changes() -> None:
    assert CURVE.steps() == (Step(0, 2, 2, 2), Step(2, 2, 1, 2), Step(4, 1, 3, 2))
    assert [step.low for step in CURVE.steps()] == [False, True, False]


def test_its_top_is_the_highest_of_counts_and_least() -> None:
    assert CURVE.top == 3
    assert Curve("", DAYS.first, (0,), (0,)).top == 1


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (1, "2026-11-01: Deck pilot, 2 current, minimum 2"),
        (3, "2026-11-03: Deck pilot, 1 current, below the minimum of 2"),
        (9, "2026-11-09: outside the day line"),
    ],
)
def test_a_day_is_told_in_a_sentence(number: int, sentence: str) -> None:
    assert told(CURVE, day(number)) == sentence


def test_where_nothing_is_asked_no_minimum_is_told() -> None:
    bare = Curve("Helm", DAYS.first, (4,), (0,))
    assert told(bare, day(1)) == "2026-11-01: Helm, 4 current"
    assert summary(bare) == "No minimum is set for Helm."


def test_the_whole_is_told_by_its_days_below_the_minimum() -> None:
    assert summary(CURVE) == "Below the minimum on 2 of the days shown, first on 2026-11-03."
    assert summary(replace(CURVE, least=(1,) * 5)) == "Never below the minimum on the days shown."


def test_a_title_is_the_latest_editions() -> None:
    old, new = _standard("2020-01-01", {"deck": 1, "gone": 1}), _standard("2026-01-01", {"deck": 1})
    new = replace(new, qualifications={"deck": Qualification("deck", "Deck pilot", None, 1, ())})
    both = Editions((old, new))
    assert [title_of(both, key) for key in ("deck", "gone", "never")] == [
        "Deck pilot",
        "Gone",
        "never",
    ]


def test_those_of_which_a_number_is_asked_are_offered_first() -> None:
    choices = curve_choices(edition("2020-01-01", watch=0, deck=2, night=1))
    assert [key for key, _ in choices] == ["deck", "night", "watch"]
