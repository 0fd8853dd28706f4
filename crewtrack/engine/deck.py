"""The deck picture: wind, current and boat, and which way an aircraft then goes from the deck.

Vectors are over the ground, in knots; directions in degrees true. Wind is named for where it
comes from, set for where the current goes to. Angles from the bow and components across are told
as a size and a side, port or starboard; a side is None where there is no telling: dead ahead,
dead astern, or nothing across.
"""

from dataclasses import dataclass
from math import atan2, cos, degrees, floor, hypot, radians, sin
from typing import Final, Literal

Side = Literal["port", "starboard"]

STILL: Final = 1e-6
"""Speeds (kn) and angles (degrees) below this are rounding, not wind."""

CANCELLED: Final = 1.0
"""Wind and current together below this (kn): no heading is better than another."""

LEEWAYS: Final = {
    "person-in-water": 0.0096,
    "skiff": 0.0315,
    "sport-boat": 0.0654,
    "life-raft": 0.0352,
}
"""Downwind leeway as a fraction of the 10-m wind: person in the water, state unknown; skiff,
modified V, outboard; sport boat; life raft with deep ballast (the SAROPS list as it stands in
OpenDrift's data)."""

_SEA_UPPER_M: Final = (0.0, 0.1, 0.5, 1.25, 2.5, 4.0, 6.0, 9.0, 14.0)
_BEAUFORT_LEAST_KN: Final = (1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64)


@dataclass(frozen=True, slots=True)
class Flow:
    """A vector over the ground: knots to the east and to the north."""

    east: float = 0.0
    north: float = 0.0

    def __add__(self, other: "Flow") -> "Flow":
        return Flow(self.east + other.east, self.north + other.north)

    def __sub__(self, other: "Flow") -> "Flow":
        return Flow(self.east - other.east, self.north - other.north)

    def times(self, factor: float) -> "Flow":
        """The same direction, ``factor`` times as fast."""
        return Flow(self.east * factor, self.north * factor)

    @property
    def speed(self) -> float:
        """Knots."""
        return hypot(self.east, self.north)

    @property
    def toward(self) -> float | None:
        """Where it goes to, 0 up to but not including 360; None where nothing moves."""
        if self.speed < STILL:
            return None
        return turned(degrees(atan2(self.east, self.north)))

    @property
    def comes_from(self) -> float | None:
        """Where it comes from, 0 up to but not including 360; None where nothing moves."""
        return None if self.toward is None else turned(self.toward + 180)


def turned(angle: float) -> float:
    """An angle brought to 0 up to but not including 360."""
    rest = angle % 360.0
    return 0.0 if rest == 360.0 else rest


def going(toward: float, speed: float) -> Flow:
    """What moves toward a direction: a current by its set and drift, a boat by its heading."""
    return Flow(speed * sin(radians(toward)), speed * cos(radians(toward)))


def blowing(wind_from: float, wind: float) -> Flow:
    """A wind by where it comes from."""
    return going(wind_from, -wind)


def true_wind(over_deck: Flow, boat: Flow) -> Flow:
    """The wind over the ground, from the wind felt on a boat that moves over the ground."""
    return over_deck + boat


def sea_degree(height_m: float) -> int:
    """The sea state degree (0–9) of a height of waves, WMO-No. 306 code table 3700.

    An exact bound belongs to the lower degree.
    """
    return sum(height_m > upper for upper in _SEA_UPPER_M)


def beaufort(wind: float) -> int:
    """The Beaufort force (0–12) of a wind in knots.

    The scale is in whole knots: below 1 kn is calm, and from there on a half is rounded up.
    """
    whole = floor(wind + 0.5) if wind >= 1 else 0
    return sum(whole >= least for least in _BEAUFORT_LEAST_KN)


@dataclass(frozen=True, slots=True)
class Deck:
    """What is known on deck. ``wind_from``, ``heading``, ``set``, ``facing`` in degrees true;
    ``wind``, ``speed`` (through the water), ``drift`` in knots; ``leeway`` a fraction of the wind.

    ``fixed``: moored or anchored, so that the boat does not move over the ground, whatever
    ``speed``, ``drift`` and ``leeway`` say. ``facing``: where the launcher looks; None is out
    over the bow.
    """

    wind_from: float
    wind: float
    heading: float
    speed: float = 0.0
    set: float = 0.0
    drift: float = 0.0
    leeway: float = 0.0
    facing: float | None = None
    fixed: bool = False

    @property
    def faced(self) -> float:
        """Where the launcher looks, degrees true."""
        return turned(self.heading if self.facing is None else self.facing)

    @property
    def true(self) -> Flow:
        """The wind over the ground."""
        return blowing(self.wind_from, self.wind)

    @property
    def carried(self) -> Flow:
        """What moves the boat without its engines: current and leeway."""
        if self.fixed:
            return Flow()
        return going(self.set, self.drift) + self.true.times(self.leeway)

    @property
    def boat(self) -> Flow:
        """The boat over the ground."""
        if self.fixed:
            return Flow()
        return going(self.heading, self.speed) + self.carried

    @property
    def over_deck(self) -> Flow:
        """The wind over the deck."""
        return self.true - self.boat


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle from the bow: 0–180 degrees, and to which side."""

    degrees: float
    side: Side | None


@dataclass(frozen=True, slots=True)
class Motion:
    """How an aircraft moves as seen from the deck, in knots: ``opens`` away along the way the
    launcher faces (negative: it closes), ``across`` to ``side`` of that way."""

    opens: float
    across: float
    side: Side | None


@dataclass(frozen=True, slots=True)
class AtBack:
    """A heading that puts the wind at the launcher's back, and how an aircraft that drifts with
    the air then moves."""

    heading: float
    motion: Motion


@dataclass(frozen=True, slots=True)
class Picture:
    """The deck picture. ``angle``: where the wind over the deck comes from, off the bow (None
    where there is none). ``drifting``: an aircraft that has lost its hold on position and goes
    with the air; ``holding``: one that keeps its position over the ground. ``at_back``: None
    where wind and current cancel, so that no heading is better than another."""

    deck: Deck
    true: Flow
    current: Flow
    boat: Flow
    over_deck: Flow
    angle: Angle | None
    drifting: Motion
    holding: Motion
    at_back: AtBack | None


def picture(deck: Deck) -> Picture:
    """The whole picture, worked out."""
    over_deck = deck.over_deck
    wind_from = over_deck.comes_from
    return Picture(
        deck=deck,
        true=deck.true,
        current=going(deck.set, deck.drift),
        boat=deck.boat,
        over_deck=over_deck,
        angle=None if wind_from is None else off_bow(wind_from, deck.heading),
        drifting=seen(over_deck, deck.faced),
        holding=seen(deck.boat.times(-1), deck.faced),
        at_back=_at_back(deck),
    )


def off_bow(direction: float, heading: float) -> Angle:
    """A true direction as an angle from the bow."""
    clockwise = turned(direction - heading)
    size = min(clockwise, 360 - clockwise)
    if size < STILL or size > 180 - STILL:
        return Angle(size, None)
    return Angle(size, "starboard" if clockwise < 180 else "port")


def seen(motion: Flow, facing: float) -> Motion:
    """A motion relative to the boat, along and across the way the launcher faces."""
    ahead, right = going(facing, 1), going(facing + 90, 1)
    opens = motion.east * ahead.east + motion.north * ahead.north
    across = motion.east * right.east + motion.north * right.north
    if abs(across) < STILL:
        return Motion(opens, 0.0, None)
    return Motion(opens, abs(across), "starboard" if across > 0 else "port")


def _at_back(deck: Deck) -> AtBack | None:
    """Bow toward where wind less current and leeway goes, turned by the difference between the
    launcher's way and the bow. Exact facing the bow or with engines idle; else ``motion`` tells
    what stays across."""
    free = deck.true - deck.carried
    toward = free.toward
    if toward is None or free.speed < CANCELLED:
        return None
    heading = turned(toward - (deck.faced - deck.heading))
    ahead = Flow() if deck.fixed else going(heading, deck.speed)
    return AtBack(heading, seen(free - ahead, toward))
