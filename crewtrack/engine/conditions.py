"""In which conditions a sortie was flown, and whether they meet a floor.

A sortie is named by its index in the evidence; everything is worked out once and kept. Light is
asked for at a moment of the sortie, its launch or its recovery (launch and minutes); all else is
one for the whole sortie. What was not recorded meets no floor.
"""

from collections.abc import Callable
from typing import Final

from crewtrack.engine import deck, sky
from crewtrack.engine.evidence import NOT_RECORDED, Sorties
from crewtrack.engine.requirement import Floor, Only
from crewtrack.engine.standard import Moment, Position, Standard
from crewtrack.engine.wording import light_told, way_told
from crewtrack.facts import LIGHTS, WAYS
from crewtrack.phrases import joined, phrase

Test = Callable[[int], bool]

_FIXED: Final = (WAYS.index("moored"), WAYS.index("anchored"))
_UNKNOWN, _MET, _NOT_MET = 0, 1, 2


class Conditions:
    """The conditions of all sorties, by the position and ``dark`` of one edition."""

    def __init__(self, sorties: Sorties, standard: Standard) -> None:
        self._sorties = sorties
        self._standard = standard
        self._lights: dict[tuple[int, Moment], int] = {}
        self._apparents: dict[int, float | None] = {}
        self._meetings: dict[tuple[Floor, Only, Moment], Test] = {}

    def moment(self, task: str) -> Moment:
        """The moment of a sortie that counts for a task; launch for one that the edition lacks."""
        known = self._standard.tasks.get(task)
        return "launch" if known is None else known.moment

    def light(self, i: int, moment: Moment) -> int:
        """A position in ``facts.LIGHTS``; ``NOT_RECORDED`` where no position is known. Light
        that was stated by hand counts for both moments."""
        known = self._lights.get((i, moment))
        if known is None:
            known = self._lights[i, moment] = self._reckoned_light(i, moment)
        return known

    def apparent(self, i: int) -> float | None:
        """The speed of the wind over the deck, to 0.1 kn, without leeway; None where something
        needed for it was not recorded."""
        if i not in self._apparents:
            self._apparents[i] = self._wind_over_deck(i)
        return self._apparents[i]

    def meets(self, i: int, moment: Moment, floor: Floor, only: Only) -> bool:
        """Whether a sortie's conditions are at or above the floor, on craft that count."""
        return self.meeting(floor, only, moment)(i)

    def meeting(self, floor: Floor, only: Only, moment: Moment) -> Test:
        """``meets`` as a function of the index alone, for long histories: each sortie is looked
        at once, however often it is asked about."""
        asked = (floor, only, moment)
        found = self._meetings.get(asked)
        if found is None:
            tests = (*self._on_craft(only), *self._cheap(floor), *self._worked_out(floor, moment))
            found = self._meetings[asked] = self._kept(tests)
        return found

    def told(self, i: int, moment: Moment) -> str:
        """The conditions in words, for reasons; what was not recorded is left out."""
        sorties = self._sorties
        parts = (
            self._light_told(i, moment),
            "" if sorties.way[i] == NOT_RECORDED else way_told(WAYS[sorties.way[i]]),
            "" if sorties.sea[i] == NOT_RECORDED else phrase("sea {state}", state=sorties.sea[i]),
            self._wind_told(i),
            phrase("drill") if sorties.drill[i] else phrase("live"),
            _from_boat(sorties.vessel[i]),
        )
        return joined(", ", parts)

    def _reckoned_light(self, i: int, moment: Moment) -> int:
        """The light, not kept: a floor keeps what came of it, and asks once."""
        sorties = self._sorties
        stated = sorties.light[i]
        if stated != NOT_RECORDED:
            return stated
        lat, lon = sorties.lat[i], sorties.lon[i]
        unit = self._standard.position
        position = unit if lat is None or lon is None else Position(lat, lon)
        if position is None:
            return NOT_RECORDED
        instant = sorties.launched[i]
        if moment == "recovery":
            instant += 60 * sorties.minutes[i]
        return sky.light(instant, position, self._standard.dark)

    def _wind_over_deck(self, i: int) -> float | None:
        wind, boat = self._sorties.wind[i], self._boat(i)
        if wind is None or boat is None:
            return None
        if boat.speed < deck.STILL:
            return round(wind, 1)
        true = _flow(self._sorties.wind_from[i], wind, deck.blowing)
        return None if true is None else round((true - boat).speed, 1)

    def _boat(self, i: int) -> deck.Flow | None:
        """The boat over the ground; None where its way through the water was not recorded
        whole. A current that was not recorded whole is none."""
        sorties = self._sorties
        if sorties.way[i] in _FIXED:
            return deck.Flow()
        through_water = _flow(sorties.heading[i], sorties.speed[i], deck.going)
        current = _flow(sorties.set[i], sorties.drift[i], deck.going) or deck.Flow()
        return None if through_water is None else through_water + current

    def _on_craft(self, only: Only) -> tuple[Test, ...]:
        asked = ((self._sorties.aircraft, only.aircraft), (self._sorties.vessel, only.vessel))
        return tuple(
            lambda i, column=column, kinds=kinds: column[i] in kinds
            for column, kinds in asked
            if kinds
        )

    def _cheap(self, floor: Floor) -> tuple[Test, ...]:
        """The tests that only look a value up."""
        way, sea, wind = self._sorties.way, self._sorties.sea, self._sorties.wind
        tests: list[Test] = []
        if (least_way := floor.way) is not None:
            tests.append(lambda i: way[i] >= least_way)
        if (least_sea := floor.sea) is not None:
            tests.append(lambda i: sea[i] >= least_sea)
        if (least_wind := floor.wind) is not None:
            tests.append(lambda i: _at_least(wind[i], least_wind))
        return tuple(tests)

    def _worked_out(self, floor: Floor, moment: Moment) -> tuple[Test, ...]:
        """The tests that take arithmetic, light last."""
        tests: list[Test] = []
        if (least_apparent := floor.apparent) is not None:
            tests.append(lambda i: _at_least(self.apparent(i), least_apparent))
        if (least_light := floor.light) is not None:
            tests.append(lambda i: self._reckoned_light(i, moment) >= least_light)
        return tuple(tests)

    def _kept(self, tests: tuple[Test, ...]) -> Test:
        """All tests as one, each sortie's outcome kept."""
        if not tests:
            return _any_sortie
        test = tests[0] if len(tests) == 1 else lambda i: all(one(i) for one in tests)
        outcomes = bytearray(len(self._sorties.key))

        def met(i: int) -> bool:
            if outcomes[i] == _UNKNOWN:
                outcomes[i] = _MET if test(i) else _NOT_MET
            return outcomes[i] == _MET

        return met

    def _light_told(self, i: int, moment: Moment) -> str:
        light = self.light(i, moment)
        if light == NOT_RECORDED:
            return ""
        told = light_told(LIGHTS[light])
        stated = self._sorties.light[i] != NOT_RECORDED
        return phrase("{light} (stated)", light=told) if stated else told

    def _wind_told(self, i: int) -> str:
        wind, apparent = self._sorties.wind[i], self.apparent(i)
        if wind is None:
            return ""
        if apparent is None or apparent == round(wind, 1):
            return phrase("wind {speed} kn", speed=f"{wind:g}")
        return phrase(
            "wind {speed} kn, {apparent} kn over the deck",
            speed=f"{wind:g}",
            apparent=f"{apparent:g}",
        )


def _any_sortie(_: int) -> bool:
    return True


def _at_least(value: float | None, least: float) -> bool:
    return value is not None and value >= least


def _flow(
    direction: float | None, speed: float | None, named: Callable[[float, float], deck.Flow]
) -> deck.Flow | None:
    """A vector from what was recorded: at speed 0 the direction does not matter."""
    if speed == 0:
        return deck.Flow()
    return None if direction is None or speed is None else named(direction, speed)


def _from_boat(kind: str | None) -> str:
    if not kind:
        return ""
    vowel = kind[0].lower() in "aeiou"
    return phrase("from an {boat}", boat=kind) if vowel else phrase("from a {boat}", boat=kind)
