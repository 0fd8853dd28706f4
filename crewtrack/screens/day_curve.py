"""The curve of the day line: how many are ready, day by day, and the least that should be."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import accumulate, groupby

from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Editions
from crewtrack.engine.standings import HistoryRow
from crewtrack.screens.language import say
from crewtrack.screens.strip_days import StripDays


@dataclass(frozen=True, slots=True)
class Step:
    """Days one after the other on which nothing changes: the first one's place in the curve, how
    many there are, the count, and the least that should be."""

    at: int
    days: int
    count: int
    least: int

    @property
    def low(self) -> bool:
        """Whether the count is below the least."""
        return self.count < self.least


@dataclass(frozen=True, slots=True)
class Curve:
    """A count for each day from ``first_day`` on, and the least that should be on each of them, by
    that day's edition; 0 where nothing is asked."""

    title: str
    first_day: date
    counts: tuple[int, ...]
    least: tuple[int, ...]

    def steps(self) -> tuple[Step, ...]:
        """The whole curve as steps."""
        return tuple(self._steps())

    def _steps(self) -> Iterator[Step]:
        at = 0
        for (count, least), group in groupby(zip(self.counts, self.least, strict=True)):
            days = sum(1 for _ in group)
            yield Step(at, days, count, least)
            at += days

    @property
    def top(self) -> int:
        """The highest number that the curve or its least reaches; at least 1."""
        return max((1, *self.counts, *self.least))

    def on(self, day: date) -> tuple[int, int] | None:
        """The count and the least of a day; None outside the curve."""
        at = (day - self.first_day).days
        return (self.counts[at], self.least[at]) if 0 <= at < len(self.counts) else None


def people_curve(
    history: Sequence[HistoryRow], editions: Editions, qualification: str, days: StripDays
) -> Curve:
    """How many people are current (or due) in a qualification on each day of a strip."""
    spans = (s for row in history if row.qualification == qualification for s in row.spans)
    least = tuple(_least(editions, qualification, days))
    return Curve(title_of(editions, qualification), days.first, _counted(spans, days), least)


def _counted(spans: Iterator[Span], days: StripDays) -> tuple[int, ...]:
    """In how many spans each day lies, from where they begin and end."""
    changes = [0] * (len(days) + 1)
    for span in spans:
        last = days.last if span.last is None else min(span.last, days.last)
        first = max(span.first, days.first)
        if first <= last:
            changes[(first - days.first).days] += 1
            changes[(last - days.first).days + 1] -= 1
    return tuple(accumulate(changes[:-1]))


def _least(editions: Editions, qualification: str, days: StripDays) -> Iterator[int]:
    first, last = days.first.toordinal(), days.last.toordinal()
    while first <= last:
        end = min(editions.stretch(editions.index_on(first))[1], last)
        told = editions.on(first).qualifications.get(qualification)
        yield from [told.minimum if told else 0] * (end - first + 1)
        first = end + 1


def title_of(editions: Editions, qualification: str) -> str:
    """A qualification's title in the latest edition that has it; its key where none has."""
    held = (s.qualifications.get(qualification) for s in reversed(editions.standards))
    return next((told.title for told in held if told), qualification)


def told(curve: Curve, day: date) -> str:
    """The curve's count on a day, in a sentence."""
    found = curve.on(day)
    if found is None:
        return say("{day}: outside the day line", day=day)
    count, least = found
    values = {"day": day, "title": curve.title, "count": count, "least": least}
    if not least:
        return say("{day}: {title}, {count} current", **values)
    if count < least:
        return say("{day}: {title}, {count} current, below the minimum of {least}", **values)
    return say("{day}: {title}, {count} current, minimum {least}", **values)


def summary(curve: Curve) -> str:
    """What the curve shows as a whole: where it lies below the least, and for how long."""
    low = [step for step in curve.steps() if step.low]
    if not any(curve.least):
        return say("No minimum is set for {title}.", title=curve.title)
    if not low:
        return say("Never below the minimum on the days shown.")
    values = {"days": sum(step.days for step in low), "first": _day(curve, low[0])}
    return say("Below the minimum on {days} of the days shown, first on {first}.", **values)


def _day(curve: Curve, step: Step) -> date:
    return curve.first_day + timedelta(days=step.at)


def curve_choices(editions: Editions) -> tuple[tuple[str, str], ...]:
    """What the day line can count: the key and the title of every qualification, those first of
    which a number is asked."""
    latest = editions.standards[-1].qualifications
    keys = sorted(
        editions.qualifications,
        key=lambda key: 0 if key in latest and latest[key].minimum else 1,
    )
    return tuple((key, title_of(editions, key)) for key in keys)
