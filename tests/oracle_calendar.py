"""The oracle's calendar: how long one thing counts, on calendar dates.

``FAR`` stands for no limit.
"""

from calendar import monthrange
from datetime import date, timedelta
from functools import cache

from crewtrack.engine.days import Duration, Horizon

FAR = date.max


def later(day: date, duration: Duration, to_month_end: bool = False) -> date:
    """The day so much later, or ``FAR`` past the year 9999."""
    if duration.days:
        try:
            moved = day + timedelta(days=duration.days)
        except OverflowError:
            return FAR
        return last_of_month(moved.year, moved.month) if to_month_end else moved
    year, month = day.year, day.month
    for _ in range(duration.months):
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    if year > FAR.year:
        return FAR
    last = last_of_month(year, month)
    return last if to_month_end else min(last, last.replace(day=min(day.day, last.day)))


def last_of_month(year: int, month: int) -> date:
    """Its last day."""
    return date(year, month, monthrange(year, month)[1])


def period_of(day: date, horizon: Horizon) -> tuple[int, int]:
    """The year, and which month, quarter, half or whole of it holds the day."""
    months = {"month": 1, "quarter": 3, "half-year": 6, "year": 12}[horizon.each or "month"]
    return day.year, (day.month - 1) // months


@cache
def horizon_of(day: date, horizon: Horizon) -> date:
    """Section 3: the last day on which something dated ``day`` counts."""
    if horizon.each:
        last = day
        for _ in ("this period", "the next one"):
            here = period_of(last, horizon)
            while period_of(last, horizon) == here:
                last += timedelta(days=1)
        return last - timedelta(days=1)
    if horizon.within is None:
        return FAR
    return later(day, horizon.within, horizon.month_end)
