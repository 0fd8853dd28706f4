"""Evidence for the engine straight from rows, without a record: a second, plain way there."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

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
from crewtrack.facts import KINDS, LEVELS, LIGHTS, WAYS, Row

Told = dict[str, Any]


def evidence_from_rows(rows: Mapping[str, Sequence[Row]], zone: ZoneInfo) -> Evidence:
    """All rows by kind, as the engine takes them."""
    told: dict[str, list[Told]] = {
        kind.name: [dict(zip(kind.names, row, strict=True)) for row in rows.get(kind.name, ())]
        for kind in KINDS
    }
    flown = sorted(told["sorties"], key=lambda sortie: (sortie["launched"], sortie["sortie"]))
    places = {sortie["sortie"]: place for place, sortie in enumerate(flown)}
    books = {
        one["person"]: _books(one, told, places)
        for one in sorted(told["people"], key=lambda one: str(one["person"]))
    }
    return Evidence(_sorties(flown, told, zone), books)


def _sorties(flown: list[Told], told: Mapping[str, list[Told]], zone: ZoneInfo) -> Sorties:
    vessels = {one["vessel"]: one["kind"] for one in told["vessels"]}
    aircraft = {one["aircraft"]: one["kind"] for one in told["aircraft"]}
    same = ("lat", "lon", "wind_from", "wind", "heading", "speed", "set", "drift", "minutes")
    return Sorties(
        key=[one["sortie"] for one in flown],
        day=[_local(one["launched"], zone) for one in flown],
        launched=[int(one["launched"].timestamp()) for one in flown],
        drill=[one["setting"] == "drill" for one in flown],
        vessel=[vessels.get(one["vessel"]) for one in flown],
        aircraft=[aircraft.get(one["aircraft"]) for one in flown],
        way=[_place(one["way"], WAYS) for one in flown],
        sea=[NOT_RECORDED if one["sea"] is None else one["sea"] for one in flown],
        light=[_place(one["light"], LIGHTS) for one in flown],
        **{name: [one[name] for one in flown] for name in same},
    )


def _local(instant: datetime, zone: ZoneInfo) -> int:
    return instant.astimezone(zone).date().toordinal()


def _place(word: str | None, words: tuple[str, ...]) -> int:
    return NOT_RECORDED if word is None else words.index(word)


def _books(one: Told, told: Mapping[str, list[Told]], places: Mapping[str, int]) -> Books:
    def own(kind: str) -> list[Told]:
        return [row for row in told[kind] if row["person"] == one["person"]]

    person = Person(
        one["person"],
        one["name"],
        _day(one["joined"]),
        _day(one["left"]),
        one["born"],
        one["duties"],
    )
    return Books(
        person,
        tuple(
            Assignment(row["qualification"], _sure(row["from"]), _last(row["through"]))
            for row in own("assignments")
        ),
        _performances(person.key, told["performances"], places),
        tuple(_signoff(row, places, told["certifications"]) for row in own("signoffs")),
        tuple(
            Certificate(
                row["certificate"],
                row["kind"],
                _sure(row["issued"]),
                _day(row["expires"]),
                _day(row["revoked"]),
            )
            for row in own("certificates")
        ),
        tuple(
            Waiver(
                row["waiver"],
                row["qualification"],
                row["requirement"],
                _sure(row["from"]),
                _sure(row["through"]),
                row["kind"],
                row["reason"],
                row["by"],
            )
            for row in own("waivers")
        ),
        tuple(
            StandDown(
                row["standdown"],
                row["qualification"],
                _sure(row["from"]),
                _last(row["through"]),
                row["reason"],
                row["by"],
            )
            for row in own("standdowns")
        ),
    )


def _signoff(row: Told, places: Mapping[str, int], certified: list[Told]) -> SignOff:
    second = next((one for one in certified if one["signoff"] == row["signoff"]), None)
    return SignOff(
        row["signoff"],
        row["task"],
        _sure(row["date"]),
        LEVELS.index(row["level"]),
        row["result"],
        row["evaluator"],
        places[row["sortie"]] if row["sortie"] else None,
        _day(row["withdrawn"]),
        _day(second["date"]) if second else None,
        second["by"] if second else None,
    )


def _performances(
    person: str, told: Sequence[Told], places: Mapping[str, int]
) -> dict[str, Performances]:
    columns: dict[str, list[tuple[int, int, int, str | None]]] = {}
    for order, row in enumerate(told):
        if row["person"] == person:
            done = (places[row["sortie"]], order, row["times"], row["supervisor"])
            columns.setdefault(row["task"], []).append(done)
    found = {}
    for task, rows in columns.items():
        rows.sort(key=lambda done: done[:2])
        found[task] = Performances(
            [r[0] for r in rows], [r[1] for r in rows], [r[2] for r in rows], [r[3] for r in rows]
        )
    return found


def _day(day: date | None) -> int | None:
    return None if day is None else day.toordinal()


def _sure(day: date) -> int:
    return day.toordinal()


def _last(day: date | None) -> int:
    return FOREVER if day is None else day.toordinal()
