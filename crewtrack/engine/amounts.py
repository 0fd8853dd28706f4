"""How much of a requirement's measure counts: each unit once, drills up to their bound.

Practice comes in the order in which it happened, so its days never decrease, and what belongs to
one sortie or one day stands together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import assert_never

from crewtrack.engine.days import reckoner
from crewtrack.engine.practice import Practice
from crewtrack.engine.requirement import Recent


@dataclass(frozen=True, slots=True)
class Flown:
    """What is needed of the sorties: their minutes, and whether each was a drill; and whose
    practice it is, since nobody supervises himself or herself."""

    minutes: Sequence[int]
    drill: Sequence[bool]
    person: str


@dataclass(frozen=True, slots=True)
class Amounts:
    """Columns beside a practice: the unit that may count once only (a performance, a sortie, a
    day), how much it counts, and whether it counts against the bound on drills."""

    unit: Sequence[int]
    amount: Sequence[int]
    drill: Sequence[bool]


def amounts(requirement: Recent, done: Practice, flown: Flown) -> Amounts:
    """The columns in the requirement's measure."""
    count = len(done.day)
    drill: Sequence[bool] = (False,) * count
    if requirement.drills is not None:
        drill = [flown.drill[sortie] for sortie in done.sortie]
    match requirement.measure:
        case "times":
            return Amounts(range(count), done.times, drill)
        case "minutes":
            return Amounts(done.sortie, [flown.minutes[s] for s in done.sortie], drill)
        case "sorties":
            return Amounts(done.sortie, (1,) * count, drill)
        case "days":
            return Amounts(done.day, (1,) * count, drill)
        case _:
            assert_never(requirement.measure)


class Window:
    """The newest performances that make up the amount needed, as practice is added in order.

    Of all runs of performances that end with the newest one and hold enough, it keeps the
    shortest: its first day is where one arrives who walks back from the newest until the amount
    is reached. Nothing is walked twice, however long the history.
    """

    def __init__(self, requirement: Recent) -> None:
        self._needed = requirement.amount
        self._bound = requirement.drills or 0
        self._period = reckoner(requirement.horizon) if requirement.horizon.each else None
        self._entries: list[tuple[int, int, bool]] = []
        self._oldest = 0
        self._live = self._drilled = 0
        self._unit = -1

    def add(self, day: int, unit: int, amount: int, drill: bool) -> int | None:
        """Add what is newest; the day of the oldest that is needed, None where there is not
        enough. A unit that was added last already counts once."""
        entries = self._entries
        if self._period and entries and self._period(entries[-1][0]) != self._period(day):
            self._oldest, self._live, self._drilled = len(entries), 0, 0
        if unit != self._unit:
            self._unit = unit
            entries.append((day, amount, drill))
            if drill:
                self._drilled += amount
            else:
                self._live += amount
            self._shorten()
        drilled = self._drilled if self._drilled < self._bound else self._bound
        return entries[self._oldest][0] if self._live + drilled >= self._needed else None

    def _shorten(self) -> None:
        """Leave out the oldest as long as there is enough without it."""
        live, drilled, bound, needed = self._live, self._drilled, self._bound, self._needed
        while True:
            _, amount, drill = self._entries[self._oldest]
            if drill:
                if live + min(drilled - amount, bound) < needed:
                    break
                drilled -= amount
            else:
                if live - amount + min(drilled, bound) < needed:
                    break
                live -= amount
            self._oldest += 1
        self._live, self._drilled = live, drilled


def counted(
    requirement: Recent, done: Practice, flown: Flown, eligible: Sequence[int], on: int
) -> list[tuple[int, int]]:
    """Position and amount of what counts on day ``on``, newest first, until the amount is
    reached; what is too old, or a drill beyond the bound, is left out."""
    horizon, each = reckoner(requirement.horizon), requirement.horizon.each
    columns = amounts(requirement, done, flown)
    budget, missing = requirement.drills or 0, requirement.amount
    seen: set[int] = set()
    parts: list[tuple[int, int]] = []
    for position in reversed(eligible):
        day, unit = done.day[position], columns.unit[position]
        if horizon(day) < on:
            break
        if unit in seen or (each and horizon(day) != horizon(on)):
            continue
        amount = columns.amount[position]
        if columns.drill[position]:
            amount = min(amount, budget)
            budget -= amount
        if amount:
            seen.add(unit)
            parts.append((position, amount))
            missing -= amount
            if missing <= 0:
                break
    return parts
