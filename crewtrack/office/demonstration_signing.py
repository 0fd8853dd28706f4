"""The sign-offs of the demonstration unit: which are due, and which of them a day brings.

An evaluation waits until its day has come, the person is there, has flown what it takes, and an
evaluator is there too. A pass brings the next one, so many months later.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from random import Random
from typing import Final

from crewtrack.facts import Row
from crewtrack.office.demonstration_calendar import TrainingDay
from crewtrack.office.demonstration_conditions import Conditions
from crewtrack.office.demonstration_scenario import (
    COURSE,
    Member,
    Scenario,
    months_after,
)

WATCH_TASKS: Final = ("observer-watch", "helm-for-flight")
_FLIGHT_TASKS: Final = ("hand-recovery", "handler-recovery", "deck-launch", "tail-in-approach")
_ON_THE_DOCK: Final = ("brief-go-no-go", "home-and-return", "lost-link-drill")
_NOT_YET: Final = 0.06
"""How often an evaluation in the air shows that it is too soon."""
_A_DAY: Final = 3
"""At most so many sign-offs for one person on one day, the opening course apart."""


@dataclass(frozen=True, slots=True)
class Done:
    """What somebody did on one sortie of the training day; ``day`` is that of the launch, which
    can be past midnight."""

    person: str
    task: str
    sortie: str
    day: date
    conditions: Conditions


@dataclass(frozen=True, slots=True)
class Waiting:
    """An evaluation that is to come, on ``due`` at the soonest."""

    person: str
    task: str
    due: date
    level: str = "alone"
    want: str | None = None
    every: int = 0
    result: str = "passed"


class Signing:
    """The evaluations to come, and the sign-offs made so far, as rows without a key yet."""

    def __init__(self, scenario: Scenario, chance: Random) -> None:
        self.rows: list[Row] = []
        self._scenario = scenario
        self._chance = chance
        self._waiting = [
            *(one for member in scenario.members for one in _waiting(member, scenario)),
            *(
                Waiting(fail.person, fail.task, fail.day, want=fail.want, result="failed")
                for fail in scenario.failures
            ),
        ]
        self._signed: set[tuple[str, str, str | None]] = set()

    def signed(self, person: str, task: str, want: str | None = None) -> bool:
        """Whether somebody has been signed off, alone, for a task in such conditions."""
        return (person, task, want) in self._signed

    def wanted(self, person: str, day: date) -> str | None:
        """The conditions in which an evaluation of hand recovery waits for a pilot, if any."""
        wants = [w.want for w in self._waiting if w.person == person and w.want and w.due <= day]
        return wants[0] if wants else None

    def asked(self, person: str, day: date) -> set[str]:
        """The tasks in which somebody waits for an evaluation."""
        return {w.task for w in self._waiting if w.person == person and w.due <= day}

    def evaluators(self, task: str, day: date, present: Collection[Member]) -> list[Member]:
        """Those present who supervise and sign off a task: the visitor during the course, then
        the unit's own; watch evaluators have been told apart since the second edition."""
        if day < self._scenario.start + COURSE:
            return [member for member in self._scenario.members if member.left is not None]
        watch = task in WATCH_TASKS and day >= self._scenario.second
        qualification = "watch-evaluator" if watch else "deck-evaluator"
        return [member for member in present if member.holds(qualification, day)]

    def sign(self, training: TrainingDay, present: Sequence[Member], done: Sequence[Done]) -> None:
        """Sign off what the day allows."""
        here = {member.key for member in present}
        course = training.sort == "course"
        signed_today: dict[str, int] = {}
        for waiting in [w for w in self._waiting if w.due <= training.day and w.person in here]:
            if not course and signed_today.get(waiting.person, 0) >= _A_DAY:
                continue
            flown = _flown(waiting, done)
            if flown is None and not (_ashore(waiting) and self._chance.random() < 0.5):
                continue
            able = [
                member.key
                for member in self.evaluators(waiting.task, training.day, present)
                if member.key != waiting.person
            ]
            if able:
                day = flown.day if flown else training.day
                self._decide(waiting, day, self._chance.choice(able), flown)
                signed_today[waiting.person] = signed_today.get(waiting.person, 0) + 1

    def _decide(self, waiting: Waiting, day: date, evaluator: str, flown: Done | None) -> None:
        """Record a result, and what it brings: another try, or the next one in its time."""
        result = waiting.result
        unsure = flown is not None and waiting.level == "alone"
        if result == "passed" and unsure and self._chance.random() < _NOT_YET:
            result = "not-yet"
        self._record(waiting, day, result, evaluator, flown)
        self._waiting.remove(waiting)
        if result != "passed":
            again = day + timedelta(days=8 if result == "not-yet" else 14)
            self._waiting.append(replace(waiting, due=again, result="passed"))
        elif waiting.level in ("alone", "evaluator"):
            self._signed.add((waiting.person, waiting.task, waiting.want))
            self._signed.add((waiting.person, waiting.task, None))
            if waiting.every:
                self._waiting.append(replace(waiting, due=months_after(day, waiting.every)))

    def _record(
        self, waiting: Waiting, day: date, result: str, evaluator: str, flown: Done | None
    ) -> None:
        """Add one sign-off to the rows; its key comes later."""
        words = self._scenario.words
        remark = self._chance.choice(words["ashore" if flown is None else "passed"])
        if result != "passed":
            remark = self._chance.choice(words[result])
        self.rows.append(
            (
                "",
                waiting.person,
                waiting.task,
                day,
                waiting.level,
                result,
                evaluator,
                flown.sortie if flown else None,
                remark if result != "passed" or self._chance.random() < 0.6 else None,
                None,
                None,
                None,
            )
        )


def _ashore(waiting: Waiting) -> bool:
    """Whether an evaluation can be held on the dock."""
    return waiting.want is None and (
        waiting.task in _ON_THE_DOCK or waiting.level in ("briefed", "evaluator")
    )


def _flown(waiting: Waiting, done: Sequence[Done]) -> Done | None:
    """The last sortie of the day on which the task was done as the evaluation wants it."""
    for one in reversed(done):
        if (one.person, one.task) != (waiting.person, waiting.task):
            continue
        if waiting.want is None or _meets(one.conditions, waiting.want):
            return one
    return None


def _meets(conditions: Conditions, want: str) -> bool:
    if want == "night":
        return conditions.night and conditions.away
    return not conditions.night and conditions.away and want in (conditions.way, "drifting")


def _waiting(member: Member, scenario: Scenario) -> Iterator[Waiting]:
    """All evaluations that somebody's assignments bring, the first of each."""
    for evaluations in scenario.evaluations:
        for assigned in member.assigned:
            if assigned.qualification == evaluations.qualification:
                for task in evaluations.tasks:
                    base = Waiting(
                        member.key,
                        task,
                        assigned.first,
                        "alone",
                        evaluations.want,
                        evaluations.every,
                    )
                    yield from _steps(base, assigned.qualification, member, scenario)
    yield from _evaluator(member, scenario)


def _steps(
    base: Waiting, qualification: str, member: Member, scenario: Scenario
) -> Iterator[Waiting]:
    """Who came later is briefed first, then signed off under supervision, then alone."""
    late = base.due > scenario.start
    if late and base.want in (None, "drifting") and base.task in _FLIGHT_TASKS:
        yield replace(base, level="briefed", want=None, every=0)
        yield replace(base, due=base.due + timedelta(7), level="supervised", want=None, every=0)
    if qualification not in member.unsigned:
        every = 0 if qualification in member.unrenewed else base.every
        wait = 14 if late else (7 if base.want else 0)
        yield replace(base, due=base.due + timedelta(wait), every=every)


def _evaluator(member: Member, scenario: Scenario) -> Iterator[Waiting]:
    """An evaluator is signed off as one, for what he or she does aboard; watch evaluators while
    the first edition still lets a deck evaluator do it."""
    if any(one.qualification == "deck-evaluator" for one in member.assigned):
        task = "hand-recovery" if "pilot" in member.seats else "handler-recovery"
        yield Waiting(member.key, task, scenario.start, "evaluator", None, 28)
    if any(one.qualification == "watch-evaluator" for one in member.assigned):
        due = scenario.second - timedelta(days=45)
        yield Waiting(member.key, "helm-for-flight", due, "evaluator", None, 0)
