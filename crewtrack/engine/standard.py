"""The unit's written rules: one edition, and all editions in the order of their effect."""

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Literal
from zoneinfo import ZoneInfo

from crewtrack.engine.days import FOREVER, Duration
from crewtrack.engine.requirement import Requirement, inside

Dark = Literal["civil", "half-hour", "hour"]
DARKS: tuple[Dark, ...] = ("civil", "half-hour", "hour")
Moment = Literal["launch", "recovery"]
MOMENTS: tuple[Moment, ...] = ("launch", "recovery")


@dataclass(frozen=True, slots=True)
class Position:
    """Decimal degrees, north and east positive."""

    lat: float
    lon: float


@dataclass(frozen=True, slots=True)
class Task:
    """A skill that the unit trains. ``needs`` and ``evaluator`` name qualifications;
    ``certified_by`` is the duty (of ``facts.DUTIES``) whose second signature makes a pass count,
    None where the evaluator's alone does."""

    key: str
    title: str
    duty: str | None = None
    moment: Moment = "launch"
    needs: str | None = None
    evaluator: str | None = None
    criteria: tuple[str, ...] = ()
    certified_by: str | None = None


@dataclass(frozen=True, slots=True)
class Qualification:
    """A named privilege; current on a day when all of ``needs`` hold on that day."""

    key: str
    title: str
    duty: str | None
    minimum: int
    needs: tuple[Requirement, ...]

    def named(self) -> tuple[str, ...]:
        """The ids written in the standard, at any depth: those that can be waived."""
        return tuple(r.id for need in self.needs for r in inside(need) if r.named)


@dataclass(frozen=True, slots=True)
class Seat:
    """A place in a crew, and the qualification that it asks for."""

    seat: str
    holds: str


@dataclass(frozen=True, slots=True)
class Crew:
    """A crew kind: seats, each filled by a different person."""

    key: str
    title: str
    minimum: int
    seats: tuple[Seat, ...]


@dataclass(frozen=True, slots=True)
class Standard:
    """One edition of the standard. ``effective`` is the first day on which it is in effect;
    mappings keep the order of the file."""

    title: str
    unit: str
    edition: str
    effective: date
    zone: str
    position: Position | None
    notice: Duration
    dark: Dark
    waiver_limit: Duration
    tasks: Mapping[str, Task]
    qualifications: Mapping[str, Qualification]
    crews: Mapping[str, Crew]


class Editions:
    """All editions that the record holds, ordered by the day from which each is in effect.

    Never empty. Before the first edition the first one serves.
    """

    def __init__(self, standards: tuple[Standard, ...]) -> None:
        if not standards:
            raise ValueError("a record has at least one edition")
        self.standards = tuple(sorted(standards, key=lambda standard: standard.effective))
        self._starts = [standard.effective.toordinal() for standard in self.standards]

    def on(self, day: int) -> Standard:
        """The edition in effect on a day."""
        return self.standards[self.index_on(day)]

    def index_on(self, day: int) -> int:
        """The position of the edition in effect on a day."""
        return max(0, bisect_right(self._starts, day) - 1)

    def stretch(self, index: int) -> tuple[int, int]:
        """The first and last day on which an edition is in effect."""
        first = 1 if index == 0 else self._starts[index]
        last = self._starts[index + 1] - 1 if index + 1 < len(self._starts) else FOREVER
        return first, last

    @cached_property
    def zone(self) -> ZoneInfo:
        """The unit's time zone, the same in all editions."""
        return ZoneInfo(self.standards[0].zone)

    @cached_property
    def qualifications(self) -> tuple[str, ...]:
        """All qualifications of all editions: the first edition's order, then new ones."""
        keys = (key for standard in self.standards for key in standard.qualifications)
        return tuple(dict.fromkeys(keys))

    def qualifications_on(self, day: int) -> tuple[Qualification, ...]:
        """The qualifications of the edition in effect on a day, in the order of all editions."""
        held = self.on(day).qualifications
        return tuple(held[key] for key in self.qualifications if key in held)
