"""What one person has done that bears on a requirement, in the order in which it happened."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import compress, repeat

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.evidence import Books, Performances, SignOff, Sorties
from crewtrack.engine.requirement import Floor, Only, Recent

ANYTHING = (Floor(), Only())


@dataclass(frozen=True, slots=True)
class Practice:
    """Performances that meet a requirement's floor, in the order in which they happened.

    Columns of one length: the launch's day, the sortie's index, the place in the record's order,
    how many times, who supervised, and the task. Days never decrease.
    """

    day: Sequence[int]
    sortie: Sequence[int]
    order: Sequence[int]
    times: Sequence[int]
    supervisor: Sequence[str | None]
    task: Sequence[str]


def practice(
    requirement: Recent, books: Books, sorties: Sorties, conditions: Conditions, until: int
) -> Practice:
    """The performances of any of the requirement's tasks dated up to ``until`` that meet its
    floor and its kinds of craft."""
    parts = {
        task: _of_task(requirement, task, books, conditions)
        for task in requirement.tasks
        if task in books.performances
    }
    done, tasks = _alone(parts) if len(parts) == 1 else _merged(parts)
    day = sorties.day
    days = [day[index] for index in done.sortie]
    if days and max(days) > until:
        keep = [when <= until for when in days]
        done, tasks = _kept(done, keep), list(compress(tasks, keep))
        days = list(compress(days, keep))
    return Practice(days, done.sortie, done.order, done.times, done.supervisor, tasks)


def _of_task(requirement: Recent, task: str, books: Books, conditions: Conditions) -> Performances:
    done = books.performances[task]
    if (requirement.floor, requirement.only) == ANYTHING:
        return done
    meets = conditions.meeting(requirement.floor, requirement.only, conditions.moment(task))
    return _kept(done, list(map(meets, done.sortie)))


def _kept(done: Performances, keep: Sequence[bool]) -> Performances:
    return Performances(
        tuple(compress(done.sortie, keep)),
        tuple(compress(done.order, keep)),
        tuple(compress(done.times, keep)),
        tuple(compress(done.supervisor, keep)),
    )


def _alone(parts: Mapping[str, Performances]) -> tuple[Performances, Sequence[str]]:
    """The only part as it is, and the task beside each of its rows."""
    [(task, done)] = parts.items()
    return done, [task] * len(done.sortie)


def _merged(parts: Mapping[str, Performances]) -> tuple[Performances, Sequence[str]]:
    """All parts in the order in which they happened, and the task beside each row."""
    rows = sorted(  # by sortie, then by the record's order, in which no two are equal
        row
        for task, p in parts.items()
        for row in zip(p.sortie, p.order, p.times, p.supervisor, repeat(task), strict=False)
    )
    sortie, order, times, supervisor, task = zip(*rows, strict=True) if rows else ((),) * 5
    return Performances(sortie, order, times, supervisor), task


def checks(
    requirement: Recent, signoffs: Sequence[SignOff], sorties: Sorties, conditions: Conditions
) -> tuple[SignOff, ...]:
    """The sign-offs that count as the whole of a requirement with ``recheck``, by date.

    Passed, of one of the tasks, at level alone or above; where the requirement has a floor, asks
    for kinds of craft or allows no drills, on a sortie that meets them.
    """
    if requirement.recheck is None:
        return ()
    alone = 2
    passed = [
        signoff
        for signoff in signoffs
        if signoff.result == "passed"
        and signoff.level >= alone
        and signoff.task in requirement.tasks
        and _sortie_serves(requirement, signoff, sorties, conditions)
    ]
    return tuple(sorted(passed, key=lambda signoff: signoff.day))


def _sortie_serves(
    requirement: Recent, signoff: SignOff, sorties: Sorties, conditions: Conditions
) -> bool:
    asked = (requirement.floor, requirement.only) != ANYTHING
    if not asked and requirement.drills != 0:
        return True
    if signoff.sortie is None or (requirement.drills == 0 and sorties.drill[signoff.sortie]):
        return False
    moment = conditions.moment(signoff.task)
    return not asked or conditions.meets(
        signoff.sortie, moment, requirement.floor, requirement.only
    )
