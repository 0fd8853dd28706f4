"""The days that the strip is drawn along."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.screens.strip_days import StripDays, around, days_from, months_from

WEEK = StripDays(date(2026, 11, 23), date(2026, 11, 29))
CENTRE = date(2026, 11, 25)


def test_it_reaches_from_a_year_before_to_half_a_year_after() -> None:
    assert around(CENTRE) == StripDays(date(2025, 11, 25), date(2027, 5, 25))


def test_both_ends_belong_to_it() -> None:
    assert len(WEEK) == 7
    assert WEEK.first in WEEK
    assert WEEK.last in WEEK
    assert date(2026, 11, 30) not in WEEK


@given(st.dates(WEEK.first, WEEK.last))
def test_the_middle_of_a_day_leads_back_to_the_day(day: date) -> None:
    assert WEEK.day_at(WEEK.middle(day)) == day


@pytest.mark.parametrize(("share", "day"), [(-3.0, WEEK.first), (1.0, WEEK.last), (9.0, WEEK.last)])
def test_a_place_outside_is_the_nearest_end(share: float, day: date) -> None:
    assert WEEK.day_at(share) == day


def test_its_months_are_those_that_begin_in_it() -> None:
    days = StripDays(date(2026, 10, 2), date(2026, 12, 1))
    assert days.months() == (date(2026, 11, 1), date(2026, 12, 1))


def test_the_first_day_may_begin_a_month() -> None:
    assert StripDays(date(2026, 10, 1), date(2026, 10, 9)).months() == (date(2026, 10, 1),)


def test_the_months_end_with_the_calendar() -> None:
    days = around(date(9999, 11, 5))
    assert days.last == date.max
    assert days.months()[-1] == date(9999, 12, 1)


def test_a_day_well_inside_moves_nothing() -> None:
    days = around(CENTRE)
    assert days.keeping(date(2026, 3, 1)) is days


def test_a_day_near_an_end_moves_the_strip_a_little() -> None:
    days = around(CENTRE)
    moved = days.keeping(days.last)
    assert moved == StripDays(days_from(days.first, 10), days_from(days.last, 10))
    assert days.keeping(days_from(days.first, -5)).first == days_from(days.first, -15)


def test_a_day_far_off_gets_a_strip_around_it() -> None:
    far = date(2031, 2, 3)
    assert around(CENTRE).keeping(far) == around(far)


@given(st.dates(date(1900, 1, 1)), st.dates(date(1900, 1, 1)))
def test_the_strip_always_holds_the_day_that_it_follows(one: date, other: date) -> None:
    assert other in around(one).keeping(other)


@pytest.mark.parametrize(
    ("day", "months", "found"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2026, 1, 31), -2, date(2025, 11, 30)),
        (date(2026, 12, 5), 1, date(2027, 1, 5)),
        (date(9999, 12, 5), 1, date.max),
        (date(1, 1, 5), -1, date.min),
    ],
)
def test_months_are_counted_by_the_calendar(day: date, months: int, found: date) -> None:
    assert months_from(day, months) == found


def test_days_end_with_the_calendar() -> None:
    assert days_from(date.max, 3) == date.max
    assert days_from(date.min, -3) == date.min
