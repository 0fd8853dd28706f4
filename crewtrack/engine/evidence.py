"""Everything known, as one value: what the engine is given and all that it rests on.

Sorties and performances are held in columns, since a record can hold half a million of them;
all else is few. Days are ordinals in the unit's zone, instants whole seconds since 1970 in UTC.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

NOT_RECORDED = -1


@dataclass(frozen=True, slots=True)
class Person:
    """Anybody on the unit's books."""

    key: str
    name: str
    joined: int | None = None
    left: int | None = None
    born: date | None = None
    duties: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Assignment:
    """A person is to hold a qualification from a day, perhaps through one."""

    qualification: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class SignOff:
    """An evaluator's result. ``level`` and ``result`` as in ``facts.LEVELS`` (its position) and
    ``facts.RESULTS``; ``sortie`` the index of the sortie, if one was named; ``withdrawn`` the
    day from which it no longer counts; ``certified`` the day of the second signature, and
    ``certified_by`` whose it is (a person's key), where there is one."""

    key: str
    task: str
    day: int
    level: int
    result: str
    evaluator: str
    sortie: int | None = None
    withdrawn: int | None = None
    certified: int | None = None
    certified_by: str | None = None


@dataclass(frozen=True, slots=True)
class Certificate:
    """A credential issued outside the unit."""

    key: str
    kind: str
    issued: int
    expires: int | None = None
    revoked: int | None = None


@dataclass(frozen=True, slots=True)
class Waiver:
    """A waiver or extension (``kind``) of one requirement of one qualification; why, and who
    granted it."""

    key: str
    qualification: str
    requirement: str
    first: int
    last: int
    kind: str = "waiver"
    reason: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class StandDown:
    """A person is out of one qualification, or of all (None); why, and who says so."""

    key: str
    qualification: str | None
    first: int
    last: int
    reason: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class Performances:
    """One person's performances of one task, in the order of the sorties.

    Columns of one length: the sortie's index, the place in the record's order, how many times,
    and who supervised (None for nobody).
    """

    sortie: Sequence[int] = ()
    order: Sequence[int] = ()
    times: Sequence[int] = ()
    supervisor: Sequence[str | None] = ()


@dataclass(frozen=True, slots=True)
class Sorties:
    """All sorties in the order in which they happened: by day, launch instant, then key.

    The day comes first, since in a few zones clocks have gone back across midnight, and what is
    dated later must change nothing on the days before.

    Columns of one length. ``way`` and ``light`` are positions in ``facts.WAYS`` and
    ``facts.LIGHTS``; ``NOT_RECORDED`` where ``way``, ``sea`` or ``light`` (stated by hand) is
    not recorded; None elsewhere. ``vessel`` and ``aircraft`` are their kinds.
    """

    key: Sequence[str] = ()
    day: Sequence[int] = ()
    launched: Sequence[int] = ()
    minutes: Sequence[int] = ()
    drill: Sequence[bool] = ()
    vessel: Sequence[str | None] = ()
    aircraft: Sequence[str | None] = ()
    lat: Sequence[float | None] = ()
    lon: Sequence[float | None] = ()
    way: Sequence[int] = ()
    sea: Sequence[int] = ()
    wind_from: Sequence[float | None] = ()
    wind: Sequence[float | None] = ()
    heading: Sequence[float | None] = ()
    speed: Sequence[float | None] = ()
    set: Sequence[float | None] = ()
    drift: Sequence[float | None] = ()
    light: Sequence[int] = ()


@dataclass(frozen=True, slots=True)
class Books:
    """All that is known of one person; sign-offs in the order in which they were recorded,
    performances by task."""

    person: Person
    assignments: tuple[Assignment, ...] = ()
    performances: Mapping[str, Performances] = field(default_factory=dict)
    signoffs: tuple[SignOff, ...] = ()
    certificates: tuple[Certificate, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    standdowns: tuple[StandDown, ...] = ()


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything known: the sorties, and the books of every person, ordered by person key."""

    sorties: Sorties
    books: Mapping[str, Books]
