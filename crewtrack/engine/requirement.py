"""The kinds of requirement, as the standard writes them.

Every requirement has an ``id``; ``named`` says that the standard wrote it (only such a one can be
waived). See ``recent``, ``signed``, ``certified`` and ``standing`` for what each means.
"""

from dataclasses import dataclass
from typing import Literal

from crewtrack.engine.days import Duration, Horizon

Measure = Literal["times", "minutes", "sorties", "days"]
MEASURES: tuple[Measure, ...] = ("times", "minutes", "sorties", "days")


@dataclass(frozen=True, slots=True)
class Floor:
    """The least demanding conditions that count; None where nothing is asked.

    ``light``, ``way`` are positions in ``facts.LIGHTS`` and ``facts.WAYS``; ``sea`` a WMO sea
    state degree; ``wind`` and ``apparent`` (wind over the deck) in knots.
    """

    light: int | None = None
    way: int | None = None
    sea: int | None = None
    wind: float | None = None
    apparent: float | None = None


@dataclass(frozen=True, slots=True)
class Only:
    """The kinds of aircraft and of vessel that count; empty where any does."""

    aircraft: tuple[str, ...] = ()
    vessel: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Recent:
    """Recent practice: ``amount`` of ``measure`` of any of ``tasks`` within ``horizon``."""

    id: str
    named: bool
    tasks: tuple[str, ...]
    measure: Measure = "times"
    amount: int = 1
    horizon: Horizon = Horizon()
    floor: Floor = Floor()
    only: Only = Only()
    drills: int | None = None
    supervised_regain: bool = False
    recheck: Duration | None = None


@dataclass(frozen=True, slots=True)
class Signed:
    """A passed sign-off of ``task`` at ``level`` (a position in ``facts.LEVELS``) or above.

    ``early`` and ``late`` are whole months, 0 where not written.
    """

    id: str
    named: bool
    task: str
    level: int = 2
    horizon: Horizon = Horizon()
    early: int = 0
    late: int = 0


@dataclass(frozen=True, slots=True)
class AgeBand:
    """A window for those younger than ``under`` on the issue date; None is the last band."""

    under: int | None
    horizon: Horizon


@dataclass(frozen=True, slots=True)
class Certified:
    """A certificate of a kind; ``ages`` is empty where age plays no part."""

    id: str
    named: bool
    kind: str
    horizon: Horizon = Horizon()
    ages: tuple[AgeBand, ...] = ()


@dataclass(frozen=True, slots=True)
class Holds:
    """Another qualification's requirements are met."""

    id: str
    named: bool
    qualification: str


@dataclass(frozen=True, slots=True)
class AnyOf:
    """At least one of ``needs`` is met."""

    id: str
    named: bool
    needs: tuple["Requirement", ...]


@dataclass(frozen=True, slots=True)
class AllOf:
    """All of ``needs`` are met."""

    id: str
    named: bool
    needs: tuple["Requirement", ...]


Requirement = Recent | Signed | Certified | Holds | AnyOf | AllOf


def inside(requirement: Requirement) -> tuple[Requirement, ...]:
    """The requirement and all that are nested in it, in the order of the standard."""
    if isinstance(requirement, AnyOf | AllOf):
        return (requirement, *(leaf for need in requirement.needs for leaf in inside(need)))
    return (requirement,)
