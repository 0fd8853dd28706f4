"""The deck as it is typed in, and what is wrong with it: all faults at once."""

import re
from dataclasses import dataclass
from typing import Final

from crewtrack.engine.deck import LEEWAYS, Deck
from crewtrack.errors import Fault, Refused
from crewtrack.facts import WAYS
from crewtrack.phrases import phrase

FIXED_WAYS: Final = ("moored", "anchored")

_NUMBER: Final = re.compile(r"[0-9]{1,6}(\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class DeckOptions:
    """The options of ``crewtrack deck`` as they were typed; empty where left out.

    ``wind`` and ``set`` are a direction and a speed with a slash between ("240/14"): where the
    wind comes from, where the current goes to. ``facing`` is a true direction, ``leeway`` a
    fraction of the wind or a kind of craft, ``way`` one of ``facts.WAYS``.
    """

    wind: str
    heading: str
    set: str = ""
    speed: str = ""
    facing: str = ""
    leeway: str = ""
    way: str = ""


def read_deck(options: DeckOptions) -> Deck:
    """The deck that the options tell of; Refused names every option that can't be taken."""
    faults: list[Fault] = []
    wind_from, wind = _pair("--wind", options.wind, 200, faults)
    toward, drift = _pair("--set", options.set or "0/0", 30, faults)
    heading = _number("--heading", options.heading, 360, faults)
    deck = Deck(
        wind_from=wind_from,
        wind=wind,
        heading=heading,
        speed=_number("--speed", options.speed or "0", 100, faults),
        set=toward,
        drift=drift,
        leeway=_leeway(options.leeway or "0", faults),
        facing=_number("--facing", options.facing, 360, faults) if options.facing else None,
        fixed=_way(options.way, faults) in FIXED_WAYS,
    )
    if faults:
        raise Refused(*faults)
    return deck


def _pair(place: str, text: str, most: float, faults: list[Fault]) -> tuple[float, float]:
    direction, slash, speed = text.partition("/")
    if not slash:
        cure = phrase("write a direction and a speed in knots, such as 240/14")
        faults.append(Fault(place, "", phrase("'{text}' has no speed", text=text), cure))
        return 0.0, 0.0
    return _number(place, direction, 360, faults), _number(place, speed, most, faults)


def _number(place: str, text: str, most: float, faults: list[Fault]) -> float:
    text = text.strip()
    if _NUMBER.fullmatch(text) and float(text) <= most:
        return float(text)
    what = (
        phrase("'{text}' is not a number that can stand here", text=text)
        if text
        else phrase("no number is given")
    )
    cure = (
        phrase("write degrees true from 0 to 360")
        if most == 360
        else phrase("write knots from 0 to {most}", most=f"{most:g}")
    )
    faults.append(Fault(place, "", what, cure))
    return 0.0


def _leeway(text: str, faults: list[Fault]) -> float:
    text = text.strip()
    if text in LEEWAYS:
        return LEEWAYS[text]
    if _NUMBER.fullmatch(text) and float(text) < 1:
        return float(text)
    cure = phrase(
        "write a fraction of the wind, such as 0.03, or one of {names}", names=", ".join(LEEWAYS)
    )
    faults.append(Fault("--leeway", "", phrase("'{text}' is not a leeway", text=text), cure))
    return 0.0


def _way(text: str, faults: list[Fault]) -> str:
    if text and text not in WAYS:
        cure = phrase("write one of {names}", names=", ".join(WAYS))
        faults.append(Fault("--way", "", phrase("no way '{text}'", text=text), cure))
    return text
