"""The days, in the unit's zone, of instants: many at a time.

A zone's offset is looked up once for each day in UTC and not once for each instant, save on the
days on which it changes.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

_DAY: Final = 86_400
_EPOCH: Final = date(1970, 1, 1).toordinal()
_EPOCH_INSTANT: Final = datetime(1970, 1, 1, tzinfo=UTC)
_SECOND: Final = timedelta(seconds=1)
_FIRST, _LAST = 2, date.max.toordinal() - 1


def local_days(instants: Sequence[int], zone: ZoneInfo) -> list[int]:
    """The day ordinal in ``zone`` of each of the instants, in seconds since 1970."""
    constant: dict[int, int | None] = {}
    days = []
    for instant in instants:
        utc_day = instant // _DAY
        try:
            offset = constant[utc_day]
        except KeyError:
            offset = constant[utc_day] = _constant_offset(utc_day + _EPOCH, zone)
        if offset is None:
            offset = _offset(_EPOCH_INSTANT + timedelta(seconds=instant), zone)
        days.append((instant + offset) // _DAY + _EPOCH)
    return days


def _constant_offset(day: int, zone: ZoneInfo) -> int | None:
    """The zone's offset throughout a day in UTC, in seconds; None where it changes."""
    start, end = (_offset(_instant(ordinal), zone) for ordinal in (day, day + 1))
    return start if start == end else None


def _instant(day: int) -> datetime:
    """The start of a day in UTC; the first and last days there are stand for all beyond."""
    ordinal = min(max(day, _FIRST), _LAST)
    return datetime.fromordinal(ordinal).replace(tzinfo=UTC)


def _offset(instant: datetime, zone: ZoneInfo) -> int:
    offset = instant.astimezone(zone).utcoffset()
    return 0 if offset is None else offset // _SECOND
