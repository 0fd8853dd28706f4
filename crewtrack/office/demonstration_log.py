"""The logbook of the demonstration unit: sortie cards filled in, as rows."""

from collections.abc import Collection, Sequence
from datetime import datetime, timedelta
from random import Random
from typing import Final

from crewtrack.facts import Row
from crewtrack.office.demonstration_calendar import TrainingDay
from crewtrack.office.demonstration_conditions import Conditions
from crewtrack.office.demonstration_crews import Practice
from crewtrack.office.demonstration_scenario import Member, Scenario
from crewtrack.office.demonstration_signing import Done

_EXERCISES: Final = (
    ("brief-go-no-go", 1.0),
    ("deck-start-up", 0.7),
    ("home-and-return", 0.4),
    ("deck-launch", 1.0),
    ("tail-in-approach", 0.9),
    ("manual-hold", 0.3),
    ("search-pattern", 0.35),
    ("battery-floor-recovery", 0.05),
)
"""What a pilot does on a sortie, and how often."""


class Log:
    """Sorties and performances so far, as rows; ``done`` is what the open day holds."""

    def __init__(self, scenario: Scenario, practice: Practice, chance: Random) -> None:
        self.sorties: list[Row] = []
        self.performances: list[Row] = []
        self.done: list[Done] = []
        self._words = scenario.words
        self._practice = practice
        self._chance = chance
        self._supervised = False
        self._waveoffs = 0

    def open_day(self, training: TrainingDay, first_launch: datetime) -> None:
        """Start a training day."""
        self.done = []
        self._training = training
        self._launch = first_launch
        self._number = 0

    def open_sortie(self, flown: Conditions, training: TrainingDay) -> None:
        """Start a sortie card."""
        self._number += 1
        self._flown = flown
        self._key = f"{training.day:%y%m%d}-{self._number}"
        self._minutes = min(24, max(5, round(self._chance.gauss(12, 3.2))))
        rough = 0.22 if (flown.sea or 0) >= 2 or flown.night else 0.1
        self._waveoffs = int(self._chance.random() < rough) + int(self._chance.random() < 0.03)
        self._supervised = False

    def close_sortie(self, pause: timedelta) -> None:
        """Enter the sortie, and come to the next launch."""
        flown = self._flown
        self.sorties.append(
            (
                self._key,
                self._launch,
                self._minutes,
                "live" if flown.live else "drill",
                flown.vessel.key if flown.vessel else None,
                flown.aircraft.key,
                flown.lat,
                flown.lon,
                flown.way,
                flown.sea,
                flown.wind_from,
                flown.wind,
                flown.heading,
                flown.speed,
                flown.set,
                flown.drift,
                None,
                None,
                self._chance.choice(self._words[self._purposes()]),
                self._remark(),
            )
        )
        spare = timedelta(minutes=self._chance.randrange(6))
        self._launch += timedelta(minutes=self._minutes) + pause + spare

    def pilot(self, pilot: Member, beside: Member | None, asked: Collection[str]) -> None:
        """What the pilot did, with the tasks that an evaluation asks for; every flight has a
        launch and a recovery."""
        self._supervised = beside is not None
        for task, often in self._often():
            drawn = self._chance.random()
            if drawn < often or task in asked:
                self._perform((pilot, task, self._times(task)), beside, (None, None, None))
        counts = (1 + self._waveoffs, self._waveoffs, self._stood())
        self._perform((pilot, "hand-recovery", 1), beside, counts)
        self._count_recovery(pilot)

    def _often(self) -> tuple[tuple[str, float], ...]:
        """The tasks that a pilot does before the recovery, and how often."""
        waved = 1.0 if self._waveoffs else 0.12
        return (
            *_EXERCISES,
            ("lost-link-drill", 0.06 if self._flown.live else 1),
            ("wave-off", waved),
        )

    def _times(self, task: str) -> int:
        if task == "tail-in-approach":
            return 1 + self._waveoffs + self._chance.randrange(2)
        return max(1, self._waveoffs) if task == "wave-off" else 1

    def handler(self, handler: Member, beside: Member | None) -> None:
        """The handler took the aircraft, at the approach that was not waved off."""
        counts = (1 + self._waveoffs, self._waveoffs, None)
        self._perform((handler, "handler-recovery", 1), beside, counts)
        if self._flown.live:
            self._practice.add(handler.key, "handler", self._training.day)
        if self._flown.night:
            self._practice.add(handler.key, "night-handler", self._training.day)

    def watch(self, member: Member, task: str, beside: Member | None) -> None:
        """Somebody kept the observer's watch, or steered."""
        self._perform((member, task, 1), beside, (None, None, None))
        self._practice.add(member.key, "helm" if task[0] == "h" else "observer", self._training.day)

    def _perform(
        self,
        did: tuple[Member, str, int],
        beside: Member | None,
        counts: tuple[int | None, int | None, str | None],
    ) -> None:
        member, task, times = did
        supervisor = beside.key if beside else None
        self.performances.append((self._key, member.key, task, times, supervisor, *counts))
        if task == "lost-link-drill":
            self._practice.add(member.key, "lost-link", self._training.day)
        self.done.append(Done(member.key, task, self._key, self._launch.date(), self._flown))

    def _count_recovery(self, pilot: Member) -> None:
        day = self._training.day
        if self._flown.away:
            self._practice.add(pilot.key, "deck", day)
            if self._flown.night:
                self._practice.add(pilot.key, "night", day)
        if self._flown.way == "under-way":
            self._practice.add(pilot.key, "under-way", day)

    def _stood(self) -> str | None:
        drawn = self._chance.random()
        return None if drawn < 0.2 else ("with-handler" if drawn < 0.75 else "apart")

    def _purposes(self) -> str:
        by_sort = {
            "night": "night-purposes",
            "shore": "shore-purposes",
            "course": "course-purposes",
        }
        return by_sort.get(self._training.sort, "purposes")

    def _remark(self) -> str | None:
        """One remark in three sorties, and one wherever a recovery was waved off."""
        if self._waveoffs and self._chance.random() < 0.6:
            return self._chance.choice(self._words["waveoff"])
        if self._chance.random() > 0.34:
            return None
        return self._chance.choice([line for name in self._about() for line in self._words[name]])

    def _about(self) -> Sequence[str]:
        flown = self._flown
        if not flown.live:
            return ("shore",)
        about: list[str] = [flown.way or "any", "any"]
        about += ["night"] if flown.night else []
        about += ["supervised"] if self._supervised else []
        if flown.wind is not None:
            about += ["calm"] if flown.wind < 3.5 else ["windy"] if flown.wind > 13 else []
        return about
