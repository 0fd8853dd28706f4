"""Sets of days, as sorted runs."""

from datetime import date
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.days import FOREVER
from crewtrack.engine.spans import (
    ALWAYS,
    NEVER,
    Days,
    Span,
    as_date,
    as_spans,
    complement,
    difference,
    intersection,
    join,
    last_run_before,
    run_at,
    union,
)
from tests.evidence_builder import day

FEW = 40
RUNS = st.lists(st.tuples(st.integers(1, FEW), st.integers(1, FEW)), max_size=6)
SETS = RUNS.map(join)


def members(days: Days) -> set[int]:
    return {n for first, last in days for n in range(first, min(last, FEW + 1) + 1)}


def test_runs_that_touch_become_one() -> None:
    assert join([(5, 7), (1, 4)]) == ((1, 7),)


def test_a_day_between_keeps_runs_apart() -> None:
    assert join([(1, 4), (6, 7)]) == ((1, 4), (6, 7))


def test_a_run_inside_another_adds_nothing() -> None:
    assert join([(1, 9), (3, 4)]) == ((1, 9),)


def test_a_run_that_ends_before_it_begins_is_empty() -> None:
    assert join([(4, 3)]) == NEVER


@given(RUNS)
def test_joined_runs_hold_the_same_days_in_order_and_never_touch(
    runs: list[tuple[int, int]],
) -> None:
    joined = join(runs)
    assert members(joined) == {n for first, last in runs for n in range(first, last + 1)}
    assert all(one[1] + 1 < other[0] for one, other in pairwise(joined))


@given(SETS, SETS)
def test_a_union_holds_the_days_of_either(one: Days, other: Days) -> None:
    assert members(union(one, other)) == members(one) | members(other)


@given(SETS, SETS)
def test_an_intersection_holds_the_days_of_both(one: Days, other: Days) -> None:
    assert members(intersection(one, other)) == members(one) & members(other)


@given(SETS, SETS)
def test_a_difference_holds_the_days_of_one_only(one: Days, other: Days) -> None:
    assert members(difference(one, other)) == members(one) - members(other)


def test_a_complement_runs_from_the_first_day_to_no_limit() -> None:
    assert complement(((5, 6),)) == ((1, 4), (7, FOREVER))


def test_the_complement_of_an_open_run_ends_before_it() -> None:
    assert complement(((5, FOREVER),)) == ((1, 4),)


def test_the_complement_of_every_day_is_none() -> None:
    assert (complement(ALWAYS), complement(NEVER)) == (NEVER, ALWAYS)


def test_a_run_holds_its_first_and_its_last_day() -> None:
    days = ((1, 2), (5, 7))
    assert [run_at(days, n) for n in (4, 5, 7, 8)] == [None, (5, 7), (5, 7), None]


def test_the_last_run_before_a_day_starts_before_it() -> None:
    days = ((2, 3), (5, 7))
    assert [last_run_before(days, n) for n in (2, 5, 6, 9)] == [None, (2, 3), (5, 7), (5, 7)]


def test_no_limit_has_no_date() -> None:
    assert (as_date(day("2026-01-01")), as_date(FOREVER)) == (date(2026, 1, 1), None)


def test_spans_are_dates_and_an_open_one_has_no_last() -> None:
    days = ((day("2026-01-01"), day("2026-01-31")), (day("2026-03-01"), FOREVER))
    assert as_spans(days) == (
        Span(date(2026, 1, 1), date(2026, 1, 31)),
        Span(date(2026, 3, 1), None),
    )
