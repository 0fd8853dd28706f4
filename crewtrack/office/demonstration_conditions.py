"""The conditions of one demonstration sortie: boat, aircraft, way, wind, sea, current, place."""

from dataclasses import dataclass
from random import Random
from typing import Final

from crewtrack.office.demonstration_calendar import TrainingDay
from crewtrack.office.demonstration_scenario import Craft, Scenario

ROUGH: Final = 3
"""The sea state degree from which only a rough-water pilot flies unsupervised."""
_PIER: Final = 205
"""The heading of a boat alongside, degrees true."""
_SEA_BY_WIND: Final = (3.5, 8.0, 11.5, 15.5)
"""Wind in knots below which the open water is of degree 0, 1, 2, 3."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """What the sortie card says of one sortie, in the units of ``facts``."""

    live: bool
    vessel: Craft | None
    aircraft: Craft
    lat: float | None
    lon: float | None
    way: str | None
    sea: int | None
    wind_from: int | None
    wind: float | None
    heading: int | None
    speed: float | None
    set: int | None
    drift: float | None
    night: bool

    @property
    def away(self) -> bool:
        """Whether the boat was drifting or under way."""
        return self.way in ("drifting", "under-way")


def conditions(
    training: TrainingDay, ways: tuple[str, ...], scenario: Scenario, chance: Random
) -> Conditions:
    """The conditions of one sortie; ``ways`` are those that its pilot may be asked to fly."""
    wind = round(max(0.0, training.wind + chance.gauss(0, 1.3)) * 2) / 2
    wind_from = int(training.wind_from + chance.gauss(0, 8)) % 360
    if training.sort == "shore":
        return _ashore(wind, wind_from, scenario, chance)
    way = chance.choice(ways)
    afloat = way not in ("moored", "anchored")
    vessel = scenario.vessels[(training.day.toordinal() // 2 + (way == "under-way")) % 3]
    if way == "under-way" and vessel.kind == "workboat":
        vessel = scenario.vessels[1]
    with_current = afloat and chance.random() < 0.75
    lat, lon = _place(way, scenario, chance)
    return Conditions(
        live=True,
        vessel=vessel,
        aircraft=scenario.aircraft[_aircraft(wind, chance)],
        lat=lat,
        lon=lon,
        way=way,
        sea=_sea(way, wind, chance),
        wind_from=wind_from,
        wind=wind,
        heading=_heading(way, wind_from, chance),
        speed=_speed(way, chance),
        set=int(55 + chance.gauss(0, 25)) % 360 if with_current else None,
        drift=round(0.2 + 0.7 * chance.random(), 1) if with_current else None,
        night=training.sort == "night",
    )


def _ashore(wind: float, wind_from: int, scenario: Scenario, chance: Random) -> Conditions:
    lat, lon = _place("moored", scenario, chance)
    nothing = (None, None, None, None)
    aircraft = scenario.aircraft[_aircraft(wind, chance)]
    return Conditions(
        False, None, aircraft, lat, lon, None, None, wind_from, wind, *nothing, night=False
    )


def _place(way: str, scenario: Scenario, chance: Random) -> tuple[float, float]:
    """Alongside at the harbour; else within a few miles to the north and west of it."""
    lat, lon = scenario.harbour
    if way == "moored":
        return lat, lon
    out = 0.25 if way == "anchored" else 1.0
    north, west = 0.01 + 0.06 * chance.random() * out, 0.09 * chance.random() * out
    return round(lat + north, 4), round(lon - west, 4)


def _aircraft(wind: float, chance: Random) -> int:
    """The light ones mostly; the heavy one more often in wind."""
    if chance.random() < (0.5 if wind > 11 else 0.12):
        return 2
    return int(chance.random() < 0.45)


def _sea(way: str, wind: float, chance: Random) -> int | None:
    if way == "moored":
        return 0 if wind < 9 else 1
    if chance.random() < 0.03:
        return None
    open_water = sum(wind >= bound for bound in _SEA_BY_WIND)
    swell = 1 if chance.random() < 0.18 else 0
    return max(0, open_water + swell - (way == "anchored"))


def _heading(way: str, wind_from: int, chance: Random) -> int:
    """Anchored the boat lies to the wind; drifting it is put before it; under way across it."""
    if way == "moored":
        return _PIER
    turned = {"anchored": 0.0, "drifting": 180.0, "under-way": chance.choice((-60.0, 60.0, 0.0))}
    return int(wind_from + turned[way] + chance.gauss(0, 12)) % 360


def _speed(way: str, chance: Random) -> float | None:
    if way == "under-way":
        return round(3 + 2.5 * chance.random(), 1)
    return 0.0 if way == "drifting" else None
