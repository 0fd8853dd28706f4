"""The deck picture as lines to draw: where each arrow begins and ends, true to angle.

The picture is a circle of radius 1 around the boat, x to the right and y down. Directions on it
are true, turned as a whole where the bow is up. Lengths within a band say nothing of speeds: the
words beside the arrows do.
"""

from dataclasses import dataclass
from math import cos, radians, sin
from typing import Literal

from crewtrack.engine.deck import Flow, Picture
from crewtrack.screens.deck_words import degrees
from crewtrack.screens.language import later, say

Ink = Literal["wind", "deck", "water", "drift", "hold", "back"]

_STILL = 0.05
_BESIDE = 0.09


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in the picture."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Arrow:
    """A line from a place to another with a head at its end; ``told`` stands beside it."""

    ink: Ink
    start: Spot
    end: Spot
    told: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A word at a place; ``angle`` is clockwise from straight up."""

    told: str
    angle: float


@dataclass(frozen=True, slots=True)
class Scene:
    """All that is drawn. ``bow`` and ``faced`` are angles clockwise from straight up; ``ticks``
    the true directions of the ring with their angles; ``back`` the mark of the heading that puts
    the wind at the launcher's back, None where there is none."""

    bow: float
    faced: float | None
    ticks: tuple[tuple[int, float], ...]
    sides: tuple[Mark, ...]
    arrows: tuple[Arrow, ...]
    back: Mark | None


def scene(picture: Picture, bow_up: bool) -> Scene:
    """The scene with the bow up, or with north up."""
    deck = picture.deck
    turn = deck.heading if bow_up else 0.0
    bow = deck.heading - turn
    back = picture.at_back
    return Scene(
        bow=bow % 360,
        faced=None if deck.facing is None else (deck.faced - turn) % 360,
        ticks=tuple((true, (true - turn) % 360) for true in range(0, 360, 10)),
        sides=(
            Mark(say("bow"), bow % 360),
            Mark(say("starboard"), (bow + 90) % 360),
            Mark(say("stern"), (bow + 180) % 360),
            Mark(say("port"), (bow + 270) % 360),
        ),
        arrows=tuple(_arrows(picture, turn)),
        back=None if back is None else Mark(_back(back.heading), (back.heading - turn) % 360),
    )


def _back(heading: float) -> str:
    return say("wind at the back: {heading}", heading=degrees(heading))


def _arrows(picture: Picture, turn: float) -> list[Arrow]:
    """Wind and current lie at the rim, the wind over the deck within, the aircraft go out from
    the boat; what could lie on another line is moved to one side of it."""
    true, felt = picture.true, picture.over_deck
    bands = (
        ("wind", later("wind {speed} kn"), true, (-0.97, -0.72), 0.0),
        ("deck", later("over the deck {speed} kn"), felt, (-0.68, -0.3), 0.0),
        ("water", later("current {speed} kn"), picture.current, (0.74, 0.97), _BESIDE),
        ("drift", later("drifts {speed} kn"), felt, (0.3, 0.7), 0.0),
        ("hold", later("holds {speed} kn"), picture.boat.times(-1), (0.3, 0.55), _BESIDE),
    )  # fmt: skip
    return [
        Arrow(ink, *_line(flow, turn, band, beside), _told(words, flow))  # type: ignore[arg-type]  # the literals above
        for ink, words, flow, band, beside in bands
        if flow.speed >= _STILL
    ]


def _line(flow: Flow, turn: float, band: tuple[float, float], beside: float) -> tuple[Spot, Spot]:
    """The start and end of a flow's arrow: along its way, from one distance to another, and
    ``beside`` to the right of it."""
    angle = radians((flow.toward or 0.0) - turn)
    ahead, right = (sin(angle), -cos(angle)), (cos(angle), sin(angle))
    start, end = (
        Spot(far * ahead[0] + beside * right[0], far * ahead[1] + beside * right[1]) for far in band
    )
    return start, end


def _told(words: str, flow: Flow) -> str:
    return say(words, speed=f"{flow.speed:.1f}")


def at(angle: float, far: float) -> Spot:
    """The place at an angle clockwise from straight up, so far from the boat."""
    return Spot(far * sin(radians(angle)), -far * cos(radians(angle)))
