"""The kinds of fact that a unit records, column by column.

This one description serves the files (which columns, which values), the record (which fields are
digested, in which order) and the forms. Units: minutes whole; degrees true; ``wind_from`` is where
the wind comes from, ``set`` where the current goes to; ``wind``, ``speed``, ``drift`` in knots;
``sea`` a WMO sea state degree; lat and lon decimal degrees, north and east positive; metres;
kilograms.

``KINDS`` are the evidence, which comes in and goes out as files. ``KEPT`` stay in the record: who
holds which key, what happened, what is disputed, what the unit has decided. What a kind is, and
what a column, stands in ``kinds``; it is here too, since the two are one description.
"""

from typing import Final

from crewtrack.kinds import KEY_LENGTH as KEY_LENGTH
from crewtrack.kinds import LINE_LENGTH as LINE_LENGTH
from crewtrack.kinds import TEXT_LENGTH as TEXT_LENGTH
from crewtrack.kinds import Choice as Choice
from crewtrack.kinds import Choices as Choices
from crewtrack.kinds import Column as Column
from crewtrack.kinds import Day as Day
from crewtrack.kinds import InStandard as InStandard
from crewtrack.kinds import Instant as Instant
from crewtrack.kinds import Key as Key
from crewtrack.kinds import Kind as Kind
from crewtrack.kinds import Number as Number
from crewtrack.kinds import Reference as Reference
from crewtrack.kinds import Row as Row
from crewtrack.kinds import Text as Text
from crewtrack.kinds import Type as Type
from crewtrack.kinds import Value as Value
from crewtrack.kinds import Whole as Whole
from crewtrack.phrases import later

DUTIES: Final = ("pilot", "observer", "handler", "helm", "evaluator", "officer", "chief")
SETTINGS: Final = ("live", "drill")
WAYS: Final = ("moored", "anchored", "drifting", "under-way")
LIGHTS: Final = ("day", "twilight", "night")
LEVELS: Final = ("briefed", "supervised", "alone", "evaluator")
RESULTS: Final = ("passed", "not-yet", "failed")
STOOD: Final = ("with-handler", "apart")
RELIEFS: Final = ("waiver", "extension")
HARMS: Final = ("hurt", "damage")
OUTCOMES: Final = ("revised", "refused")


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
CERTIFICATIONS: Final = Kind(
    "certifications",
    later("certification"),
    ("signoff",),
    (
        Column("signoff", Reference("signoffs"), required=True),
        Column("date", Day(), required=True),
        Column("by", _PERSON, required=True),
        Column("remarks", _REMARKS),
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


KEYS: Final = Kind(
    "keys",
    later("key"),
    ("key",),
    (
        Column("key", Key(), required=True),
        Column("person", _PERSON, required=True),
        Column("public", Text(), required=True),
        Column("from", Day(), required=True),
    ),
)
OCCURRENCES: Final = Kind(
    "occurrences",
    later("occurrence"),
    ("occurrence",),
    (
        Column("occurrence", Key(), required=True),
        Column("happened", Instant(), required=True),
        Column("sortie", Reference("sorties")),
        Column("way", Choice(WAYS)),
        Column("sea", Whole(0, 9)),
        Column("what", _REMARKS, required=True),
        Column("harm", Choices(HARMS), default=()),
        Column("reported_by", _PERSON),
        Column("answer", _REMARKS),
        Column("answered_by", _PERSON),
        Column("answered", Day()),
    ),
)
DISPUTES: Final = Kind(
    "disputes",
    later("dispute"),
    ("dispute",),
    (
        Column("dispute", Key(), required=True),
        Column("kind", Text(KEY_LENGTH), required=True),
        Column("fact", Text(), required=True),
        Column("raised", Day(), required=True),
        Column("by", _PERSON, required=True),
        Column("words", _REMARKS, required=True),
        Column("outcome", Choice(OUTCOMES)),
        Column("answer", _REMARKS),
        Column("answered_by", _PERSON),
        Column("answered", Day()),
    ),
)
POLICIES: Final = Kind(
    "policies",
    later("policy"),
    ("policy",),
    (
        Column("policy", Key(), required=True),
        Column("value", Text(), required=True),
        Column("rule", _REMARKS),
    ),
)

KINDS: Final = (
    PEOPLE, ASSIGNMENTS, VESSELS, AIRCRAFT, SORTIES, PERFORMANCES, SIGNOFFS, CERTIFICATIONS,
    CERTIFICATES, WAIVERS, STANDDOWNS,
)  # fmt: skip
"""All kinds of evidence, each after the kinds it refers to."""

KEPT: Final = (KEYS, OCCURRENCES, DISPUTES, POLICIES)
"""What stays in the record."""

RECORDED: Final = (*KINDS, *KEPT)
"""All kinds of fact that a record holds, each after the kinds it refers to."""
