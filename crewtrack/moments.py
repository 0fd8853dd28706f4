"""Dates and instants, read from text (ISO 8601), with what would be right where they can't be.

A day is ``2026-11-25``. An instant is ``2026-11-25T06:40-05:00``: seconds may follow, a blank may
stand for the ``T``, ``Z`` for ``+00:00``. Without an offset it is read in the unit's zone, and
refused where that zone skips it or has it twice. Both are taken from the year 1900 on: earlier
ones are slips of the pen.
"""

import re
from calendar import month_name, monthrange
from datetime import UTC, date, datetime, time, timedelta, timezone
from functools import lru_cache
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, shown

FIRST_YEAR: Final = 1900
_LAST_INSTANT_YEAR: Final = 9998  # so that its day is a day in every zone
_WIDEST_OFFSET: Final = timedelta(hours=14)

_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_DAY_AND_TIME = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[Tt ].*")
_YEAR_LAST = re.compile(r"([0-9]{1,2})[./-]([0-9]{1,2})[./-]([0-9]{4})")
_INSTANT = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2})[Tt ]([0-9]{2}):([0-9]{2})(?::([0-9]{2})(\.[0-9]*)?)?"
    r" ?([Zz]|[+-][0-9]{2}:?[0-9]{2})?"
)


def read_day(text: str) -> date:
    """Read a calendar date."""
    found = _DAY.fullmatch(text)
    if found is None:
        raise BadCell(f"{shown(text)} is not a date", _day_cure(text))
    year, month, day = map(int, found.groups())
    try:
        when = date(year, month, day)
    except ValueError:
        raise BadCell(f"there is no {text}", _calendar_cure(year, month)) from None
    if year < FIRST_YEAR:
        raise BadCell(f"{text} is before the year {FIRST_YEAR}", "write the year with four digits")
    return when


def read_instant(text: str, zone: ZoneInfo) -> datetime:
    """Read an instant, with the offset that was written or else the zone's."""
    found = _INSTANT.fullmatch(text)
    if found is None:
        raise BadCell(
            f"{shown(text)} is not a date with a time",
            "write it as YYYY-MM-DDTHH:MM and the offset, such as 2026-11-25T06:40-05:00",
        )
    day, hour, minute, second, fraction, offset = found.groups()
    when = read_day(day)
    if when.year > _LAST_INSTANT_YEAR:
        raise BadCell(f"{day} is after the year {_LAST_INSTANT_YEAR}", "write the right year")
    if fraction and fraction.strip(".0"):
        raise BadCell(f"{shown(text)} holds a part of a second", "write whole seconds")
    try:
        local = datetime.combine(when, time(int(hour), int(minute), int(second or 0)))
    except ValueError:
        raise BadCell(
            f"there is no time of day as in {shown(text)}", "hours go from 00 to 23, minutes to 59"
        ) from None
    return local.replace(tzinfo=_offset(offset) if offset else _in_zone(local, zone))


def zone_readings(local: datetime, zone: ZoneInfo) -> tuple[timedelta, timedelta]:
    """The zone's offset before and after a change of the clocks; equal where there is none.

    The first is the greater where the zone has the local time twice, and the lesser where it
    skips it (PEP 495).
    """
    before = local.replace(tzinfo=zone, fold=0).utcoffset()
    after = local.replace(tzinfo=zone, fold=1).utcoffset()
    if before is None or after is None:
        raise ValueError("a time zone has an offset at every instant")
    return before, after


def _in_zone(local: datetime, zone: ZoneInfo) -> timezone:
    before, after = zone_readings(local, zone)
    if before != after:
        _refuse_reading(local, zone, before, after)
    if before % timedelta(minutes=1):
        raise BadCell(
            f"{zone.key} was not a whole number of minutes from UTC at {local.isoformat(' ')}",
            "write it with an offset, or in UTC with Z",
        )
    return _fixed(before)


def _refuse_reading(local: datetime, zone: ZoneInfo, before: timedelta, after: timedelta) -> None:
    text = local.isoformat(timespec="minutes")
    early, late = (local.replace(tzinfo=_fixed(offset)) for offset in (before, after))
    first, second = (when.isoformat(timespec="minutes") for when in (early, late))
    if before > after:
        raise BadCell(
            f"{text} comes twice in {zone.key}",
            f"write {first} for the first or {second} for the second",
        )
    told = [when.astimezone(zone).isoformat(timespec="minutes") for when in (early, late)]
    raise BadCell(
        f"{zone.key} skips {text}",
        f"write the time that the clock showed: {told[0]} (by the old offset) "
        f"or {told[1]} (by the new one)",
    )


def _offset(text: str) -> timezone:
    if text in "Zz":
        return UTC
    hours, minutes = int(text[1:3]), int(text[-2:])
    offset = timedelta(hours=hours, minutes=minutes)
    if minutes > 59 or offset > _WIDEST_OFFSET:
        raise BadCell(f"no clock is {text} from UTC", "write an offset from -14:00 to +14:00")
    return _fixed(-offset if text[0] == "-" else offset)


@lru_cache(maxsize=256)
def _fixed(offset: timedelta) -> timezone:
    return timezone(offset) if offset else UTC


def _day_cure(text: str) -> str:
    with_time = _DAY_AND_TIME.fullmatch(text)
    if with_time:
        return f"write the date alone: {with_time[1]}"
    found = _YEAR_LAST.fullmatch(text)
    if found:
        one, other, year = map(int, found.groups())
        day, month = (one, other) if one > 12 else (other, one)
        if month <= 12 < day or one == other:
            return f"write the year first: {year:04}-{month:02}-{day:02}"
    return "write it as YYYY-MM-DD, such as 2026-11-25"


def _calendar_cure(year: int, month: int) -> str:
    if not 1 <= month <= 12:
        return "months go from 01 to 12"
    if year < 1:
        return f"write a year from {FIRST_YEAR} on"
    return f"{month_name[month]} {year} has {monthrange(year, month)[1]} days"
