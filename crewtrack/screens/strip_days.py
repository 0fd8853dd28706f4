"""The days that the day line and the life lines are drawn along, and their months."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

MONTHS_BEFORE: Final = 12
MONTHS_AFTER: Final = 6
MARGIN: Final = 10
"""Days that are kept between the marker and the strip's end when the strip follows it."""


@dataclass(frozen=True, slots=True)
class StripDays:
    """A stretch of days, both ends included. A *share* is a place along it, from 0 at the start of
    the first day to 1 at the end of the last."""

    first: date
    last: date

    def __len__(self) -> int:
        return (self.last - self.first).days + 1

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last

    def share(self, day: date) -> float:
        """The place of the start of a day, which may lie outside."""
        return (day - self.first).days / len(self)

    def middle(self, day: date) -> float:
        """The place of the middle of a day."""
        return self.share(day) + 0.5 / len(self)

    def day_at(self, share: float) -> date:
        """The day at a place; the first or the last where that lies outside."""
        offset = int(min(max(share, 0.0), 1.0) * len(self))
        return self.first + timedelta(days=min(offset, len(self) - 1))

    def months(self) -> tuple[date, ...]:
        """The first days of the months that begin within the strip."""
        start = self.first if self.first.day == 1 else months_from(self.first.replace(day=1), 1)
        found = []
        while start in self and start.day == 1:  # no month begins past the calendar's end
            found.append(start)
            start = months_from(start, 1)
        return tuple(found)

    def keeping(self, day: date) -> "StripDays":
        """The same strip where it holds the day well within its ends; else moved as little as
        brings it there; a new one around the day where it lies further off than the strip is
        long."""
        inner = StripDays(days_from(self.first, MARGIN), days_from(self.last, -MARGIN))
        if day in inner:
            return self
        move = (day - (inner.first if day < inner.first else inner.last)).days
        if abs(move) >= len(self):
            return around(day)
        moved = StripDays(days_from(self.first, move), days_from(self.last, move))
        return moved if len(moved) == len(self) else around(day)


def around(centre: date) -> StripDays:
    """From a year before a day to half a year after it."""
    return StripDays(months_from(centre, -MONTHS_BEFORE), months_from(centre, MONTHS_AFTER))


def months_from(day: date, months: int) -> date:
    """The same day so many months later (earlier where negative), or that month's last; the
    calendar's own end where it lies beyond."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if year < date.min.year:
        return date.min
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def days_from(day: date, days: int) -> date:
    """So many days later (earlier where negative); the calendar's own end where it lies
    beyond."""
    ordinal = min(max(day.toordinal() + days, 1), date.max.toordinal())
    return date.fromordinal(ordinal)
