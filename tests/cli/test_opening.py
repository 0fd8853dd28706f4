"""The instant of ``--known-at``."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from crewtrack.cli.opening import known_instant
from crewtrack.errors import Refused

DETROIT = ZoneInfo("America/Detroit")
NOW = datetime(2027, 1, 2, 4, 30, tzinfo=UTC)  # the evening of 1 January in Detroit


def utc(text: str) -> datetime | None:
    found = known_instant(text, lambda: DETROIT, lambda: NOW)
    return found.astimezone(UTC) if found else None


def test_an_offset_is_taken_as_written() -> None:
    assert utc("2026-11-25T06:40-05:00") == datetime(2026, 11, 25, 11, 40, tzinfo=UTC)


def test_without_an_offset_it_is_read_in_the_units_zone() -> None:
    assert utc("2026-07-01T08:00") == datetime(2026, 7, 1, 12, 0, tzinfo=UTC)


def test_a_date_alone_means_through_the_end_of_that_day() -> None:
    assert utc("2026-11-25") == datetime(2026, 11, 26, 4, 59, 59, 999999, tzinfo=UTC)


def test_todays_date_alone_means_through_now() -> None:
    assert utc("2027-01-01") == NOW
    assert utc("2027-01-02") == datetime(2027, 1, 3, 4, 59, 59, 999999, tzinfo=UTC)


def test_nothing_asked_is_nothing_known() -> None:
    assert known_instant(None, lambda: DETROIT, lambda: NOW) is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-03-08T02:30", "skips"),  # clocks go from 02:00 to 03:00 that day
        ("2026-11-01T01:30", "twice"),  # and here from 02:00 back to 01:00
        ("2026-02-30", "no 2026-02-30"),
        ("yesterday", "is not a date"),
    ],
)
def test_what_is_no_instant_is_refused_by_the_options_name(text: str, said: str) -> None:
    with pytest.raises(Refused) as refused:
        known_instant(text, lambda: DETROIT, lambda: NOW)
    assert refused.value.faults[0].place == "--known-at"
    assert said in str(refused.value)
