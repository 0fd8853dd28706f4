"""How much of a requirement's measure counts: each unit once, drills up to their bound.

Practice comes in the order in which it happened, so its days never decrease, and what belongs to
one sortie or one day stands together.
"""

from collections.abc import Iterable, Iterator, Sequence
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


def reached(
    requirement: Recent, days: Sequence[int], columns: Amounts, positions: Iterable[int]
) -> Iterator[tuple[int, int]]:
    """Each of the positions, taken in order, at which the amount is reached, with the day at
    which one arrives who walks back from it through the positions taken until then.

    The shortest run of positions that holds enough is kept, and moves on with the newest:
    nothing is walked twice, however long the history.
    """
    needed, bound = requirement.amount, requirement.drills or 0
    period = reckoner(requirement.horizon) if requirement.horizon.each else None
    unit, amounts, drill = columns.unit, columns.amount, columns.drill
    taken: list[int] = []
    oldest = live = drilled = 0
    for position in positions:
        if not taken or unit[position] != unit[taken[-1]]:
            if period and taken and period(days[position]) != period(days[taken[-1]]):
                oldest, live, drilled = len(taken), 0, 0
            taken.append(position)
            if drill[position]:
                drilled += amounts[position]
            else:
                live += amounts[position]
        if live + (drilled if drilled < bound else bound) < needed:
            continue
        while True:  # leave out the oldest as long as there is enough without it
            last = taken[oldest]
            fewer, less = live, drilled
            if drill[last]:
                less -= amounts[last]
            else:
                fewer -= amounts[last]
            if fewer + (less if less < bound else bound) < needed:
                break
            live, drilled, oldest = fewer, less, oldest + 1
        yield position, days[last]


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
