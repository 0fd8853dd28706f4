"""Evidence with sorties that have not been flown: what would count if they were.

The sorties stand after all that is dated up to a day, one for each of some settings, on the next
day; whoever is said to have flown one gets a line of practice in a copy of his or her books.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Final

from crewtrack.engine.evidence import NOT_RECORDED, Books, Performances, SignOff, Sorties
from crewtrack.engine.settings import Setting

SOMEBODY: Final = ""
"""Who supervises: not the person, and nobody by name yet."""
_LAST: Final = 2**62
_MINUTES: Final = 30


@dataclass(frozen=True, slots=True)
class Flight:
    """A sortie that might be flown: in which of the settings, and how often which task."""

    setting: int
    tasks: tuple[tuple[str, int], ...]
    supervised: bool = True


@dataclass(frozen=True, slots=True)
class Trial:
    """The sorties dated up to ``day`` - 1, then on ``day`` one in each of the settings;
    ``known`` is how many are of the record."""

    day: int
    settings: tuple[Setting, ...]
    sorties: Sorties
    known: int

    @classmethod
    def after(cls, sorties: Sorties, day: int, settings: tuple[Setting, ...]) -> "Trial":
        """Settings tried on the day after ``day``."""
        known = bisect_right(sorties.day, day)
        flown = [_columns(setting, day + 1) for setting in settings]
        columns = {
            field.name: (
                *getattr(sorties, field.name)[:known],
                *(one.get(field.name) for one in flown),
            )
            for field in fields(Sorties)
        }
        return cls(day + 1, settings, Sorties(**columns), known)

    def books(self, books: Books) -> Books:
        """What was known of a person by the day before."""
        before = self.day - 1
        return replace(
            books,
            performances={task: self._done(done) for task, done in books.performances.items()},
            signoffs=tuple(self._signed(s) for s in books.signoffs if s.day <= before),
            certificates=tuple(c for c in books.certificates if c.issued <= before),
            waivers=tuple(w for w in books.waivers if w.first <= before),
            standdowns=tuple(d for d in books.standdowns if d.first <= before),
        )

    def flown(self, books: Books, flight: Flight) -> Books:
        """The same person after a flight; ``books`` as this trial gave them."""
        performances = dict(books.performances)
        for task, times in flight.tasks:
            performances[task] = self._added(performances.get(task), flight, times)
        return replace(books, performances=performances)

    def _done(self, done: Performances) -> Performances:
        upto = bisect_left(done.sortie, self.known)
        return Performances(
            done.sortie[:upto], done.order[:upto], done.times[:upto], done.supervisor[:upto]
        )

    def _signed(self, signoff: SignOff) -> SignOff:
        """A sign-off as it was known: without a sortie, a second signature or a withdrawal that
        came only later."""
        flown, before = signoff.sortie, self.day - 1
        certified, withdrawn = signoff.certified, signoff.withdrawn
        return replace(
            signoff,
            sortie=None if flown is not None and flown >= self.known else flown,
            certified=None if certified is not None and certified > before else certified,
            withdrawn=None if withdrawn is not None and withdrawn > before else withdrawn,
        )

    def _added(self, done: Performances | None, flight: Flight, times: int) -> Performances:
        held = done or Performances()
        return Performances(
            (*held.sortie, self.known + flight.setting),
            (*held.order, _LAST),
            (*held.times, times),
            (*held.supervisor, SOMEBODY if flight.supervised else None),
        )


def _columns(setting: Setting, day: int) -> Mapping[str, Any]:
    """A sortie's columns. The boat lies still, so that the wind over the deck is the wind; light
    is stated, so that no time of day is needed."""
    floor = setting.floor
    wind = max((w for w in (floor.wind, floor.apparent) if w is not None), default=None)
    return {
        "key": "",
        "day": day,
        "launched": 0,
        "minutes": setting.minutes or _MINUTES,
        "drill": False,
        "vessel": _first(setting.only.vessel),
        "aircraft": _first(setting.only.aircraft),
        "way": _or_not(floor.way),
        "sea": _or_not(floor.sea),
        "wind": wind,
        "heading": 0.0,
        "speed": 0.0,
        "light": _or_not(floor.light),
    }


def _or_not(degree: int | None) -> int:
    return NOT_RECORDED if degree is None else degree


def _first(kinds: Sequence[str]) -> str | None:
    return kinds[0] if kinds else None
