"""Which backups are kept: the newest of each of the last days, weeks and months."""

from collections.abc import Callable, Collection, Hashable
from dataclasses import dataclass
from datetime import date, datetime

from crewtrack.office.backup_settings import BackupSettings


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """What is known of a backup from its name: when it was taken, aware and in the unit's zone,
    and on what occasion. ``name`` tells apart those of one instant."""

    instant: datetime
    occasion: str
    name: str


def kept(marks: Collection[Mark], today: date, numbers: BackupSettings) -> frozenset[Mark]:
    """Those to keep of all. The newest is among them, and so is the newest of each occasion.

    Days, weeks (ISO's) and months without a backup don't count: a unit that rests for a winter
    keeps what it had before it. What is dated after ``today`` was taken while the clock was wrong,
    or the clock is now: it is kept and takes no other's place.
    """
    past = sorted((mark for mark in marks if mark.instant.date() <= today), reverse=True)
    chosen = {mark for mark in marks if mark.instant.date() > today}
    for number, period in ((numbers.days, _day), (numbers.weeks, _week), (numbers.months, _month)):
        chosen |= {*_newest_of_each(past, period)[:number]}
    chosen |= {*_newest_of_each(past, lambda mark: mark.occasion)}
    return frozenset(chosen)


def _newest_of_each(newest_first: list[Mark], of: Callable[[Mark], Hashable]) -> list[Mark]:
    found: dict[Hashable, Mark] = {}
    for mark in newest_first:
        found.setdefault(of(mark), mark)
    return [*found.values()]


def _day(mark: Mark) -> Hashable:
    return mark.instant.date()


def _week(mark: Mark) -> Hashable:
    return mark.instant.isocalendar()[:2]


def _month(mark: Mark) -> Hashable:
    return mark.instant.year, mark.instant.month
