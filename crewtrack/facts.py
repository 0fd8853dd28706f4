"""The kinds of fact that a unit records, column by column.

This one description serves the files (which columns, which values), the record (which fields are
digested, in which order) and the forms. Units: minutes whole; degrees true; ``wind_from`` is where
the wind comes from, ``set`` where the current goes to; ``wind``, ``speed``, ``drift`` in knots;
``sea`` a WMO sea state degree; lat and lon decimal degrees, north and east positive; metres;
kilograms.

A fact travels as a *row*: a tuple of values in the order of its kind's columns, ``None`` where
nothing was recorded. Values are ``str``, ``int``, ``float``, ``date``, an aware ``datetime`` with
the offset it was entered in, or a tuple of ``str`` for ``Choices``.
"""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

from crewtrack.phrases import later

KEY_LENGTH: Final = 40
LINE_LENGTH: Final = 200
TEXT_LENGTH: Final = 10_000

DUTIES: Final = ("pilot", "observer", "handler", "helm", "evaluator", "officer", "chief")
SETTINGS: Final = ("live", "drill")
WAYS: Final = ("moored", "anchored", "drifting", "under-way")
LIGHTS: Final = ("day", "twilight", "night")
LEVELS: Final = ("briefed", "supervised", "alone", "evaluator")
RESULTS: Final = ("passed", "not-yet", "failed")
STOOD: Final = ("with-handler", "apart")
RELIEFS: Final = ("waiver", "extension")

Value = str | int | float | date | datetime | tuple[str, ...] | None
Row = tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Text:
    """Free text of at most ``longest`` characters; ``lines`` allows line breaks."""

    longest: int = LINE_LENGTH
    lines: bool = False


@dataclass(frozen=True, slots=True)
class Key:
    """The unit's own key: text without control characters, 1 to 40 characters."""


@dataclass(frozen=True, slots=True)
class Reference:
    """The key of a fact of another kind (``people``, ``sorties``, …)."""

    kind: str


@dataclass(frozen=True, slots=True)
class InStandard:
    """A name that some edition of the standard defines: ``tasks``, ``qualifications`` or
    ``requirements`` (an id written in the standard)."""

    table: str


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar date, ISO 8601."""


@dataclass(frozen=True, slots=True)
class Instant:
    """A point in time, ISO 8601, with the offset it was entered in."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number from ``least`` to ``most``, both included."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Number:
    """A decimal number from ``least`` to ``most``, both included."""

    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words."""

    options: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choices:
    """Any of a few words, ``;`` between them in a file."""

    options: tuple[str, ...]


Type = Text | Key | Reference | InStandard | Day | Instant | Whole | Number | Choice | Choices


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a kind. ``default`` stands where a file leaves the cell empty."""

    name: str
    type: Type
    required: bool = False
    default: Value = None


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of fact. ``name`` names the file (``people.csv``), the sheet and the table;
    ``one`` is the word for a single one; ``key`` the columns that tell two apart."""

    name: str
    one: str
    key: tuple[str, ...]
    columns: tuple[Column, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The columns' names, in order."""
        return tuple(column.name for column in self.columns)

    def index(self, name: str) -> int:
        """The position of a column in a row."""
        return self.names.index(name)


_DEGREES = Number(0, 360)
_REMARKS = Text(TEXT_LENGTH, lines=True)
_PERSON = Reference("people")
_REASON = Column("reason", _REMARKS, required=True)

PEOPLE: Final = Kind(
    "people",
    later("person"),
    ("person",),
    (
        Column("person", Key(), required=True),
        Column("name", Text(), required=True),
        Column("joined", Day()),
        Column("left", Day()),
        Column("born", Day()),
        Column("email", Text()),
        Column("duties", Choices(DUTIES), default=()),
    ),
)
ASSIGNMENTS: Final = Kind(
    "assignments",
    later("assignment"),
    ("person", "qualification", "from"),
    (
        Column("person", _PERSON, required=True),
        Column("qualification", InStandard("qualifications"), required=True),
        Column("from", Day(), required=True),
        Column("through", Day()),
    ),
)
VESSELS: Final = Kind(
    "vessels",
    later("vessel"),
    ("vessel",),
    (
        Column("vessel", Key(), required=True),
        Column("name", Text(), required=True),
        Column("kind", Text(KEY_LENGTH)),
        Column("length_m", Number(0.1, 500)),
    ),
)
AIRCRAFT: Final = Kind(
    "aircraft",
    later("aircraft"),
    ("aircraft",),
    (
        Column("aircraft", Key(), required=True),
        Column("name", Text(), required=True),
        Column("kind", Text(KEY_LENGTH)),
        Column("mass_kg", Number(0.001, 5000)),
    ),
)
SORTIES: Final = Kind(
    "sorties",
    later("sortie"),
    ("sortie",),
    (
        Column("sortie", Key(), required=True),
        Column("launched", Instant(), required=True),
        Column("minutes", Whole(0, 1440), required=True),
        Column("setting", Choice(SETTINGS), required=True),
        Column("vessel", Reference("vessels")),
        Column("aircraft", Reference("aircraft")),
        Column("lat", Number(-90, 90)),
        Column("lon", Number(-180, 180)),
        Column("way", Choice(WAYS)),
        Column("sea", Whole(0, 9)),
        Column("wind_from", _DEGREES),
        Column("wind", Number(0, 200)),
        Column("heading", _DEGREES),
        Column("speed", Number(0, 100)),
        Column("set", _DEGREES),
        Column("drift", Number(0, 30)),
        Column("light", Choice(LIGHTS)),
        Column("light_reason", _REMARKS),
        Column("purpose", Text()),
        Column("remarks", _REMARKS),
    ),
)
PERFORMANCES: Final = Kind(
    "performances",
    later("performance"),
    ("sortie", "person", "task"),
    (
        Column("sortie", Reference("sorties"), required=True),
        Column("person", _PERSON, required=True),
        Column("task", InStandard("tasks"), required=True),
        Column("times", Whole(1, 999), default=1),
        Column("supervisor", _PERSON),
        Column("attempts", Whole(1, 999)),
        Column("waveoffs", Whole(0, 999)),
        Column("stood", Choice(STOOD)),
    ),
)
SIGNOFFS: Final = Kind(
    "signoffs",
    later("sign-off"),
    ("signoff",),
    (
        Column("signoff", Key(), required=True),
        Column("person", _PERSON, required=True),
        Column("task", InStandard("tasks"), required=True),
        Column("date", Day(), required=True),
        Column("level", Choice(LEVELS), required=True),
        Column("result", Choice(RESULTS), required=True),
        Column("evaluator", _PERSON, required=True),
        Column("sortie", Reference("sorties")),
        Column("remarks", _REMARKS),
        Column("withdrawn", Day()),
        Column("withdrawn_by", Text()),
        Column("withdrawn_reason", _REMARKS),
    ),
)
CERTIFICATES: Final = Kind(
    "certificates",
    later("certificate"),
    ("certificate",),
    (
        Column("certificate", Key(), required=True),
        Column("person", _PERSON, required=True),
        Column("kind", Text(KEY_LENGTH), required=True),
        Column("issued", Day(), required=True),
        Column("expires", Day()),
        Column("revoked", Day()),
        Column("number", Text()),
    ),
)
WAIVERS: Final = Kind(
    "waivers",
    later("waiver"),
    ("waiver",),
    (
        Column("waiver", Key(), required=True),
        Column("person", _PERSON, required=True),
        Column("qualification", InStandard("qualifications"), required=True),
        Column("requirement", InStandard("requirements"), required=True),
        Column("from", Day(), required=True),
        Column("through", Day(), required=True),
        _REASON,
        Column("by", Text(), required=True),
        Column("kind", Choice(RELIEFS), default="waiver"),
    ),
)
STANDDOWNS: Final = Kind(
    "standdowns",
    later("stand-down"),
    ("standdown",),
    (
        Column("standdown", Key(), required=True),
        Column("person", _PERSON, required=True),
        Column("qualification", InStandard("qualifications")),
        Column("from", Day(), required=True),
        Column("through", Day()),
        _REASON,
        Column("by", Text(), required=True),
    ),
)

KINDS: Final = (
    PEOPLE, ASSIGNMENTS, VESSELS, AIRCRAFT, SORTIES, PERFORMANCES, SIGNOFFS, CERTIFICATES, WAIVERS,
    STANDDOWNS,
)  # fmt: skip
"""All kinds, each after the kinds it refers to."""
