"""The words beside every field that a person fills in: its label, its unit, what it looks like."""

from collections.abc import Mapping
from typing import Final

from crewtrack.facts import Choice, Choices, Column, Day, Instant, Kind
from crewtrack.screens.language import later, say

_LABELS: Final[Mapping[str, str]] = later(
    {
        "person": "Person",
        "name": "Name",
        "joined": "Joined",
        "left": "Left",
        "born": "Born",
        "email": "E-mail",
        "duties": "Duties",
        "qualification": "Qualification",
        "from": "From",
        "through": "Through",
        "vessel": "Boat",
        "kind": "Kind",
        "length_m": "Length",
        "aircraft": "Aircraft",
        "mass_kg": "Mass",
        "sortie": "Sortie",
        "launched": "Launched",
        "minutes": "Flight time",
        "setting": "Setting",
        "lat": "Latitude",
        "lon": "Longitude",
        "way": "Way",
        "sea": "Sea state",
        "wind_from": "Wind from",
        "wind": "Wind",
        "heading": "Heading",
        "speed": "Speed",
        "set": "Set",
        "drift": "Drift",
        "light": "Light stated",
        "light_reason": "Why it is stated",
        "purpose": "Purpose",
        "remarks": "Remarks",
        "task": "Task",
        "times": "Times",
        "supervisor": "Supervisor",
        "attempts": "Attempts",
        "waveoffs": "Wave-offs",
        "stood": "Stood",
        "signoff": "Sign-off",
        "date": "Date",
        "level": "Level",
        "result": "Result",
        "evaluator": "Evaluator",
        "withdrawn": "Withdrawn on",
        "withdrawn_by": "Withdrawn by",
        "withdrawn_reason": "Why withdrawn",
        "certificate": "Certificate",
        "issued": "Issued",
        "expires": "Expires",
        "revoked": "Revoked",
        "number": "Number",
        "waiver": "Waiver",
        "requirement": "Requirement",
        "reason": "Reason",
        "by": "By",
        "standdown": "Stand-down",
        "key": "Key",
        "public": "Public half",
        "occurrence": "Occurrence",
        "happened": "Happened",
        "what": "What happened",
        "harm": "Hurt or damage",
        "reported_by": "Reported by",
        "dispute": "Dispute",
        "fact": "Entry",
        "raised": "Raised",
        "words": "Why it is disputed",
        "outcome": "Outcome",
        "answer": "Answer",
        "answered_by": "Answered by",
        "answered": "Answered on",
        "policy": "Policy",
        "value": "Value",
        "rule": "Rule it follows",
    }
)
_OWN_KEY: Final = later("Key")
_UNITS: Final[Mapping[str, str]] = later(
    {
        "minutes": "min",
        "lat": "° N",
        "lon": "° E",
        "wind_from": "° true",
        "wind": "kn",
        "heading": "° true",
        "speed": "kn",
        "set": "° true",
        "drift": "kn",
        "length_m": "m",
        "mass_kg": "kg",
    }
)
_CHOICES: Final[Mapping[str, str]] = later(
    {
        "pilot": "pilot",
        "observer": "observer",
        "handler": "handler",
        "helm": "helm",
        "evaluator": "evaluator",
        "officer": "officer",
        "chief": "chief",
        "live": "live, from a boat",
        "drill": "drill, from a dock or land",
        "moored": "moored",
        "anchored": "anchored",
        "drifting": "drifting",
        "under-way": "under way",
        "day": "day",
        "twilight": "twilight",
        "night": "night",
        "briefed": "briefed",
        "supervised": "supervised",
        "alone": "alone",
        "passed": "passed",
        "not-yet": "not yet",
        "failed": "failed",
        "with-handler": "with the handler",
        "apart": "apart",
        "waiver": "waiver",
        "extension": "extension",
        "hurt": "somebody hurt",
        "damage": "damage",
        "revised": "revised",
        "refused": "refused",
    }
)
_KINDS: Final[Mapping[str, str]] = later(
    {
        "people": "People",
        "assignments": "Assignments",
        "vessels": "Boats",
        "aircraft": "Aircraft",
        "sorties": "Sorties",
        "performances": "Performances",
        "signoffs": "Sign-offs",
        "certifications": "Certifications",
        "certificates": "Certificates",
        "waivers": "Waivers and extensions",
        "standdowns": "Stand-downs",
        "keys": "Keys",
        "occurrences": "Occurrences",
        "disputes": "Disputes",
        "policies": "Policies",
    }
)
_ONE: Final[Mapping[str, str]] = later(
    {
        "people": "Person",
        "assignments": "Assignment",
        "vessels": "Boat",
        "aircraft": "Aircraft",
        "sorties": "Sortie",
        "performances": "Performance",
        "signoffs": "Sign-off",
        "certifications": "Certification",
        "certificates": "Certificate",
        "waivers": "Waiver or extension",
        "standdowns": "Stand-down",
        "keys": "Key",
        "occurrences": "Occurrence",
        "disputes": "Dispute",
        "policies": "Policy",
    }
)


def label(kind: Kind, name: str) -> str:
    """What stands before a field."""
    own = kind.key == (name,)
    return say(_OWN_KEY) if own else say(_LABELS[name])


def unit(name: str) -> str:
    """What stands after a field; empty where it has no unit."""
    return say(_UNITS[name]) if name in _UNITS else ""


def hint(column: Column) -> str:
    """What an entry looks like, in an empty field."""
    match column.type:
        case Day():
            return "2026-11-25"
        case Instant():
            return "2026-11-25T06:40"
        case _:
            return ""


def choice_told(option: str) -> str:
    """One of a few words, as a person reads it."""
    return say(_CHOICES[option])


def options(column: Column) -> tuple[str, ...]:
    """The words that a column takes; empty where it takes others."""
    return column.type.options if isinstance(column.type, Choice | Choices) else ()


def kind_told(name: str) -> str:
    """A kind of fact, many: ``Sign-offs``."""
    return say(_KINDS[name])


def one_told(name: str) -> str:
    """A kind of fact, one: ``Sign-off``."""
    return say(_ONE[name])
