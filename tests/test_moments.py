"""Dates and instants from text; time zone changes from the IANA data (America/Detroit: clocks go
forward on 2026-03-08 and back on 2026-11-01, both at 02:00; Pacific/Apia skipped 2011-12-30)."""

from datetime import date, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest

from crewtrack.bad_cell import BadCell
from crewtrack.moments import read_day, read_instant

DETROIT = ZoneInfo("America/Detroit")


def instant(text: str, zone: str = "America/Detroit") -> str:
    return read_instant(text, ZoneInfo(zone)).isoformat()


def day_refusal(text: str) -> tuple[str, str]:
    with pytest.raises(BadCell) as caught:
        read_day(text)
    return caught.value.problem, caught.value.cure


def refusal(text: str, zone: str = "America/Detroit") -> tuple[str, str]:
    with pytest.raises(BadCell) as caught:
        instant(text, zone)
    return caught.value.problem, caught.value.cure


def test_a_day_is_read() -> None:
    assert read_day("2024-02-29") == date(2024, 2, 29)


@pytest.mark.parametrize(
    ("text", "problem", "cure"),
    [
        ("2026-02-30", "there is no 2026-02-30", "February 2026 has 28 days"),
        ("2026-13-01", "there is no 2026-13-01", "months go from 01 to 12"),
        ("0000-01-01", "there is no 0000-01-01", "write a year from 1900 on"),
        ("0206-11-25", "0206-11-25 is before the year 1900", "write the year with four digits"),
        ("25.11.2026", "'25.11.2026' is not a date", "write the year first: 2026-11-25"),
        ("11/25/2026", "'11/25/2026' is not a date", "write the year first: 2026-11-25"),
        (
            "5/6/2026",
            "'5/6/2026' is not a date",
            "write it as YYYY-MM-DD, such as 2026-11-25",
        ),
        ("20261125", "'20261125' is not a date", "write it as YYYY-MM-DD, such as 2026-11-25"),
        (
            "2026-11-25T06:40",
            "'2026-11-25T06:40' is not a date",
            "write the date alone: 2026-11-25",
        ),
    ],
)
def test_a_day_that_can_not_be_taken_says_what_would_be_right(
    text: str, problem: str, cure: str
) -> None:
    assert day_refusal(text) == (problem, cure)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("2026-11-25T06:40-05:00", "2026-11-25T06:40:00-05:00"),
        ("2026-11-25 06:40:07 -0500", "2026-11-25T06:40:07-05:00"),
        ("2026-11-25T11:40Z", "2026-11-25T11:40:00+00:00"),
        ("2026-11-25t11:40:00.000z", "2026-11-25T11:40:00+00:00"),
        ("2026-11-25T11:40-00:00", "2026-11-25T11:40:00+00:00"),
        ("2026-11-25T06:40+05:30", "2026-11-25T06:40:00+05:30"),
        ("2026-11-25T06:40", "2026-11-25T06:40:00-05:00"),
        ("2026-07-01 06:40", "2026-07-01T06:40:00-04:00"),
        ("2026-11-01T01:30-05:00", "2026-11-01T01:30:00-05:00"),
    ],
)
def test_an_instant_keeps_the_offset_it_was_entered_in_or_gets_the_zones(
    text: str, read: str
) -> None:
    assert instant(text) == read


def test_an_instant_holds_a_fixed_offset_and_no_zone() -> None:
    assert read_instant("2026-07-01T06:40", DETROIT).tzinfo == timezone(timedelta(hours=-4))


@pytest.mark.parametrize(
    ("text", "zone", "problem", "cure"),
    [
        (
            "2026-11-01T01:30",
            "America/Detroit",
            "2026-11-01T01:30 comes twice in America/Detroit",
            "write 2026-11-01T01:30-04:00 for the first or 2026-11-01T01:30-05:00 for the second",
        ),
        (
            "2026-03-08T02:30",
            "America/Detroit",
            "America/Detroit skips 2026-03-08T02:30",
            "write the time that the clock showed: 2026-03-08T03:30-04:00 (by the old offset) "
            "or 2026-03-08T01:30-05:00 (by the new one)",
        ),
        (
            "2011-12-30T10:00",
            "Pacific/Apia",
            "Pacific/Apia skips 2011-12-30T10:00",
            "write the time that the clock showed: 2011-12-31T10:00+14:00 (by the old offset) "
            "or 2011-12-29T10:00-10:00 (by the new one)",
        ),
        (
            "1971-01-01T10:00",
            "Africa/Monrovia",
            "Africa/Monrovia was not a whole number of minutes from UTC at 1971-01-01 10:00:00",
            "write it with an offset, or in UTC with Z",
        ),
        (
            "2026-11-25",
            "America/Detroit",
            "'2026-11-25' is not a date with a time",
            "write it as YYYY-MM-DDTHH:MM and the offset, such as 2026-11-25T06:40-05:00",
        ),
        (
            "2026-11-25T24:00Z",
            "America/Detroit",
            "there is no time of day as in '2026-11-25T24:00Z'",
            "hours go from 00 to 23, minutes to 59",
        ),
        (
            "2026-11-31T10:00Z",
            "America/Detroit",
            "there is no 2026-11-31",
            "November 2026 has 30 days",
        ),
        (
            "2026-11-25T06:40+23:00",
            "America/Detroit",
            "no clock is +23:00 from UTC",
            "write an offset from -14:00 to +14:00",
        ),
        (
            "2026-11-25T06:40:00.5Z",
            "America/Detroit",
            "'2026-11-25T06:40:00.5Z' holds a part of a second",
            "write whole seconds",
        ),
        (
            "9999-12-31T23:59Z",
            "America/Detroit",
            "9999-12-31 is after the year 9998",
            "write the right year",
        ),
    ],
)
def test_an_instant_that_can_not_be_taken_says_what_would_be_right(
    text: str, zone: str, problem: str, cure: str
) -> None:
    assert refusal(text, zone) == (problem, cure)
