"""Which sign-offs count on a day: from their certification on, where the standard asks for a
second signature, and until their withdrawal.

Only a pass waits for it: a failed result counts at once. From the certification on everything is
reckoned as if the pass had counted since its own date, as from a withdrawal on as if it had never
been.
"""

from collections.abc import Iterable, Mapping

from crewtrack.engine.evidence import SignOff
from crewtrack.engine.standard import Task

Tasks = Mapping[str, Task]
"""The tasks of one edition, by key; what is signed of any other needs no certification."""


def counts_from(signoff: SignOff, tasks: Tasks) -> int | None:
    """The first day on which a result is known to count, whether or not it was withdrawn by then;
    None for a pass that nobody has certified."""
    task = tasks.get(signoff.task)
    if task is None or task.certified_by is None or signoff.result != "passed":
        return signoff.day
    return None if signoff.certified is None else max(signoff.day, signoff.certified)


def standing(signoffs: Iterable[SignOff], day: int, tasks: Tasks) -> tuple[SignOff, ...]:
    """The sign-offs that count as known on a day; of those dated later, the ones that count from
    their own date on."""
    return tuple(
        signoff
        for signoff in signoffs
        if (signoff.withdrawn is None or signoff.withdrawn > day)
        and (first := counts_from(signoff, tasks)) is not None
        and first <= max(day, signoff.day)
    )


def turning_days(signoffs: Iterable[SignOff], tasks: Tasks) -> list[int]:
    """The days, ascending, from which on all is reckoned anew: of withdrawals, and of
    certifications later than the result."""
    days = set()
    for signoff in signoffs:
        if signoff.withdrawn is not None:
            days.add(signoff.withdrawn)
        first = counts_from(signoff, tasks)
        if first is not None and first > signoff.day:
            days.add(first)
    return sorted(days)
