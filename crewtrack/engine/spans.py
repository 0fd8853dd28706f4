"""Sets of days, as sorted runs.

``Days`` is a tuple of closed runs ``(first, last)`` of day ordinals, in order, neither overlapping
nor touching; ``last`` is ``FOREVER`` where the run has no end. A ``Span`` is the same for people:
closed calendar dates, ``last=None`` where open.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from crewtrack.engine.days import FOREVER

Days = tuple[tuple[int, int], ...]

NEVER: Days = ()
ALWAYS: Days = ((1, FOREVER),)


@dataclass(frozen=True, slots=True)
class Span:
    """A closed interval of calendar dates; ``last=None`` is open (no limit)."""

    first: date
    last: date | None


def join(runs: Iterable[tuple[int, int]]) -> Days:
    """The days covered by any of the runs, which may overlap, touch, be empty or lie in any
    order."""
    joined: list[tuple[int, int]] = []
    for first, last in sorted(runs):
        if last < first:
            continue
        if joined and first <= joined[-1][1] + 1:
            if last > joined[-1][1]:
                joined[-1] = (joined[-1][0], last)
        else:
            joined.append((first, last))
    return tuple(joined)


def union(*sets: Days) -> Days:
    """The days in any of the sets."""
    return join(run for days in sets for run in days)


def intersection(one: Days, other: Days) -> Days:
    """The days in both sets."""
    both: list[tuple[int, int]] = []
    i = j = 0
    while i < len(one) and j < len(other):
        first, last = max(one[i][0], other[j][0]), min(one[i][1], other[j][1])
        if first <= last:
            both.append((first, last))
        if one[i][1] < other[j][1]:
            i += 1
        else:
            j += 1
    return tuple(both)


def complement(days: Days) -> Days:
    """The days not in the set."""
    gaps: list[tuple[int, int]] = []
    start = 1
    for first, last in days:
        if start < first:
            gaps.append((start, first - 1))
        start = last + 1
    if start <= FOREVER:
        gaps.append((start, FOREVER))
    return tuple(gaps)


def difference(one: Days, other: Days) -> Days:
    """The days in ``one`` and not in ``other``."""
    return intersection(one, complement(other)) if other else one


def run_at(days: Days, day: int) -> tuple[int, int] | None:
    """The run that holds ``day``."""
    place = bisect_right(days, (day, FOREVER))
    return days[place - 1] if place and days[place - 1][1] >= day else None


def last_run_before(days: Days, day: int) -> tuple[int, int] | None:
    """The latest run that starts before ``day``."""
    place = bisect_left(days, (day,))
    return days[place - 1] if place else None


def as_date(day: int) -> date | None:
    """The calendar date of a day; None for ``FOREVER``."""
    return date.fromordinal(day) if day < FOREVER else None


def as_spans(days: Days) -> tuple[Span, ...]:
    """The runs as dates."""
    return tuple(Span(date.fromordinal(first), as_date(last)) for first, last in days)
