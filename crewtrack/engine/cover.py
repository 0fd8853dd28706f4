"""How long one requirement is covered, as each day knew it.

Evidence dated up to a day leaves, from that day on, a single run: that day through some last day.
So all that evidence ever says is a list of steps, and what a day knew is looked up, not reckoned.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from crewtrack.engine.days import FOREVER
from crewtrack.engine.spans import NEVER, Days, join


@dataclass(frozen=True, slots=True)
class Cover:
    """Steps: from ``days[i]`` on it is known that ``lasts[i]`` is the last day covered.

    ``days`` never decrease; of several steps on one day the last one holds. A last day before
    the step's own day covers nothing. ``met`` are the days covered, each as that day knew it.
    """

    days: Sequence[int] = ()
    lasts: Sequence[int] = ()
    met: Days = NEVER

    def last_on(self, day: int) -> int:
        """The last day covered, as known on ``day``; 0 or a day before it where that is not."""
        step = bisect_right(self.days, day)
        return self.lasts[step - 1] if step else 0

    def ahead(self, day: int) -> Days:
        """The days covered from ``day`` on, as known on it."""
        step = bisect_right(self.days, day)
        return ((day, last),) if step and (last := self.lasts[step - 1]) >= day else NEVER

    def known_on(self, day: int) -> Days:
        """All days covered, as known on ``day``."""
        return spliced(self.met, self.ahead(day), day)

    def replaced(self, other: "Cover", day: int) -> "Cover":
        """This cover on the days before ``day``, the other one from it on."""
        kept, rest = bisect_left(self.days, day), bisect_right(other.days, day)
        return Cover(
            (*self.days[:kept], day, *other.days[rest:]),
            (*self.lasts[:kept], other.last_on(day), *other.lasts[rest:]),
            spliced(self.met, other.met, day),
        )


def stepped(steps: Iterable[tuple[int, int]]) -> Cover:
    """The cover of some steps, each its day and the last day covered, in the order of days."""
    days, lasts = zip(*steps, strict=True) if (steps := tuple(steps)) else ((), ())
    until = (*(day - 1 for day in days[1:]), FOREVER)  # a step holds until the next one
    runs = zip(days, map(min, lasts, until), strict=True)
    return Cover(days, lasts, join(runs))


def spliced(before: Days, after: Days, day: int) -> Days:
    """The one set on the days before ``day``, the other from it on."""
    kept, rest = bisect_left(before, (day,)), bisect_left(after, (day,))
    tail = after[rest:]
    if rest and after[rest - 1][1] >= day:
        tail = ((day, after[rest - 1][1]), *tail)
    if not kept:
        return tail
    first, last = before[kept - 1]
    if last < day - 1:
        return before[:kept] + tail
    if tail and tail[0][0] == day:
        return (*before[: kept - 1], (first, tail[0][1]), *tail[1:])
    return (*before[: kept - 1], (first, day - 1), *tail)
