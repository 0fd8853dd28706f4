"""Light, from the sky: where the sun stands, and what that makes of an instant.

Instants are whole seconds since 1970 in UTC (any number of seconds inside), angles are degrees,
north and east positive. Altitudes are of the sun's centre, without refraction or parallax: the
sun rises and sets at 0.833 degrees below the horizon (50', upper limb and standard refraction),
and civil twilight ends at 6 degrees below it.

The astronomy library gives the sun's place three times a day; between them it is interpolated
(within 0.00002 degrees, a hundredth of a second), which is many times faster.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from math import asin, copysign, cos, degrees, radians, sin
from typing import Final
from zoneinfo import ZoneInfo

import ephem

from crewtrack.engine.standard import Dark, Position

DAY: Final = 0
TWILIGHT: Final = 1
NIGHT: Final = 2

HORIZON: Final = -0.833
CIVIL: Final = -6.0

_DAY_S: Final = 86_400
_HALF_DAY_S: Final = 43_200
_MARGIN_S: Final = {"half-hour": 1_800, "hour": 3_600}
_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)
_EPHEM_AT_1970: Final = 25_567.5
_ALWAYS_RISES_BELOW: Final = 60.0
_TURN: Final = 360.0

Curve = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class SunTimes:
    """The turns of one day's light in the zone asked for, to the second; None where the sun
    does not reach that altitude on the way up or down."""

    dawn: datetime | None
    sunrise: datetime | None
    sunset: datetime | None
    dusk: datetime | None


def light(instant: int, position: Position, dark: Dark) -> int:
    """The light at an instant, as a position in ``facts.LIGHTS``.

    Day from sunrise to sunset. Night by ``dark``: ``civil``, centre lower than 6 degrees below
    the horizon; ``half-hour``, later than 30 minutes after sunset and earlier than 30 before
    sunrise; ``hour``, at least 60 after and before. Where the sun stays down in the 24 hours
    around the instant, its altitude decides as under ``civil``.
    """
    altitude = sun_altitude(instant, position)
    if altitude >= HORIZON:
        return DAY
    if dark == "civil" or not _up_within(instant, _HALF_DAY_S, position):
        return NIGHT if altitude < CIVIL else TWILIGHT
    margin = _MARGIN_S[dark]
    # Seconds are whole: an hour to the second is night already, half an hour is not yet.
    closed = margin if dark == "half-hour" else margin - 1
    return TWILIGHT if _up_within(instant, closed, position) else NIGHT


def sun_altitude(instant: float, position: Position) -> float:
    """The altitude of the sun's centre, degrees above the horizon."""
    day, seconds = divmod(instant, _DAY_S)
    west, declination = _places(int(day))
    part = seconds / _DAY_S
    # Asked for every sortie of a long history: the two curves are followed without a call.
    hour_angle = radians(west[0] + part * (west[1] + _TURN + part * west[2]) + position.lon)
    north = radians(declination[0] + part * (declination[1] + part * declination[2]))
    lat = radians(position.lat)
    height = sin(lat) * sin(north) + cos(lat) * cos(north) * cos(hour_angle)
    return degrees(asin(height if -1.0 < height < 1.0 else copysign(1.0, height)))


def sun_times(day: date, position: Position, zone: ZoneInfo) -> SunTimes:
    """Dawn, sunrise, sunset and dusk of the sun's pass that is highest nearest to the zone's
    noon of ``day``; so dusk can fall after midnight. None also past the ends of the calendar."""
    noon = (datetime.combine(day, time(12), zone) - _EPOCH).total_seconds()
    transit = _transit(noon, position)
    top = _highest(transit - _DAY_S / 4, transit + _DAY_S / 4, position)

    def turn(altitude: float, away: int) -> datetime | None:
        return _aware(_crossing(top, top + away, altitude, position), zone)

    return SunTimes(
        dawn=turn(CIVIL, -_HALF_DAY_S),
        sunrise=turn(HORIZON, -_HALF_DAY_S),
        sunset=turn(HORIZON, _HALF_DAY_S),
        dusk=turn(CIVIL, _HALF_DAY_S),
    )


@lru_cache(maxsize=65_536)
def _places(day: int) -> tuple[Curve, Curve]:
    """The sun's hour angle at Greenwich less the turn of the clock, and its declination, as
    curves over one day (in days since 1970)."""
    noted = [(part, *_place(day + part)) for part in (0.0, 0.5, 1.0)]
    first = noted[0][1]
    # Near to the first one, so that the curve does not jump where the angle passes 360.
    west = [_near(angle - _TURN * part, first) for part, angle, _ in noted]
    return _curve(west), _curve([north for _, _, north in noted])


@lru_cache(maxsize=65_536)  # one day's end is the next day's start
def _place(day: float) -> tuple[float, float]:
    """The sun's hour angle at Greenwich and its declination, both of date, seen from the centre
    of the Earth."""
    greenwich = ephem.Observer()
    greenwich.date = day + _EPHEM_AT_1970
    sun = ephem.Sun(greenwich)
    angle = float(greenwich.sidereal_time()) - float(sun.g_ra)
    return degrees(angle), degrees(float(sun.g_dec))


def _near(angle: float, other: float) -> float:
    """The angle, turned by whole turns so as to lie near to the other."""
    return other + (angle - other + _TURN / 2) % _TURN - _TURN / 2


def _curve(at: list[float]) -> Curve:
    """The parabola through values at 0, 1/2 and 1."""
    start, middle, end = at
    return start, 4 * middle - 3 * start - end, 2 * (start + end) - 4 * middle


def _along(curve: Curve, part: float) -> float:
    return curve[0] + part * (curve[1] + part * curve[2])


def _transit(instant: float, position: Position) -> float:
    """When the sun is due south or north, nearest to an instant: within half a day, to seconds."""
    day, seconds = divmod(instant, _DAY_S)
    part = seconds / _DAY_S
    hour_angle = _along(_places(int(day))[0], part) + _TURN * part + position.lon
    return instant - _near(hour_angle, 0.0) / _TURN * _DAY_S


def _up_within(instant: int, margin: int, position: Position) -> bool:
    """Whether the sun is up at any time from ``margin`` seconds before to ``margin`` after an
    instant at which it is down; both ends included."""
    first, last = instant - margin, instant + margin
    if abs(position.lat) < _ALWAYS_RISES_BELOW:
        # Every day is longer than five hours here: none begins and ends within two.
        return margin == _HALF_DAY_S or _up(first, position) or _up(last, position)
    if _up(first, position) or _up(last, position):
        return True
    transit = _transit(instant, position)
    if abs(transit - instant) <= margin and _up(transit, position):
        return True
    low, high = max(first, transit - _DAY_S / 4), min(last, transit + _DAY_S / 4)
    return low < high and _up(_highest(low, high, position), position)


def _up(instant: float, position: Position) -> bool:
    return sun_altitude(instant, position) >= HORIZON


def _highest(first: float, last: float, position: Position) -> float:
    """When the sun is highest in a stretch in which it first climbs, then sinks."""
    while last - first > 1:
        third = (last - first) / 3
        if sun_altitude(first + third, position) < sun_altitude(last - third, position):
            first += third
        else:
            last -= third
    return (first + last) / 2


def _crossing(above: float, below: float, altitude: float, position: Position) -> float | None:
    """When the sun passes an altitude between an instant above it and one below it."""

    def over(instant: float) -> bool:
        return sun_altitude(instant, position) >= altitude

    return _halved(above, below, over) if over(above) and not over(below) else None


def _halved(yes: float, no: float, test: Callable[[float], bool]) -> float:
    while abs(yes - no) > 0.01:
        middle = (yes + no) / 2
        if test(middle):
            yes = middle
        else:
            no = middle
    return yes


def _aware(instant: float | None, zone: ZoneInfo) -> datetime | None:
    if instant is None:
        return None
    try:
        return (_EPOCH + timedelta(seconds=round(instant))).astimezone(zone)
    except OverflowError:
        return None
