"""Whole calendar days: durations, horizons and periods (ISO 8601 durations of one unit).

Inside the engine a day is its proleptic ordinal (``date.toordinal``), an ``int``; ``FOREVER``
stands for "no limit", and for every day past the year 9999.
"""

import re
from calendar import monthrange
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import cache, lru_cache
from typing import Final, Literal

from crewtrack.phrases import phrase

FOREVER: Final = date.max.toordinal() + 1

Period = Literal["month", "quarter", "half-year", "year"]
PERIODS: Final[tuple[Period, ...]] = ("month", "quarter", "half-year", "year")

_DURATION = re.compile(r"P([0-9]{1,6})([DWMY])")
_IN_MONTHS = {"month": 1, "quarter": 3, "half-year": 6, "year": 12}


@dataclass(frozen=True, slots=True)
class Duration:
    """A positive length of time in days or in months, one of the two; the other is 0.

    >>> str(Duration.parse("P2W")), str(Duration.parse("P2Y"))
    ('P14D', 'P24M')
    """

    days: int = 0
    months: int = 0

    @classmethod
    def parse(cls, text: str) -> "Duration":
        """Read ``PnD``, ``PnW``, ``PnM`` or ``PnY``; ValueError says what would be right."""
        found = _DURATION.fullmatch(text)
        if found is None or int(found[1]) == 0:
            raise ValueError(_cure(text))
        count, unit = int(found[1]), found[2]
        if unit in "DW":
            return cls(days=count * (7 if unit == "W" else 1))
        return cls(months=count * (12 if unit == "Y" else 1))

    def __str__(self) -> str:
        return f"P{self.days}D" if self.days else f"P{self.months}M"

    def after(self, day: int) -> int:
        """The day this much later: by months, the same day or that month's last where it has no
        such day; past the year 9999, ``FOREVER``."""
        if day >= FOREVER:
            return FOREVER
        if self.days:
            return min(day + self.days, FOREVER)
        return _month_day(day, self.months)


def _cure(text: str) -> str:
    """What would be right instead of a duration that can't be taken."""
    if "T" in text:
        return phrase("time parts are not counted here; write whole days, such as P2D")
    if re.fullmatch(r"P0+[DWMY]", text) or text.startswith("-"):
        return phrase("write a positive duration, such as P90D")
    if re.fullmatch(r"P([0-9]+[DWMY]){2,}", text):
        return phrase("write one unit only, such as P45D or P2M")
    if re.search(r"[0-9][.,][0-9]", text):
        return phrase("write a whole number, such as P90D")
    return phrase("write a whole number of one unit: P90D, P2W, P6M or P2Y")


@lru_cache(maxsize=65536)
def _month_day(day: int, months: int) -> int:
    when = date.fromordinal(day)
    index = when.year * 12 + when.month - 1 + months
    year, month = divmod(index, 12)
    if year > date.max.year:
        return FOREVER
    return date(year, month + 1, min(when.day, monthrange(year, month + 1)[1])).toordinal()


def month_index(day: int) -> int:
    """The number of the calendar month that holds ``day``, counted from year 0."""
    when = date.fromordinal(day)
    return when.year * 12 + when.month - 1


def month_first(index: int) -> int:
    """The first day of a calendar month by its number; ``FOREVER`` past the year 9999."""
    year, month = divmod(index, 12)
    return date(year, month + 1, 1).toordinal() if year <= date.max.year else FOREVER


def month_last(index: int) -> int:
    """The last day of a calendar month by its number; ``FOREVER`` past the year 9999."""
    year, month = divmod(index, 12)
    if year > date.max.year:
        return FOREVER
    return date(year, month + 1, monthrange(year, month + 1)[1]).toordinal()


def period_of(day: int, each: Period) -> int:
    """The number of the calendar period that holds ``day``; consecutive periods differ by 1."""
    return month_index(day) // _IN_MONTHS[each]


def period_first(day: int, each: Period) -> int:
    """The first day of the calendar period that holds ``day``."""
    return month_first(period_of(day, each) * _IN_MONTHS[each])


@dataclass(frozen=True, slots=True)
class Horizon:
    """How long one thing counts: from its day d through ``of(d)``, both included.

    At most one of ``within`` and ``each`` is given; with neither there is no limit. ``of`` never
    decreases as d grows.
    """

    within: Duration | None = None
    month_end: bool = False
    each: Period | None = None

    def of(self, day: int) -> int:
        """The last day on which something dated ``day`` counts; ``FOREVER`` for no limit."""
        if self.each is not None:
            return month_last((period_of(day, self.each) + 2) * _IN_MONTHS[self.each] - 1)
        if self.within is None:
            return FOREVER
        last = self.within.after(day)
        if self.month_end and last < FOREVER:
            return month_last(month_index(last))
        return last

    def earliest(self, day: int) -> int | None:
        """The earliest day whose evidence still counts on ``day``; None for no limit."""
        if self.within is None and self.each is None:
            return None
        low, high = 1, day
        while low < high:
            middle = (low + high) // 2
            if self.of(middle) >= day:
                high = middle
            else:
                low = middle + 1
        return low


@lru_cache(maxsize=256)
def reckoner(horizon: Horizon) -> Callable[[int], int]:
    """``horizon.of`` with its answers kept: one rule asks about the same days for everybody."""
    return cache(horizon.of)
