"""Whole calendar days: durations, horizons and periods."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine.days import (
    FOREVER,
    PERIODS,
    Duration,
    Horizon,
    Period,
    month_first,
    month_index,
    month_last,
    period_first,
    period_of,
    reckoner,
)
from tests.evidence_builder import day
from tests.standard_builder import each, within

LAST_DAY = date.max.toordinal()
DAYS = st.integers(day("1890-01-01"), day("2110-12-31"))
HORIZONS = st.sampled_from(
    [
        Horizon(),
        *(within(text) for text in ("P1D", "P2W", "P90D", "P1M", "P6M", "P2Y")),
        *(within(text, "month-end") for text in ("P1M", "P24M")),
        *(each(period) for period in PERIODS),
    ]
)


@pytest.mark.parametrize(
    ("text", "duration"),
    [
        ("P90D", Duration(days=90)),
        ("P2W", Duration(days=14)),
        ("P6M", Duration(months=6)),
        ("P2Y", Duration(months=24)),
    ],
)
def test_a_duration_has_one_unit_and_weeks_are_days_and_years_are_months(
    text: str, duration: Duration
) -> None:
    assert Duration.parse(text) == duration


@pytest.mark.parametrize(
    ("text", "cure"),
    [
        ("PT5H", "time parts are not counted here; write whole days, such as P2D"),
        ("P0D", "write a positive duration, such as P90D"),
        ("-P5D", "write a positive duration, such as P90D"),
        ("P1M15D", "write one unit only, such as P45D or P2M"),
        ("P1.5M", "write a whole number, such as P90D"),
        ("P1,5M", "write a whole number, such as P90D"),
        ("90 days", "write a whole number of one unit: P90D, P2W, P6M or P2Y"),
        ("P1234567D", "write a whole number of one unit: P90D, P2W, P6M or P2Y"),
        ("P٣D", "write a whole number of one unit: P90D, P2W, P6M or P2Y"),
        ("P90D\n", "write a whole number of one unit: P90D, P2W, P6M or P2Y"),
    ],
)
def test_a_duration_that_cannot_be_taken_is_refused_with_what_would_be_right(
    text: str, cure: str
) -> None:
    with pytest.raises(ValueError, match="write") as refused:
        Duration.parse(text)
    assert str(refused.value) == cure


@pytest.mark.parametrize("text", ["P90D", "P7M"])
def test_a_duration_is_written_as_it_is_read(text: str) -> None:
    assert str(Duration.parse(text)) == text


def test_a_month_after_a_long_month_ends_on_the_short_months_last_day() -> None:
    assert Duration(months=1).after(day("2023-01-31")) == day("2023-02-28")


@pytest.mark.parametrize("duration", [Duration(days=2), Duration(months=1)])
def test_a_day_past_the_year_9999_is_no_limit(duration: Duration) -> None:
    assert duration.after(LAST_DAY) == FOREVER


def test_nothing_comes_after_no_limit() -> None:
    assert Duration(months=1).after(FOREVER) == FOREVER


def test_consecutive_months_have_consecutive_numbers() -> None:
    assert month_index(day("2026-01-01")) == month_index(day("2025-12-31")) + 1


def test_a_month_runs_from_its_first_to_its_last_day() -> None:
    february = month_index(day("2024-02-15"))
    assert (month_first(february), month_last(february)) == (day("2024-02-01"), day("2024-02-29"))


def test_a_month_past_the_year_9999_has_no_first_and_no_last_day() -> None:
    beyond = month_index(LAST_DAY) + 1
    assert (month_first(beyond), month_last(beyond)) == (FOREVER, FOREVER)


@pytest.mark.parametrize(
    ("period", "first"),
    [
        ("month", "2026-11-01"),
        ("quarter", "2026-10-01"),
        ("half-year", "2026-07-01"),
        ("year", "2026-01-01"),
    ],
)
def test_a_period_begins_with_the_calendar(period: Period, first: str) -> None:
    assert period_first(day("2026-11-25"), period) == day(first)


@given(DAYS, st.sampled_from(PERIODS))
def test_the_day_before_a_period_lies_in_the_one_before(when: int, period: Period) -> None:
    before = period_first(when, period) - 1
    assert period_of(before, period) == period_of(when, period) - 1


def test_the_day_of_the_evidence_is_not_one_of_the_ninety() -> None:
    assert within("P90D").of(day("2026-01-01")) == day("2026-04-01")


def test_months_run_to_the_same_day_of_the_month() -> None:
    assert within("P6M").of(day("2026-01-15")) == day("2026-07-15")


def test_through_the_months_end_runs_to_its_last_day() -> None:
    assert within("P6M", "month-end").of(day("2025-08-01")) == day("2026-02-28")


@pytest.mark.parametrize(
    ("period", "last"),
    [
        ("month", "2026-12-31"),
        ("quarter", "2027-03-31"),
        ("half-year", "2027-06-30"),
        ("year", "2027-12-31"),
    ],
)
def test_what_is_done_in_each_period_counts_through_the_next_one(period: Period, last: str) -> None:
    assert each(period).of(day("2026-11-25")) == day(last)


def test_without_a_window_there_is_no_limit() -> None:
    assert Horizon().of(day("2026-01-01")) == FOREVER


@pytest.mark.parametrize("horizon", [within("P1M", "month-end"), within("P40D"), each("month")])
def test_a_horizon_past_the_year_9999_is_no_limit(horizon: Horizon) -> None:
    assert horizon.of(LAST_DAY) == FOREVER


@given(HORIZONS, DAYS, st.integers(0, 800))
def test_a_horizon_never_decreases_as_the_day_grows(horizon: Horizon, when: int, n: int) -> None:
    assert horizon.of(when) <= horizon.of(when + n)


@given(HORIZONS, DAYS)
def test_the_earliest_day_that_counts_does_and_the_day_before_it_does_not(
    horizon: Horizon, when: int
) -> None:
    earliest = horizon.earliest(when)
    if earliest is None:
        assert horizon == Horizon()
    else:
        assert horizon.of(earliest - 1) < when <= horizon.of(earliest)


def test_without_a_window_there_is_no_earliest_day() -> None:
    assert Horizon().earliest(day("2026-01-01")) is None


@given(HORIZONS, DAYS)
def test_a_reckoner_answers_as_its_horizon_does(horizon: Horizon, when: int) -> None:
    assert reckoner(horizon)(when) == horizon.of(when)
