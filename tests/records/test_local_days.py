"""Days in a zone, many at a time, against Python's own conversion one by one."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.records.local_days import local_days

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
ZONES = (
    "UTC",
    "America/Detroit",
    "America/Sao_Paulo",  # clocks went back from midnight to 23:00 of the day before
    "Pacific/Apia",  # has no 2011-12-30
    "Asia/Kathmandu",
    "Antarctica/Troll",
    "Europe/Amsterdam",  # offsets with seconds until 1937
)


@pytest.mark.parametrize("name", ZONES)
def test_any_instants_day_is_the_one_that_python_gives(name: str) -> None:
    zone = ZoneInfo(name)

    @given(st.lists(st.integers(-3_000_000_000, 4_000_000_000)))
    def same(instants: list[int]) -> None:
        wanted = [(EPOCH + timedelta(seconds=s)).astimezone(zone).toordinal() for s in instants]
        assert local_days(instants, zone) == wanted

    same()


@pytest.mark.parametrize(
    ("name", "around"),
    [
        ("America/Sao_Paulo", datetime(2018, 2, 18, 2, tzinfo=UTC)),
        ("Pacific/Apia", datetime(2011, 12, 30, 10, tzinfo=UTC)),
        ("America/Detroit", datetime(2026, 11, 1, 6, tzinfo=UTC)),
        ("Europe/Amsterdam", datetime(1937, 6, 30, 23, 40, tzinfo=UTC)),
    ],
)
def test_the_hours_around_a_change_of_the_clocks_fall_on_the_right_days(
    name: str, around: datetime
) -> None:
    zone = ZoneInfo(name)
    start = int((around - EPOCH) / timedelta(seconds=1))
    instants = list(range(start - 90_000, start + 90_000, 300))
    wanted = [(EPOCH + timedelta(seconds=s)).astimezone(zone).toordinal() for s in instants]
    assert local_days(instants, zone) == wanted


def test_the_first_and_the_last_days_there_are_have_a_day_too() -> None:
    ends = [datetime(1, 1, 2, tzinfo=UTC), datetime(9999, 12, 30, 12, tzinfo=UTC)]
    instants = [(end - EPOCH) // timedelta(seconds=1) for end in ends]
    first, last = local_days(instants, ZoneInfo("America/Detroit"))
    assert (first, last) == (1, date.max.toordinal() - 1)
