"""The deck picture in words: what `crewtrack deck` prints.

Directions are printed as three digits from 001 to 360 (north is 360), speeds to 0.1 kn.
"""

from collections.abc import Callable, Mapping
from math import floor
from typing import Final

from crewtrack.engine.deck import (
    STILL,
    AtBack,
    Deck,
    Flow,
    Motion,
    Picture,
    Side,
    beaufort,
    off_bow,
)
from crewtrack.screens.language import later, say

CAUTIONS: Final = later(
    (
        "This is a record and a planning aid: the master of the boat and the remote pilot decide.",
        "Local law, the unit's authorizations and licensed practice go before anything it says.",
        "Hand recovery injures: gloves, eye protection, helmet, lifejacket, and a practised"
        " handler.",
    )
)

_MISLEADING_DEGREES: Final = 15
_TEXT_STILL: Final = 0.05


def lines(picture: Picture) -> tuple[str, ...]:
    """The picture, one sentence to a line: what was given, the wind over the deck, the two
    aircraft, the wind at the launcher's back, what to mind, and the cautions."""
    return (
        *_given(picture),
        say("Wind over the deck: {wind}.", wind=_over_deck(picture)),
        _facing_line(picture.deck),
        say("An aircraft that drifts with the air {moves}.", moves=_moves(picture.drifting)),
        say(
            "An aircraft that holds its position over the ground {moves}.",
            moves=_moves(picture.holding),
        ),
        _back_line(picture),
        *remarks(picture),
        *cautions(),
    )


def cautions() -> tuple[str, ...]:
    """The cautions in the language of the screens."""
    return tuple(say(caution) for caution in CAUTIONS)


def degrees(direction: float) -> str:
    """A direction as it is printed: 001° to 360°, a half rounded up."""
    return f"{(floor(direction + 0.5) - 1) % 360 + 1:03d}°"


def _given(picture: Picture) -> tuple[str, str]:
    deck, force = picture.deck, beaufort(picture.deck.wind)
    current = _flow(picture.current.toward, picture.current.speed, _SETTING)
    wind = _flow(picture.true.comes_from, picture.true.speed, _FROM)
    air = say("Wind {wind} (Beaufort {force}); current {current}.", wind=wind, force=force,
              current=current)  # fmt: skip
    heading = degrees(deck.heading)
    if deck.fixed:
        return air, say("Boat moored or anchored, heading {heading}.", heading=heading)
    return air, say(
        "Boat heading {heading} at {speed} kn through the water; over the ground {ground}.",
        heading=heading,
        speed=f"{deck.speed:.1f}",
        ground=_flow(picture.boat.toward, picture.boat.speed, _TOWARD),
    )


_SIDES: Final[Mapping[Side, str]] = later({"port": "port", "starboard": "starboard"})
_FROM: Final = later("from {direction} at {speed} kn")
_SETTING: Final = later("setting {direction} at {speed} kn")
_TOWARD: Final = later("toward {direction} at {speed} kn")


def _flow(direction: float | None, speed: float, words: str) -> str:
    if direction is None or speed < _TEXT_STILL:
        return say("none")
    return say(words, direction=degrees(direction), speed=f"{speed:.1f}")


def _over_deck(picture: Picture) -> str:
    wind, speed = picture.over_deck.comes_from, picture.over_deck.speed
    told = _flow(wind, speed, _FROM)
    if wind is None or speed < _TEXT_STILL or picture.angle is None:
        return told
    size, side = floor(picture.angle.degrees + 0.5), picture.angle.side
    if size in (0, 180):
        return say("{wind}, dead astern" if size else "{wind}, dead ahead", wind=told)
    return say("{wind}, {size}° off the bow to {side}", wind=told, size=size, side=_told(side))


def _facing_line(deck: Deck) -> str:
    angle, faced = off_bow(deck.faced, deck.heading), degrees(deck.faced)
    if angle.side is None and angle.degrees > 90:
        return say("The launcher faces {faced}, out over the stern.", faced=faced)
    if angle.side is None:
        return say("The launcher faces {faced}, out over the bow.", faced=faced)
    return say("The launcher faces {faced}, {size}° off the bow to {side}.", faced=faced,
               size=f"{angle.degrees:.0f}", side=_told(angle.side))  # fmt: skip


def _told(side: Side | None) -> str:
    return say(_SIDES[side]) if side else ""


def _moves(motion: Motion) -> str:
    parts = []
    if abs(motion.opens) >= _TEXT_STILL:
        speed = f"{abs(motion.opens):.1f}"
        parts.append(
            say("opens at {speed} kn" if motion.opens > 0 else "closes at {speed} kn", speed=speed)
        )
    if motion.across >= _TEXT_STILL:
        speed = f"{motion.across:.1f}"
        parts.append(say("goes {speed} kn to {side}", speed=speed, side=_told(motion.side)))
    if not parts:
        return say("stays where it is")
    return say("{one} and {other}", one=parts[0], other=parts[1]) if parts[1:] else parts[0]


def _back_line(picture: Picture) -> str:
    back = picture.at_back
    if back is None:
        return say("Wind at the launcher's back: {why}.", why=no_heading(picture))
    return say(
        "Wind at the launcher's back: heading {heading}, where a drifting aircraft {moves}.",
        heading=degrees(back.heading),
        moves=_moves(back.motion),
    )


def no_heading(picture: Picture) -> str:
    """Why no heading is named for the wind at the launcher's back."""
    left = f"{(picture.true - picture.deck.carried).speed:.1f}"
    return say(
        "no heading is better than another, as wind and current cancel to {left} kn", left=left
    )


def remarks(picture: Picture) -> tuple[str, ...]:
    """What to mind in this very picture (common practice of the trade; no source)."""
    told: tuple[tuple[Callable[[Picture], bool], str], ...] = later(
        (
            (_comes_back, "A failing aircraft comes back toward the launcher."),
            (_runs_up, "The boat runs up on an aircraft that holds: move it clear after launch."),
            (_misleads, "The wind felt on deck is not the true wind: mind it when judging drift."),
            (_opposed, "Wind and current come from opposite sides: the felt wind can mislead."),
            (_outrun, "At this speed the boat outruns the wind: no heading has it at the back."),
            (_idle, "With engines idle, turning the boat does not change the wind over the deck."),
            (
                _lies,
                "Moored or anchored, the boat does not turn at will: turn the launcher instead.",
            ),
        )
    )
    return tuple(say(sentence) for holds, sentence in told if holds(picture))


def _comes_back(picture: Picture) -> bool:
    return picture.drifting.opens <= -_TEXT_STILL


def _runs_up(picture: Picture) -> bool:
    return picture.holding.opens <= -_TEXT_STILL


def _misleads(picture: Picture) -> bool:
    """By more than an eye can tell on deck: 15 degrees, or 2 kn."""
    true, felt = picture.true, picture.over_deck
    if true.comes_from is None or felt.comes_from is None:
        return abs(true.speed - felt.speed) >= 2
    bent = off_bow(felt.comes_from, true.comes_from).degrees
    return bent > _MISLEADING_DEGREES or abs(true.speed - felt.speed) >= 2


def _opposed(picture: Picture) -> bool:
    """A current that sets to within 45 degrees of where the wind comes from."""
    wind, toward = picture.true.comes_from, picture.current.toward
    if picture.deck.fixed or wind is None or toward is None:
        return False
    return off_bow(toward, wind).degrees <= 45


def _outrun(picture: Picture) -> bool:
    return picture.at_back is not None and picture.at_back.motion.opens <= 0


def _idle(picture: Picture) -> bool:
    return picture.deck.speed < STILL and not picture.deck.fixed


def _lies(picture: Picture) -> bool:
    return picture.deck.fixed and picture.at_back is not None


def as_json(picture: Picture) -> Mapping[str, object]:
    """The picture as ``crewtrack deck --format json`` writes it; the shape is a promise.

    Speeds in knots to 0.01, angles in degrees to 0.1. Directions are true, above 0 and up to
    360 (north is 360), null where nothing moves. ``side`` is "port" or "starboard", null where
    there is nothing to either side (dead ahead and dead astern, too).

    - ``wind``: the true wind: ``from``, ``speed``, ``beaufort`` (0-12).
    - ``current``: ``toward`` (its set), ``speed`` (its drift).
    - ``boat``: ``heading``, ``speed`` through the water, ``leeway`` (a fraction of the wind),
      ``fixed`` (moored or anchored), ``over_ground``: ``toward``, ``speed``.
    - ``facing``: where the launcher looks.
    - ``over_deck``: the wind over the deck: ``speed``, ``from``, and where that is off the bow:
      ``relative`` (0-180, null where there is no wind), ``side``.
    - ``drifting``: an aircraft that goes with the air, as seen from the deck: ``opens`` along
      the way the launcher faces (+ away, - it closes), ``across`` (0 or more) to ``side``.
    - ``holding``: the same for one that holds its position over the ground.
    - ``at_back``: the heading that puts the wind at the launcher's back, the launcher keeping
      the same place on board: ``heading``, and how a drifting aircraft then moves (``opens``,
      ``across``, ``side``); null where no heading is better than another.
    - ``at_back_reason``: why ``at_back`` is null, in words; else null.
    - ``remarks``, ``cautions``: sentences.
    """
    deck, back = picture.deck, picture.at_back
    return {
        "wind": {**_from(picture.true), "beaufort": beaufort(deck.wind)},
        "current": _toward(picture.current),
        "boat": {
            "heading": _direction(deck.heading),
            "speed": _knots(deck.speed),
            "leeway": deck.leeway,
            "fixed": deck.fixed,
            "over_ground": _toward(picture.boat),
        },
        "facing": _direction(deck.faced),
        "over_deck": {**_from(picture.over_deck), **_relative(picture)},
        "drifting": _motion(picture.drifting),
        "holding": _motion(picture.holding),
        "at_back": None if back is None else _back(back),
        "at_back_reason": no_heading(picture) if back is None else None,
        "remarks": list(remarks(picture)),
        "cautions": list(CAUTIONS),
    }


def _direction(angle: float | None) -> float | None:
    return None if angle is None else round(angle, 1) % 360 or 360.0


def _knots(speed: float) -> float:
    return round(speed, 2) + 0.0  # never -0.0


def _from(flow: Flow) -> dict[str, object]:
    return {"from": _direction(flow.comes_from), "speed": _knots(flow.speed)}


def _toward(flow: Flow) -> dict[str, object]:
    return {"toward": _direction(flow.toward), "speed": _knots(flow.speed)}


def _relative(picture: Picture) -> dict[str, object]:
    if picture.angle is None:
        return {"relative": None, "side": None}
    size = round(picture.angle.degrees, 1)
    return {"relative": size, "side": _side(size not in (0.0, 180.0), picture.angle.side)}


def _motion(motion: Motion) -> dict[str, object]:
    across = _knots(motion.across)
    side = _side(across > 0, motion.side)
    return {"opens": _knots(motion.opens), "across": across, "side": side}


def _back(back: AtBack) -> dict[str, object]:
    return {"heading": _direction(back.heading), **_motion(back.motion)}


def _side(told: bool, side: Side | None) -> Side | None:
    return side if told else None
