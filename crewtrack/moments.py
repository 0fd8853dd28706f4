"""Dates and instants, read from text (ISO 8601), with what would be right where they can't be.

A day is ``2026-11-25``. An instant is ``2026-11-25T06:40-05:00``: seconds may follow, a blank may
stand for the ``T``, ``Z`` for ``+00:00``. Without an offset it is read in the unit's zone, and
refused where that zone skips it or has it twice. Both are taken from the year 1900 on: earlier
ones are slips of the pen.
"""

import re
from calendar import monthrange
from datetime import UTC, date, datetime, time, timedelta, timezone
from functools import lru_cache
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, shown
from crewtrack.phrases import later, phrase

FIRST_YEAR: Final = 1900
_MONTHS: Final = (
    later("January"),
    later("February"),
    later("March"),
    later("April"),
    later("May"),
    later("June"),
    later("July"),
    later("August"),
    later("September"),
    later("October"),
    later("November"),
    later("December"),
)
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
        raise BadCell(phrase("{text} is not a date", text=shown(text)), _day_cure(text))
    year, month, day = map(int, found.groups())
    try:
        when = date(year, month, day)
    except ValueError:
        told = phrase("there is no {day}", day=text)
        raise BadCell(told, _calendar_cure(year, month)) from None
    if year < FIRST_YEAR:
        raise BadCell(
            phrase("{day} is before the year {year}", day=text, year=FIRST_YEAR),
            phrase("write the year with four digits"),
        )
    return when


def read_instant(text: str, zone: ZoneInfo) -> datetime:
    """Read an instant, with the offset that was written or else the zone's."""
    found = _INSTANT.fullmatch(text)
    if found is None:
        raise BadCell(
            phrase("{text} is not a date with a time", text=shown(text)),
            phrase("write it as YYYY-MM-DDTHH:MM and the offset, such as 2026-11-25T06:40-05:00"),
        )
    day, hour, minute, second, fraction, offset = found.groups()
    when = read_day(day)
    if when.year > _LAST_INSTANT_YEAR:
        raise BadCell(
            phrase("{day} is after the year {year}", day=day, year=_LAST_INSTANT_YEAR),
            phrase("write the right year"),
        )
    if fraction and fraction.strip(".0"):
        raise BadCell(
            phrase("{text} holds a part of a second", text=shown(text)),
            phrase("write whole seconds"),
        )
    try:
        local = datetime.combine(when, time(int(hour), int(minute), int(second or 0)))
    except ValueError:
        raise BadCell(
            phrase("there is no time of day as in {text}", text=shown(text)),
            phrase("hours go from 00 to 23, minutes to 59"),
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
            phrase(
                "{zone} was not a whole number of minutes from UTC at {instant}",
                zone=zone.key,
                instant=local.isoformat(" "),
            ),
            phrase("write it with an offset, or in UTC with Z"),
        )
    return _fixed(before)


def _refuse_reading(local: datetime, zone: ZoneInfo, before: timedelta, after: timedelta) -> None:
    text = local.isoformat(timespec="minutes")
    early, late = (local.replace(tzinfo=_fixed(offset)) for offset in (before, after))
    first, second = (when.isoformat(timespec="minutes") for when in (early, late))
    if before > after:
        raise BadCell(
            phrase("{instant} comes twice in {zone}", instant=text, zone=zone.key),
            phrase(
                "write {first} for the first or {second} for the second",
                first=first,
                second=second,
            ),
        )
    told = [when.astimezone(zone).isoformat(timespec="minutes") for when in (early, late)]
    raise BadCell(
        phrase("{zone} skips {instant}", zone=zone.key, instant=text),
        phrase(
            "write the time that the clock showed: {first} (by the old offset) or {second} (by"
            " the new one)",
            first=told[0],
            second=told[1],
        ),
    )


def _offset(text: str) -> timezone:
    if text in "Zz":
        return UTC
    hours, minutes = int(text[1:3]), int(text[-2:])
    offset = timedelta(hours=hours, minutes=minutes)
    if minutes > 59 or offset > _WIDEST_OFFSET:
        raise BadCell(
            phrase("no clock is {offset} from UTC", offset=text),
            phrase("write an offset from -14:00 to +14:00"),
        )
    return _fixed(-offset if text[0] == "-" else offset)


@lru_cache(maxsize=256)
def _fixed(offset: timedelta) -> timezone:
    return timezone(offset) if offset else UTC


def _day_cure(text: str) -> str:
    with_time = _DAY_AND_TIME.fullmatch(text)
    if with_time:
        return phrase("write the date alone: {day}", day=with_time[1])
    found = _YEAR_LAST.fullmatch(text)
    if found:
        one, other, year = map(int, found.groups())
        day, month = (one, other) if one > 12 else (other, one)
        if month <= 12 < day or one == other:
            first = f"{year:04}-{month:02}-{day:02}"
            return phrase("write the year first: {day}", day=first)
    return phrase("write it as YYYY-MM-DD, such as 2026-11-25")


def _calendar_cure(year: int, month: int) -> str:
    if not 1 <= month <= 12:
        return phrase("months go from 01 to 12")
    if year < 1:
        return phrase("write a year from {year} on", year=FIRST_YEAR)
    return phrase(
        "{month} {year} has {count} days",
        month=phrase(_MONTHS[month - 1]),
        year=year,
        count=monthrange(year, month)[1],
    )
