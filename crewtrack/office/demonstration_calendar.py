"""The demonstration unit's training days, and the weather on them."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random
from typing import Final, Literal

from crewtrack.office.demonstration_scenario import COURSE, Scenario, frozen

Sort = Literal["course", "day", "evening", "night", "shore"]

CALM_ENOUGH: Final = 17.0
"""Mean wind in knots above which a training day is called off."""
_WEDNESDAY, _FRIDAY, _SATURDAY = 2, 4, 5


@dataclass(frozen=True, slots=True)
class TrainingDay:
    """One day of training: its sort, the clock hour of the first launch, and the mean wind in
    knots with the direction it comes from. ``called`` days take place in any case."""

    day: date
    sort: Sort
    hour: float
    wind: float
    wind_from: int
    called: bool


def training_days(scenario: Scenario, chance: Random) -> Iterator[TrainingDay]:
    """All training days from the first one to two days before the scenario's day."""
    day = scenario.start
    while day <= scenario.before(2):
        sort = _sort(day, scenario, chance)
        if sort is not None:
            training = _training(day, sort, scenario, chance)
            if training.called or training.wind <= CALM_ENOUGH:
                yield training
        day += timedelta(days=1)


def _called(day: date, scenario: Scenario) -> bool:
    """Days that are not given up for the weather: the opening course, the last ones before the
    ice and the first ones after it, and the latest weeks."""
    calendar = (day.month, day.day)
    return (
        day < scenario.start + COURSE
        or (1, 5) <= calendar <= (1, 15)
        or (3, 28) <= calendar <= (4, 9)
        or day >= scenario.before(24)
    )


def _sort(day: date, scenario: Scenario, chance: Random) -> Sort | None:
    called = _called(day, scenario)
    if frozen(day):
        return "shore" if day.weekday() == _SATURDAY and chance.random() < 0.35 else None
    if day < scenario.start + COURSE:
        return "course" if day.weekday() in (_WEDNESDAY, _SATURDAY) else None
    if day.weekday() == _SATURDAY and (called or chance.random() < 0.8):
        return "day"
    if day.weekday() == _WEDNESDAY and (called or chance.random() < 0.3):
        return "evening" if 5 <= day.month <= 8 else "day"
    if day.weekday() == _FRIDAY and (_by_the_ice(day) or day.toordinal() // 7 % 4 == 0):
        return "night"
    return None


def _by_the_ice(day: date) -> bool:
    """Whether this is a week just before or just after the ice, when a night is always flown."""
    return (1, 6) <= (day.month, day.day) <= (1, 15) or (4, 1) <= (day.month, day.day) <= (4, 9)


def _training(day: date, sort: Sort, scenario: Scenario, chance: Random) -> TrainingDay:
    called = _called(day, scenario) or sort == "night"
    wind = max(1.0, chance.gauss(scenario.wind[day.month - 1], 4.0))
    if called:
        wind = min(wind, 13.0)
    hours = {"evening": 18.2, "night": scenario.dark[day.month - 1], "shore": 10.0}
    hour = hours.get(sort, 9.2) + chance.random() * 0.5
    toward = 290 if chance.random() < 0.6 else 150
    return TrainingDay(day, sort, hour, wind, int(toward + chance.gauss(0, 35)) % 360, called)
