"""Sign-offs: a pass covers through its horizon, a failed result ends the cover."""

from collections.abc import Sequence

from crewtrack.engine.cover import Cover, stepped
from crewtrack.engine.days import month_index, month_last
from crewtrack.engine.evidence import SignOff
from crewtrack.engine.requirement import Signed
from crewtrack.engine.spans import Days


def results(requirement: Signed, signoffs: Sequence[SignOff]) -> tuple[SignOff, ...]:
    """The results that bear on a requirement, by date, then in the order recorded."""
    bearing = [
        signoff
        for signoff in signoffs
        if signoff.task == requirement.task
        and (
            (signoff.result == "passed" and signoff.level >= requirement.level)
            or (signoff.result == "failed" and signoff.level <= requirement.level)
        )
    ]
    return tuple(sorted(bearing, key=lambda signoff: signoff.day))


def cover(requirement: Signed, signoffs: Sequence[SignOff]) -> Cover:
    """What the results leave covered; ``signoffs`` in the order in which they were recorded.

    A later pass never covers less than the one before it: neither horizons nor due months go
    back.
    """
    calendar = _DueMonth(requirement) if requirement.early or requirement.late else None
    last, steps = 0, []
    for signoff in results(requirement, signoffs):
        if signoff.result == "failed":
            last = min(last, signoff.day - 1)
            if calendar:
                calendar.forget()
        elif calendar:
            calendar.take(month_index(signoff.day))
            last = calendar.covered_through()
        else:
            last = requirement.horizon.of(signoff.day)
        steps.append((signoff.day, last))
    return stepped(steps)


def days_met(requirement: Signed, signoffs: Sequence[SignOff]) -> Days:
    """The days that the passes cover; ``signoffs`` in the order in which they were recorded."""
    return cover(requirement, signoffs).met


def due_month(requirement: Signed, signoffs: Sequence[SignOff]) -> int | None:
    """The month (its number) in which the next evaluation is due, after all of the results."""
    calendar = _DueMonth(requirement)
    for signoff in results(requirement, signoffs):
        if signoff.result == "failed":
            calendar.forget()
        else:
            calendar.take(month_index(signoff.day))
    return calendar.due


class _DueMonth:
    """The month in which the next evaluation is due, which does not creep.

    A pass in the months around it moves it on by ``within``; a second pass in those same months
    changes nothing; any other starts anew, but never moves it back.
    """

    def __init__(self, requirement: Signed) -> None:
        within = requirement.horizon.within
        self._within = within.months if within else 0
        self._early, self._late = requirement.early, requirement.late
        self.due: int | None = None
        self._done: int | None = None

    def _around(self, due: int | None, month: int) -> bool:
        return due is not None and due - self._early <= month <= due + self._late

    def take(self, month: int) -> None:
        """A pass in this month."""
        if self.due is not None and self._around(self.due, month):
            self._done, self.due = self.due, self.due + self._within
        elif not self._around(self._done, month):
            anew = month + self._within
            if self.due is None or anew > self.due:
                self._done, self.due = None, anew

    def forget(self) -> None:
        """A failed result."""
        self._done = self.due = None

    def covered_through(self) -> int:
        """The last day of the last month in which the evaluation may still be done."""
        return month_last((self.due or 0) + self._late)
