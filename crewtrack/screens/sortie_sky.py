"""The light of a sortie in words: at launch, at recovery, and the day's turns."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.engine import sky
from crewtrack.engine.standard import Dark, Position, Standard
from crewtrack.facts import LIGHTS, Value
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import later, say

_NIGHTS: Final = later(
    {
        "half-hour": "By this standard, night begins 30 minutes after sunset.",
        "hour": "By this standard, night begins an hour after sunset.",
    }
)


@dataclass(frozen=True, slots=True)
class Outing:
    """When and where a sortie is: the launch, its minutes (None where not known yet), and the
    place (None where neither the sortie nor the unit has one)."""

    launched: datetime
    minutes: int | None
    position: Position | None


def light_told(outing: Outing, dark: Dark, zone: ZoneInfo, stated: str = "") -> tuple[str, ...]:
    """Sentences; ``stated`` is the light that somebody states by hand."""
    if stated:
        return (say("Light stated by hand: {light}.", light=choice_told(stated)),)
    if outing.position is None:
        return (say("Where it is, is not known: write a place, or state the light by hand."),)
    lights = _at_launch(outing, dark, zone)
    night = say(_NIGHTS[dark]) if dark in _NIGHTS else ""
    return tuple(part for part in (lights, _turns(outing, zone), night) if part)


def _at_launch(outing: Outing, dark: Dark, zone: ZoneInfo) -> str:
    launch = outing.launched
    first = _light(launch, outing, dark)
    if outing.minutes is None:
        return say("Launch {time}: {light}.", time=_clock(launch, zone), light=first)
    recovery = launch + timedelta(minutes=outing.minutes)
    return say(
        "Launch {time}: {light}. Recovery {later}: {then}.",
        time=_clock(launch, zone),
        light=first,
        later=_clock(recovery, zone),
        then=_light(recovery, outing, dark),
    )


def _light(instant: datetime, outing: Outing, dark: Dark) -> str:
    position = outing.position
    if position is None:
        raise ValueError("light is reckoned for a place")
    return choice_told(LIGHTS[sky.light(int(instant.timestamp()), position, dark)])


def _turns(outing: Outing, zone: ZoneInfo) -> str:
    """The turns of that day's light, those that there are, to the nearest minute."""
    if outing.position is None:
        return ""
    times = sky.sun_times(outing.launched.astimezone(zone).date(), outing.position, zone)
    turns = later(
        (
            ("civil dawn {time}", times.dawn),
            ("sunrise {time}", times.sunrise),
            ("sunset {time}", times.sunset),
            ("civil dusk {time}", times.dusk),
        )
    )
    told = [
        say(words, time=_clock(when + timedelta(seconds=30), zone)) for words, when in turns if when
    ]
    if not told:
        up = sky.sun_altitude(outing.launched.timestamp(), outing.position) >= sky.HORIZON
        return say("The sun does not set.") if up else say("The sun does not rise.")
    line = ", ".join(told)
    return f"{line[0].upper()}{line[1:]}."


def _clock(instant: datetime, zone: ZoneInfo) -> str:
    return f"{instant.astimezone(zone):%H:%M}"


def draft_light(values: Mapping[str, Value], standard: Standard, zone: ZoneInfo) -> tuple[str, ...]:
    """The same of a sortie that is being typed, from its values by column; at the unit's place
    where none is typed. Nothing before the launch is known."""
    launched, minutes = values.get("launched"), values.get("minutes")
    lat, lon = values.get("lat"), values.get("lon")
    if not isinstance(launched, datetime):
        return ()
    position = standard.position
    if isinstance(lat, float) and isinstance(lon, float):
        position = Position(lat, lon)
    outing = Outing(launched, minutes if isinstance(minutes, int) else None, position)
    return light_told(outing, standard.dark, zone, str(values.get("light") or ""))
