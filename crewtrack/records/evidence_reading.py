"""The evidence of a record, built for the engine: columns for sorties and performances.

All rows of a kind are fetched at once and turned into columns; nothing here makes an object per
performance.
"""

from array import array
from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from operator import itemgetter
from typing import Any, Final
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import (
    NOT_RECORDED,
    Assignment,
    Books,
    Certificate,
    Evidence,
    Performances,
    Person,
    SignOff,
    Sorties,
    StandDown,
    Waiver,
)
from crewtrack.facts import Kind
from crewtrack.records.collecting import no_collection
from crewtrack.records.damage import NotAsRecorded, as_recorded
from crewtrack.records.evidence_source import Source
from crewtrack.records.local_days import local_days

_SORTIE: Final = (
    "entry, CAST(strftime('%s',launched) AS INTEGER), sortie, minutes, setting, vessel_id,"
    ' aircraft_id, lat, lon, way, sea, wind_from, wind, heading, speed, "set", drift, light'
)
_PACK: Final = 1000
"""More than ``times`` can be."""
_WAYS: Final[dict[str | None, int]] = {
    None: NOT_RECORDED,
    **{word: i for i, word in enumerate(facts.WAYS)},
}
_LIGHTS: Final[dict[str | None, int]] = {
    None: NOT_RECORDED,
    **{word: i for i, word in enumerate(facts.LIGHTS)},
}

ByPerson = dict[int, list[Any]]


def evidence(connection: Connection, zone: ZoneInfo, through: int) -> Evidence:
    """Everything known through an act, with days as they are in ``zone``."""
    with no_collection():
        return evidence_from(Source.of(connection, through), zone)


def evidence_from(source: Source, zone: ZoneInfo) -> Evidence:
    """What a source holds, with days as they are in ``zone``."""
    with no_collection():
        with as_recorded(facts.SORTIES.name):
            sorties, index = _sorties(source, zone)
        people = source.rows(facts.PEOPLE, 'entry, person, name, joined, "left", born, duties')
        keys = {row[0]: row[1] for row in people}
        with as_recorded(facts.PERFORMANCES.name):
            performances = _performances(source, index, keys)
        shelves = _Shelves(
            _grouped(source, facts.ASSIGNMENTS, _ASSIGNMENT, _assignment),
            _grouped(source, facts.SIGNOFFS, _SIGNOFF, _signoff_with(source, index, keys)),
            _grouped(source, facts.CERTIFICATES, _CERTIFICATE, _certificate),
            _grouped(source, facts.WAIVERS, _WAIVER, _waiver),
            _grouped(source, facts.STANDDOWNS, _STANDDOWN, _standdown),
        )
        _check_owners(keys, performances, shelves)
        with as_recorded(facts.PEOPLE.name):
            books = {
                row[1]: shelves.books(row, performances.get(row[0], {}))
                for row in sorted(people, key=itemgetter(1))
            }
    return Evidence(sorties, books)


def _sorties(source: Source, zone: ZoneInfo) -> tuple[Sorties, dict[int, int]]:
    """The sorties in the order in which they happened, and the index of each entry."""
    rows = source.rows(facts.SORTIES, _SORTIE)
    if not rows:
        return Sorties(), {}
    rows.sort(key=itemgetter(1, 2))
    days = local_days([row[1] for row in rows], zone)
    rows = [row for _, row in sorted(zip(days, rows, strict=True), key=itemgetter(0))]
    (entry, launched, key, minutes, setting, vessel, aircraft, lat, lon, way, sea,
     wind_from, wind, heading, speed, set_, drift, light) = zip(*rows, strict=True)  # fmt: skip
    sorties = Sorties(
        key=key,
        day=sorted(days),
        launched=launched,
        minutes=minutes,
        drill=[word == "drill" for word in setting],
        vessel=list(map(source.craft(facts.VESSELS).__getitem__, vessel)),
        aircraft=list(map(source.craft(facts.AIRCRAFT).__getitem__, aircraft)),
        lat=lat, lon=lon, wind_from=wind_from, wind=wind, heading=heading, speed=speed, set=set_,
        drift=drift,
        way=list(map(_WAYS.__getitem__, way)),
        sea=[NOT_RECORDED if degree is None else degree for degree in sea],
        light=list(map(_LIGHTS.__getitem__, light)),
    )  # fmt: skip
    return sorties, dict(zip(entry, range(len(entry)), strict=True))


def _performances(
    source: Source, index: Mapping[int, int], keys: Mapping[int, str]
) -> dict[int, dict[str, Performances]]:
    """By the person's entry and the task."""
    # How many times goes with the sortie in one number: each column costs its time.
    packed = f"sortie_id * {_PACK} + times"
    columns = (packed, "coalesce(supervisor_id, 0)", "person_id", "task")
    named = ("sortie_id", "person_id", "supervisor_id")
    flown, by, person, task = source.columns(facts.PERFORMANCES, columns, named)
    # Arrays lie close together: with lists, the memory's latency would be most of the work.
    sortie = array("q", [index[number // _PACK] for number in flown])
    times, supervisor = array("h", [number % _PACK for number in flown]), array("q", by)
    if 0 in times:  # what is no number counts as 0
        raise NotAsRecorded("performances, times")
    places: defaultdict[tuple[int, str], array[int]] = defaultdict(_no_places)
    for place, pair in enumerate(zip(person, task, strict=True)):
        places[pair].append(place)
    found: defaultdict[int, dict[str, Performances]] = defaultdict(dict)
    names = {0: None, **keys}
    for (who, what), unsorted in places.items():
        # Stable, so those of one sortie stay in the order of entry.
        order = sorted(unsorted, key=sortie.__getitem__)
        found[who][what] = Performances(
            [sortie[place] for place in order],
            order,
            [times[place] for place in order],
            [names[supervisor[place]] for place in order],
        )
    return found


def _no_places() -> "array[int]":
    return array("q")


@dataclass(frozen=True, slots=True)
class _Shelves:
    """What goes into people's books, by the person's entry, each in the order of entry."""

    assignments: ByPerson
    signoffs: ByPerson
    certificates: ByPerson
    waivers: ByPerson
    standdowns: ByPerson

    def books(self, person: Any, performances: Mapping[str, Performances]) -> Books:
        """One person's books, from the row of the person."""
        entry, key, name, joined, left, born, duties = person
        return Books(
            Person(
                key, name, _day(joined), _day(left),
                date.fromisoformat(born) if born else None,
                tuple(duties.split(";")) if duties else (),
            ),
            tuple(self.assignments.get(entry, ())),
            performances,
            tuple(self.signoffs.get(entry, ())),
            tuple(self.certificates.get(entry, ())),
            tuple(self.waivers.get(entry, ())),
            tuple(self.standdowns.get(entry, ())),
        )  # fmt: skip


def _check_owners(
    people: Mapping[int, str], performances: Mapping[int, Any], shelves: _Shelves
) -> None:
    """NotAsRecorded where something would be in nobody's books."""
    for kind, by_person in (
        (facts.PERFORMANCES, performances),
        (facts.ASSIGNMENTS, shelves.assignments),
        (facts.SIGNOFFS, shelves.signoffs),
        (facts.CERTIFICATES, shelves.certificates),
        (facts.WAIVERS, shelves.waivers),
        (facts.STANDDOWNS, shelves.standdowns),
    ):
        if not by_person.keys() <= people.keys():
            raise NotAsRecorded(f"{kind.name}, person")


def _grouped(source: Source, kind: Kind, columns: str, make: Callable[..., Any]) -> ByPerson:
    """What ``make`` makes of each row, by the person's entry, the second of the columns."""
    found: ByPerson = {}
    with as_recorded(kind.name):
        for _entry, person, *values in source.rows(kind, columns):
            found.setdefault(person, []).append(make(*values))
    return found


def _day(text: str | None) -> int | None:
    return None if text is None else date.fromisoformat(text).toordinal()


def _first(text: str) -> int:
    return date.fromisoformat(text).toordinal()


def _last(text: str | None) -> int:
    return FOREVER if text is None else date.fromisoformat(text).toordinal()


_ASSIGNMENT: Final = 'entry, person_id, qualification, "from", through'


def _assignment(qualification: str, first: str, last: str | None) -> Assignment:
    return Assignment(qualification, _first(first), _last(last))


_SIGNOFF: Final = (
    "entry, person_id, entry, signoff, task, date, level, result, evaluator_id, sortie_id,"
    " withdrawn"
)


def _signoff_with(
    source: Source, index: Mapping[int, int], keys: Mapping[int, str]
) -> Callable[..., SignOff]:
    certified = _certified(source, keys)

    def signoff(*values: Any) -> SignOff:
        entry, key, task, day, level, result, evaluator, sortie, withdrawn = values
        at = None if sortie is None else index[sortie]
        rank = facts.LEVELS.index(level)
        by, second = keys[evaluator], certified.get(entry, (None, None))
        return SignOff(key, task, _first(day), rank, result, by, at, _day(withdrawn), *second)

    return signoff


def _certified(source: Source, keys: Mapping[int, str]) -> dict[int, tuple[int, str]]:
    """The second signatures: their day and whose they are, by the entry of the sign-off."""
    with as_recorded(facts.CERTIFICATIONS.name):
        rows = source.rows(facts.CERTIFICATIONS, "entry, signoff_id, date, by_id")
        return {signoff: (_first(day), keys[by]) for _, signoff, day, by in rows}


_CERTIFICATE: Final = "entry, person_id, certificate, kind, issued, expires, revoked"


def _certificate(*values: Any) -> Certificate:
    key, kind, issued, expires, revoked = values
    return Certificate(key, kind, _first(issued), _day(expires), _day(revoked))


_WAIVER: Final = (
    'entry, person_id, waiver, qualification, requirement, "from", through, kind, reason, "by"'
)


def _waiver(*values: Any) -> Waiver:
    key, qualification, requirement, first, last, *rest = values
    return Waiver(key, qualification, requirement, _first(first), _last(last), *rest)


_STANDDOWN: Final = 'entry, person_id, standdown, qualification, "from", through, reason, "by"'


def _standdown(*values: Any) -> StandDown:
    key, qualification, first, last, reason, by = values
    return StandDown(key, qualification, _first(first), _last(last), reason, by)
