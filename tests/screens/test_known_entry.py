"""The instant that the record is asked about, as it is typed."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from crewtrack.bad_cell import BadCell
from crewtrack.screens.known_entry import known_at_told, read_known_at

DETROIT = ZoneInfo("America/Detroit")
NOW = datetime(2026, 11, 25, 17, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "instant"),
    [
        ("2026-11-20T06:40", "2026-11-20T06:40:00-05:00"),
        ("2026-11-20T06:40Z", "2026-11-20T01:40:00-05:00"),
        ("2026-11-20", "2026-11-20T23:59:59-05:00"),
        ("2026-11-25", "2026-11-25T12:00:00-05:00"),
    ],
)
def test_it_is_told_on_the_units_clock_as_it_is_read(text: str, instant: str) -> None:
    assert known_at_told(read_known_at(text, DETROIT, NOW), DETROIT) == instant


def test_what_is_no_instant_is_refused_with_a_cure() -> None:
    with pytest.raises(BadCell, match="not a date with a time"):
        read_known_at("yesterday", DETROIT, NOW)
