"""The unit's standard, from its TOML file.

``read_standard`` refuses a file with all of its faults at once, in the order of the file, each with
its line, its key path and what would be right.
"""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from pkgutil import get_data
from typing import Final, TypeVar

from crewtrack.engine.days import Duration
from crewtrack.engine.standard import (
    DARKS,
    MOMENTS,
    Crew,
    Position,
    Qualification,
    Seat,
    Standard,
    Task,
)
from crewtrack.errors import Fault, Refused
from crewtrack.facts import DUTIES
from crewtrack.files.fault_list import MOST_FAULTS, FaultList, TooMany, did_you_mean, told
from crewtrack.files.given_table import GivenTable
from crewtrack.files.known_keys import TOP, refuse_unknown
from crewtrack.files.requirement_reader import Names, RequirementReader
from crewtrack.files.standard_loops import Loop, find_loops
from crewtrack.files.standard_text import parse, read_text
from crewtrack.phrases import phrase

NOTICE: Final = Duration(days=30)
WAIVER_LIMIT: Final = Duration(days=180)

_TASK: Final = ("title", "duty", "moment", "needs", "evaluator", "criteria", "certified_by")
_LONGEST_CRITERION: Final = 500
_MOST: Final = 999
_TOLD: Final = 20
_REQUIRED: Final = {
    "edition": 'edition = "2026-1"',
    "effective": "effective = 2026-01-01",
    "zone": 'zone = "America/Detroit"',
}
# The edition's name becomes part of a file's name, on any system.
_NOT_IN_FILE_NAMES: Final = '/\\:*?"<>|'

Read = TypeVar("Read")


def read_standard_file(path: Path) -> tuple[str, Standard]:
    """The text of the file, as it is to be recorded, and what it says."""
    text = read_text(path)
    return text, read_standard(text, path.name)


def read_standard(text: str, place: str) -> Standard:
    """The standard that a TOML text writes; ``place`` names it in faults (Refused)."""
    values = parse(text, place)
    faults = FaultList(place, text)
    try:
        standard = _StandardReader(GivenTable(values, (), faults)).read()
    except TooMany:
        raise Refused(*faults.in_order(), _stopped(place)) from None
    if standard is None or faults:
        raise Refused(*faults.in_order())
    return standard


def _stopped(place: str) -> Fault:
    return Fault(
        place,
        "",
        phrase("reading stopped at {count} faults", count=f"{MOST_FAULTS:,}"),
        phrase("mend those that are listed, and read the file again"),
    )


class _StandardReader:
    def __init__(self, top: GivenTable) -> None:
        self._top = top
        self._tasks = top.names("tasks")
        self._qualifications = top.names("qualifications")
        self._holds: dict[str, list[tuple[str, GivenTable]]] = {}

    def read(self) -> Standard | None:
        """The standard; None where it lacks what a standard can't be without."""
        top = self._top
        refuse_unknown(top, TOP)
        for key, example in _REQUIRED.items():
            if key not in top:
                top.fault(
                    key,
                    phrase("it is missing"),
                    phrase("add it at the top, such as {example}", example=example),
                )
        edition, effective, zone = _edition(top), top.day("effective"), _zone(top)
        title = top.text("title") or edition or ""
        unit = top.text("unit") or title
        position, notice, dark = _position(top), top.duration("notice"), top.choice("dark", DARKS)
        limit = top.duration("waiver_limit")
        tasks = _each(top, "tasks", self._task)
        qualifications = _each(top, "qualifications", self._qualification)
        crews = _each(top, "crews", self._crew)
        self._refuse_loops()
        if edition is None or effective is None or zone is None:
            return None
        return Standard(
            title=title,
            unit=unit,
            edition=edition,
            effective=effective,
            zone=zone,
            position=position,
            notice=notice or NOTICE,
            dark=dark or "civil",
            waiver_limit=limit or WAIVER_LIMIT,
            tasks=tasks,
            qualifications=qualifications,
            crews=crews,
        )

    def _task(self, key: str, table: GivenTable) -> Task:
        refuse_unknown(table, _TASK)
        return Task(
            key,
            table.text("title") or in_words(key),
            table.choice("duty", DUTIES),
            table.choice("moment", MOMENTS) or "launch",
            table.name("needs", "qualification", self._qualifications),
            table.name("evaluator", "qualification", self._qualifications),
            table.texts("criteria", _LONGEST_CRITERION),
            table.choice("certified_by", DUTIES),
        )

    def _qualification(self, key: str, table: GivenTable) -> Qualification:
        refuse_unknown(table, ("title", "duty", "minimum", "needs"))
        reader = RequirementReader(Names(self._tasks, self._qualifications))
        if "needs" not in table:
            cure = phrase("add needs = [ { … } ] with at least one requirement")
            table.fault("needs", phrase("it is missing"), cure)
        needs = reader.needs(table)
        self._holds[key] = reader.holds
        return Qualification(
            key,
            table.text("title") or in_words(key),
            table.choice("duty", DUTIES),
            table.whole("minimum", 0, _MOST) or 0,
            needs,
        )

    def _crew(self, key: str, table: GivenTable) -> Crew:
        refuse_unknown(table, ("title", "minimum", "seats"))
        if "seats" not in table:
            cure = phrase('add seats = [ { seat = "pilot", holds = "…" } ]')
            table.fault("seats", phrase("it is missing"), cure)
        return Crew(
            key,
            table.text("title") or in_words(key),
            table.whole("minimum", 0, _MOST) or 0,
            tuple(self._seat(inside) for inside in table.tables("seats")),
        )

    def _seat(self, table: GivenTable) -> Seat:
        refuse_unknown(table, ("seat", "holds"))
        for key in ("seat", "holds"):
            if key not in table:
                table.fault(key, phrase("it is missing"), phrase('add {key} = "…"', key=key))
        held = table.name("holds", "qualification", self._qualifications)
        return Seat(table.key("seat") or "", held or "")

    def _refuse_loops(self) -> None:
        graph = {key: [held for held, _ in holds] for key, holds in self._holds.items()}
        for loop in find_loops(graph):
            last, again = loop[-2:]
            table = next(table for held, table in self._holds[last] if held == again)
            problem = phrase("a loop: {names}", names=" → ".join(_short(loop)))
            table.fault(
                "holds", problem, phrase("a qualification can't rest on itself; cut the loop")
            )


def _short(loop: Loop) -> Loop:
    """A loop as it is told: of a long one only both ends."""
    return loop if len(loop) <= 2 * _TOLD else (*loop[:_TOLD], "…", *loop[-_TOLD:])


def in_words(key: str) -> str:
    """What a key is called where no title is written: ``hand-recovery`` is "Hand recovery"."""
    words = key.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


def _each(top: GivenTable, key: str, read: Callable[[str, GivenTable], Read]) -> Mapping[str, Read]:
    table = top.table(key)
    if table is None:
        return {}
    return {name: read(name, inside) for name, inside in table.named_tables()}


def _edition(top: GivenTable) -> str | None:
    edition = top.key("edition")
    if edition is not None and any(one in _NOT_IN_FILE_NAMES for one in edition):
        cure = phrase(
            "leave out {names}: it becomes part of a file's name",
            names=" ".join(_NOT_IN_FILE_NAMES),
        )
        top.fault("edition", phrase("{edition} can't be an edition", edition=told(edition)), cure)
    return edition


def _zone(top: GivenTable) -> str | None:
    zone = top.text("zone")
    if zone is None or zone in _zones():
        return zone
    cure = did_you_mean(zone, _zones()) or phrase(
        "write one such as America/Detroit or Europe/Lisbon"
    )
    top.fault("zone", phrase("there is no time zone {zone}", zone=told(zone)), cure)
    return None


@cache
def _zones() -> tuple[str, ...]:
    """All zones of the pinned time zone data, so that no machine's own copy decides."""
    return tuple((get_data("tzdata", "zones") or b"").decode("utf-8").split())


def _position(top: GivenTable) -> Position | None:
    table = top.table("position")
    if table is None:
        return None
    refuse_unknown(table, ("lat", "lon"))
    for key, example in {"lat": "47.12", "lon": "-88.57"}.items():
        if key not in table:
            table.fault(
                key,
                phrase("it is missing"),
                phrase("add it in degrees, such as {key} = {example}", key=key, example=example),
            )
    lat, lon = table.number("lat", -90, 90), table.number("lon", -180, 180)
    return None if lat is None or lon is None else Position(lat, lon)
