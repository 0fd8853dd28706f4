"""What stands in the record and yet is open to some only: what occurrences say."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.facts import OCCURRENCES, Kind
from crewtrack.office.able import duties_of, identified, lacking, nobody_signed_in
from crewtrack.office.duties import DEEDS
from crewtrack.office.office import Office
from crewtrack.records.reading import Reading

_CLOSED: Final[Mapping[str, str]] = MappingProxyType({OCCURRENCES.name: "read-occurrences"})
"""The deed that it takes to read a kind of fact; all others are open to everybody."""


def may_be_closed(kind: Kind) -> bool:
    """Whether facts of a kind are open to some only, on a record where people sign in."""
    return kind.name in _CLOSED


def closed(office: Office, reading: Reading, kind: Kind) -> Fault | None:
    """Why whoever is signed in may not read facts of a kind, with who may; None where they may.
    Where nobody is identified, everybody may read everything."""
    if not may_be_closed(kind) or not identified(reading):
        return None
    if office.session is None:
        return nobody_signed_in()
    deed = DEEDS[_CLOSED[kind.name]]
    held = duties_of(reading, office.session.person) or frozenset()
    return None if held.intersection(deed.duties) else lacking(reading, deed.told, deed.duties, "")


def check_open(office: Office, reading: Reading, kind: Kind) -> None:
    """Refused where whoever is signed in may not read facts of a kind."""
    fault = closed(office, reading, kind)
    if fault is not None:
        raise Refused(fault)
