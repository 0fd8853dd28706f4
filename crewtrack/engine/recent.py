"""Recent practice: enough of it, recently enough, eligible, and rechecked after a long gap.

One pass over the performances in the order in which they happened. ``last`` is the last day
through which the person is current so far; each performance or sign-off that sets it on day d
covers d … ``last``.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from crewtrack.engine.amounts import Flown, Window, amounts
from crewtrack.engine.days import Horizon, reckoner
from crewtrack.engine.practice import Practice
from crewtrack.engine.requirement import Recent
from crewtrack.engine.spans import Days, join


@dataclass(frozen=True, slots=True)
class Track:
    """What the pass leaves: the days met, the positions in the practice of all eligible
    performances, and ``last`` (None where the person never was current)."""

    days: Days
    eligible: Sequence[int]
    last: int | None


def track(requirement: Recent, done: Practice, checked: Sequence[int], flown: Flown) -> Track:
    """Follow one requirement through one person's practice. ``checked`` are the days of the
    sign-offs that count as the whole requirement, ascending."""
    if _plain(requirement):
        return _windows(requirement, done)
    return _pass(requirement, done, checked, flown)


def _pass(requirement: Recent, done: Practice, checked: Sequence[int], flown: Flown) -> Track:
    horizon = reckoner(requirement.horizon)
    in_time = _recheck_limit(requirement)
    columns = amounts(requirement, done, flown)
    add = Window(requirement).add
    pending = list(reversed(checked))
    runs: list[tuple[int, int]] = []
    ineligible: set[int] = set()
    last = 0  # before every day: at the start there is none

    for position, (day, unit, amount, drill) in enumerate(
        zip(done.day, columns.unit, columns.amount, columns.drill, strict=True)
    ):
        while pending and pending[-1] < day:
            check = pending.pop()
            last = max(last, horizon(check))
            runs.append((check, last))
        if requirement.supervised_regain and day > last:
            supervisor = done.supervisor[position]
            if supervisor is None or supervisor == flown.person:
                ineligible.add(position)
                continue
        earliest = add(day, unit, amount, drill)
        if earliest is None or (in_time is not None and (not last or day > in_time(last))):
            continue
        through = horizon(earliest)
        if through >= day:
            if through > last:
                last = through
            runs.append((day, last))
    for check in reversed(pending):
        last = max(last, horizon(check))
        runs.append((check, last))
    eligible = [position for position in range(len(done.day)) if position not in ineligible]
    return Track(join(runs), eligible, last or None)


def _recheck_limit(requirement: Recent) -> Callable[[int], int] | None:
    """From ``last`` to the last day on which practice alone still brings a person back."""
    if requirement.recheck is None:
        return None
    return reckoner(Horizon(requirement.recheck, requirement.horizon.month_end))


def _plain(requirement: Recent) -> bool:
    """Whether the answer depends on nothing but each performance's date and count."""
    return (
        requirement.measure == "times"
        and requirement.drills is None
        and not requirement.supervised_regain
        and requirement.recheck is None
        and requirement.horizon.each is None
    )


def _windows(requirement: Recent, done: Practice) -> Track:
    """The same answer for a plain requirement, without the pass: every run of ``amount``
    consecutive counts covers from its newest day through the horizon of its oldest.

    Most requirements are plain, and this is three times faster.
    """
    days = [day for day, times in zip(done.day, done.times, strict=True) for _ in range(times)]
    horizon = reckoner(requirement.horizon)
    runs: list[tuple[int, int]] = []
    first = last = 0
    for through, day in zip(map(horizon, days), days[requirement.amount - 1 :], strict=False):
        if through >= day:
            if day > last + 1:
                runs.append((first, last))
                first, last = day, through
            elif through > last:
                last = through
    runs.append((first, last))
    return Track(tuple(runs[1:]), range(len(done.day)), last or None)
