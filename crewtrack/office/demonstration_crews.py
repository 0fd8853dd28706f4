"""Who comes to a training day of the demonstration unit, who takes which seat, and who needs
supervision there."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from datetime import date, timedelta
from itertools import takewhile
from random import Random
from typing import Final

from crewtrack.office.demonstration_calendar import TrainingDay
from crewtrack.office.demonstration_conditions import Conditions
from crewtrack.office.demonstration_scenario import Member, Scenario, within
from crewtrack.office.demonstration_signing import Signing

FRESH: Final = {
    "deck": (3, 80),
    "night": (2, 80),
    "under-way": (2, 105),
    "handler": (3, 80),
    "night-handler": (1, 105),
}
"""How many within how many days the unit wants before it lets somebody go unsupervised: a little
stricter than the standard."""
_SLIP: Final = 0.02
"""How often nobody notices that supervision was needed."""


class Practice:
    """How often and when everybody did what so far."""

    def __init__(self) -> None:
        self._days: dict[tuple[str, str], list[date]] = defaultdict(list)

    def add(self, person: str, what: str, day: date) -> None:
        """Somebody did something once more."""
        self._days[person, what].append(day)

    def count(self, person: str, what: str, day: date, days: int) -> int:
        """How often somebody did something in the days before, and on that day."""
        since = day - timedelta(days=days)
        return sum(
            1 for _ in takewhile(lambda when: when >= since, reversed(self._days[person, what]))
        )

    def fresh(self, person: str, what: str, day: date) -> bool:
        """Whether somebody did it often enough of late."""
        times, days = FRESH[what]
        return self.count(person, what, day, days) >= times


def attendance(training: TrainingDay, scenario: Scenario, chance: Random) -> list[Member]:
    """Who comes. The keenest never miss a day by the ice, nor a night that they fly."""
    coming = []
    for member in scenario.members:
        drawn = chance.random() * 10
        if member.joined is None or training.day < member.joined:
            continue
        if any(within(period, training.day) for period in member.away):
            continue
        sure = member.attendance >= 8 and (training.called or training.sort == "night")
        if sure or drawn < member.attendance:
            coming.append(member)
    return coming


class Crews:
    """Chooses seats by who has had least practice lately."""

    def __init__(self, signing: Signing, chance: Random) -> None:
        self.practice = Practice()
        self._signing = signing
        self._chance = chance

    def pilots(self, training: TrainingDay, present: Collection[Member]) -> list[Member]:
        """The day's pilots, who needs it most first."""
        day = training.day
        seat = "night-pilot" if training.sort == "night" else "pilot"

        def need(member: Member) -> float:
            lately = self.practice.count(member.key, "deck", day, 45)
            if training.called and member.attendance == 10:
                lately -= 12 if self.short(member, day) else 2
            waiting = self._signing.wanted(member.key, day) is not None
            nights = self.practice.count(member.key, "night", day, 60) if seat != "pilot" else 0
            return lately + 2 * nights - 8 * waiting + self._chance.random()

        able = [member for member in present if member.sits(seat, day)]
        return sorted(able, key=need)

    def short(self, pilot: Member, day: date) -> bool:
        """Whether a pilot has not flown three recoveries at sea within a fortnight; on the last
        days before the ice, everybody tries to."""
        return self.practice.count(pilot.key, "deck", day, 12) < 3

    def seat(self, seat: str, what: str, day: date, free: Iterable[Member]) -> Member | None:
        """The one of those free who has sat there least in two months."""
        able = [member for member in free if member.sits(seat, day)]

        def need(member: Member) -> float:
            others = (
                sum(other in member.seats for other in ("pilot", "helm"))
                if seat == "handler"
                else 0
            )
            lately = self.practice.count(member.key, what, day, 60)
            nights = self.practice.count(member.key, seat, day, 100) if seat != what else 0
            return lately + 9 * nights + self._chance.random() + others

        return min(able, key=need, default=None)

    def supervisor(
        self, member: Member, task: str, day: date, present: Collection[Member]
    ) -> Member | None:
        """An evaluator who is there, other than the person."""
        able = [
            evaluator
            for evaluator in self._signing.evaluators(task, day, present)
            if evaluator.key != member.key
        ]
        return self._chance.choice(able) if able else None

    def pilot_needs_supervision(self, pilot: Member, day: date, flown: Conditions) -> bool:
        """Whether the unit wants somebody beside this pilot on this flight."""

        def signed(want: str) -> bool:
            return self._signing.signed(pilot.key, "hand-recovery", want)

        def fresh(what: str) -> bool:
            return self.practice.fresh(pilot.key, what, day)

        ready = signed("drifting") and fresh("deck")
        if flown.night:
            ready = ready and signed("night") and fresh("night")
        if flown.way == "under-way":
            ready = ready and signed("under-way") and fresh("under-way")
        slip = signed("drifting") and self._chance.random() < _SLIP
        return not ready and not slip

    def handler_needs_supervision(self, handler: Member, day: date, flown: Conditions) -> bool:
        """Whether the unit wants somebody beside this handler."""
        if not self._signing.signed(handler.key, "handler-recovery"):
            return True
        if flown.night and not self.practice.fresh(handler.key, "night-handler", day):
            return True
        return not self.practice.fresh(handler.key, "handler", day)

    def watch_needs_supervision(self, member: Member, task: str) -> bool:
        """Whether an observer or helm still learns."""
        return not self._signing.signed(member.key, task)
