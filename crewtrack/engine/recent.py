"""Recent practice: enough of it, recently enough, eligible, and rechecked after a long gap.

One pass over the performances in the order in which they happened. ``last`` is the last day
through which the person is current so far; each performance or sign-off that sets it on day d
covers d … ``last``.
"""

from array import array
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import compress
from operator import gt

from crewtrack.engine.amounts import Flown, amounts, reached
from crewtrack.engine.cover import Cover
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
    found, eligible = _followed(requirement, done, checked, flown)
    return Track(found.met, eligible, found.lasts[-1] if found.lasts else None)


def cover(requirement: Recent, done: Practice, checked: Sequence[int], flown: Flown) -> Cover:
    """What the same practice leaves covered: a step each time ``last`` rises."""
    return _followed(requirement, done, checked, flown)[0]


def _followed(
    requirement: Recent, done: Practice, checked: Sequence[int], flown: Flown
) -> tuple[Cover, Sequence[int]]:
    """The cover, and the positions of the eligible performances."""
    if _plain(requirement):
        return _windows(requirement, done), range(len(done.day))
    path = _Path(requirement, done, checked, flown)
    horizon, in_time = path.horizon, _recheck_limit(requirement)
    columns = amounts(requirement, done, flown)
    for position, earliest in reached(requirement, done.day, columns, path.eligible()):
        day, through = done.day[position], horizon(earliest)
        if through >= day and (in_time is None or (path.last and day <= in_time(path.last))):
            path.extend(day, through)
    return path.cover(), path.taken


def _recheck_limit(requirement: Recent) -> Callable[[int], int] | None:
    """From ``last`` to the last day on which practice alone still brings a person back."""
    if requirement.recheck is None:
        return None
    return reckoner(Horizon(requirement.recheck, requirement.horizon.month_end))


class _Path:
    """How far the pass has come: the performances taken, and the days covered so far.

    ``last`` is the last day through which the person is current so far; 0, before every day,
    where there is none.
    """

    def __init__(
        self, requirement: Recent, done: Practice, checked: Sequence[int], flown: Flown
    ) -> None:
        self.horizon = reckoner(requirement.horizon)
        self.taken: Sequence[int] = range(len(done.day))
        self.last = 0
        self._supervised = requirement.supervised_regain
        self._done = done
        self._checked = checked
        self._me = flown.person
        self._steps: list[int] = []
        self._lasts: list[int] = []

    def eligible(self) -> Iterable[int]:
        """The positions of the performances that count, each asked for once all before it are
        done with; sign-offs are taken on their way, after the performances of their date."""
        if not (self._supervised or self._checked):
            return self.taken
        return self._walked()

    def _walked(self) -> Iterator[int]:
        done, pending = self._done, list(reversed(self._checked))
        self.taken = taken = []
        for position, day in enumerate(done.day):
            while pending and pending[-1] < day:
                self._check(pending.pop())
            supervisor = done.supervisor[position]
            alone = supervisor is None or supervisor == self._me
            if not (self._supervised and alone and day > self.last):
                taken.append(position)
                yield position
        for check in reversed(pending):
            self._check(check)

    def _check(self, day: int) -> None:
        """A sign-off that counts as the whole requirement."""
        self.extend(day, self.horizon(day))

    def extend(self, day: int, through: int) -> None:
        """Cover ``day`` … the later of ``through`` and ``last``; days come in order."""
        if through > self.last:
            self.last = through
            self._steps.append(day)
            self._lasts.append(through)

    def cover(self) -> Cover:
        """All days covered, and the steps in which they came to be."""
        return _risen(self._steps, self._lasts)


def _plain(requirement: Recent) -> bool:
    """Whether the answer depends on nothing but each performance's date and count."""
    return (
        requirement.measure == "times"
        and requirement.drills is None
        and not requirement.supervised_regain
        and requirement.recheck is None
        and requirement.horizon.each is None
    )


def _windows(requirement: Recent, done: Practice) -> Cover:
    """The same answer for a plain requirement, without the walk: every run of ``amount``
    consecutive counts covers from its newest day through the horizon of its oldest.

    Most requirements are plain, and this is five times faster.
    """
    counts = [day for day, times in zip(done.day, done.times, strict=True) for _ in range(times)]
    days = counts[requirement.amount - 1 :]
    return _risen(days, list(map(reckoner(requirement.horizon), counts[: len(days)])))


def _risen(days: Sequence[int], lasts: Sequence[int]) -> Cover:
    """The cover of steps whose last days never decrease: a run goes on until a step comes after
    the last day of the one before it."""
    if not days:
        return Cover()
    late = list(compress(range(1, len(days)), map(gt, days[1:], lasts)))
    firsts = [days[place] for place in (0, *late)]
    ends = [lasts[place - 1] for place in (*late, len(days))]
    met = join(zip(firsts, ends, strict=True))
    return Cover(array("i", days), array("i", lasts), met)  # four bytes a day: there are many
