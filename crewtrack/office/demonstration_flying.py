"""The sorties of the demonstration unit, day by day, and who did what on them."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta, timezone
from random import Random
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.office.demonstration_calendar import TrainingDay, training_days
from crewtrack.office.demonstration_conditions import ROUGH, Conditions, conditions
from crewtrack.office.demonstration_crews import Crews, attendance
from crewtrack.office.demonstration_log import Log
from crewtrack.office.demonstration_scenario import Member, Scenario
from crewtrack.office.demonstration_signing import Signing

_FEWEST: Final = 5
"""A training day with fewer people is called off."""
_NEXT: Final = timedelta(minutes=9)
"""From one recovery to the next launch, with another brief between."""


class Flying:
    """Flies all training days of a scenario, in order."""

    def __init__(self, scenario: Scenario, zone: ZoneInfo, chance: Random) -> None:
        self._scenario = scenario
        self._zone = zone
        self._chance = chance
        self.signing = Signing(scenario, chance)
        self._crews = Crews(self.signing, chance)
        self.log = Log(scenario, self._crews.practice, chance)

    def fly(self) -> None:
        """All days; afterwards ``log`` and ``signing`` hold the rows."""
        for training in training_days(self._scenario, self._chance):
            present = attendance(training, self._scenario, self._chance)
            if len(present) >= _FEWEST or training.sort == "course":
                self._day(training, present)

    def _day(self, training: TrainingDay, present: Sequence[Member]) -> None:
        self.log.open_day(training, self._first_launch(training))
        if training.sort == "shore":
            self._ashore(training, present)
        else:
            self._afloat(training, present)
        self.signing.sign(training, present, self.log.done)

    def _first_launch(self, training: TrainingDay) -> datetime:
        """The clock on the wall at the first launch, with that day's offset."""
        minutes = int(training.hour * 60)
        local = datetime.combine(training.day, time(0), self._zone) + timedelta(minutes=minutes)
        return local.replace(tzinfo=timezone(local.utcoffset() or timedelta()))

    def _afloat(self, training: TrainingDay, present: Sequence[Member]) -> None:
        pilots = self._crews.pilots(training, present)
        places = {"course": 4, "night": 2, "evening": 2}.get(
            training.sort, 4 if training.called else 3
        )
        for pilot in pilots[:places]:
            for _ in range(3 if training.sort == "course" else 2):
                self._sortie(training, pilot, present)

    def _sortie(self, training: TrainingDay, pilot: Member, present: Sequence[Member]) -> None:
        day = training.day
        free = [member for member in present if member is not pilot]
        night = training.sort == "night"
        handler = self._crews.seat("night-handler" if night else "handler", "handler", day, free)
        free = [member for member in free if member is not handler]
        helm = self._crews.seat("helm", "helm", day, free)
        observer = self._crews.seat(
            "observer", "observer", day, [member for member in free if member is not helm]
        )
        flown = self._conditions(training, pilot)
        if handler is None or observer is None or (helm is None and flown.way != "moored"):
            return
        beside = self._beside(training, (pilot, handler), flown, present)
        if beside is None:
            return
        self.log.open_sortie(flown, training)
        self.log.pilot(pilot, beside[0], self._asked(pilot, training.day))
        self.log.handler(handler, beside[1])
        self._watch(training, (observer, "observer-watch"), present)
        if helm is not None and flown.way != "moored":
            self._watch(training, (helm, "helm-for-flight"), present)
        self.log.close_sortie(_NEXT)

    def _asked(self, pilot: Member, day: date) -> set[str]:
        """The tasks that an evaluation waits for, and the half-year's lost-link drill once half
        of it is over."""
        asked = self.signing.asked(pilot.key, day)
        half_year = date(day.year, 7 if day.month > 6 else 1, 1)
        done = self._crews.practice.count(pilot.key, "lost-link", day, (day - half_year).days)
        if not done and day.month in (4, 5, 6, 10, 11, 12):
            asked.add("lost-link-drill")
        return asked

    def _beside(
        self,
        training: TrainingDay,
        crew: tuple[Member, Member],
        flown: Conditions,
        present: Sequence[Member],
    ) -> tuple[Member | None, Member | None] | None:
        """Who supervises pilot and handler; None where one needs it and there is nobody."""
        pilot, handler = crew
        found: list[Member | None] = []
        for member, task, needed in (
            (
                pilot,
                "hand-recovery",
                self._crews.pilot_needs_supervision(pilot, training.day, flown),
            ),
            (
                handler,
                "handler-recovery",
                self._crews.handler_needs_supervision(handler, training.day, flown),
            ),
        ):
            beside = self._crews.supervisor(member, task, training.day, present) if needed else None
            if needed and beside is None:
                return None
            found.append(beside)
        return found[0], found[1]

    def _watch(
        self, training: TrainingDay, seated: tuple[Member, str], present: Sequence[Member]
    ) -> None:
        member, task = seated
        beside = None
        if self._crews.watch_needs_supervision(member, task):
            beside = self._crews.supervisor(member, task, training.day, present)
        self.log.watch(member, task, beside)

    def _conditions(self, training: TrainingDay, pilot: Member) -> Conditions:
        """Conditions that this pilot may be asked to fly in, on this day."""
        day = training.day
        flown = conditions(training, self._ways(training, pilot), self._scenario, self._chance)
        calm = not pilot.holds("rough-water-pilot", day) and day >= self._scenario.second
        if calm and (flown.sea or 0) >= ROUGH:
            return replace(flown, sea=ROUGH - 1)
        return flown

    def _ways(self, training: TrainingDay, pilot: Member) -> tuple[str, ...]:
        wanted = self.signing.wanted(pilot.key, training.day)
        if training.sort == "night":
            return ("drifting",)
        if training.sort == "course":
            return ("moored", "drifting", "drifting", "drifting")
        if wanted in ("drifting", "under-way"):
            return (wanted,)
        if training.called and self._crews.short(pilot, training.day):
            return ("drifting",)
        if "deck-pilot" in pilot.unsigned:
            return ("moored", "anchored", "drifting")
        ways = ("moored", "anchored", "drifting", "drifting", "drifting", "drifting")
        if pilot.holds("under-way-pilot", training.day):
            fresh = self._crews.practice.count(pilot.key, "under-way", training.day, 60) > 1
            return (*ways, *("under-way",) * (2 if fresh else 6))
        return ways

    def _ashore(self, training: TrainingDay, present: Sequence[Member]) -> None:
        """A drill on the dock: every pilot loses the link once, a handler takes the aircraft."""
        for pilot in [member for member in present if member.sits("pilot", training.day)]:
            free = [member for member in present if member is not pilot]
            handler = self._crews.seat("handler", "handler", training.day, free)
            flown = conditions(training, ("moored",), self._scenario, self._chance)
            if handler is None:
                continue
            beside = self._beside(training, (pilot, handler), flown, present)
            if beside is None:
                continue
            self.log.open_sortie(flown, training)
            self.log.pilot(pilot, beside[0], self._asked(pilot, training.day))
            self.log.handler(handler, beside[1])
            self.log.close_sortie(_NEXT)
