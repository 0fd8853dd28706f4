"""The one training sortie that would extend most of what ends soon for a person.

A sortie that has not been flown is added to the evidence on the day after, and the engine is asked
again: so what is promised here is what the record will say. Candidates are few: the conditions
that the requirements ask for, each alone and their combinations, with everything in one sortie
that such conditions allow; then what adds nothing is taken out again.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from crewtrack.engine.case import Case
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.days import FOREVER
from crewtrack.engine.due import Due, told_elsewhere
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Floor, Holds, Only, Recent, Requirement, inside
from crewtrack.engine.settings import meets, worth_trying
from crewtrack.engine.spans import as_date, run_at
from crewtrack.engine.standard import Standard
from crewtrack.engine.standing import Docket
from crewtrack.engine.trial import Flight, Trial


@dataclass(frozen=True, slots=True)
class Extended:
    """Something that would last longer: through ``was`` as things stand, then through
    ``through`` (None: no limit). ``requirement`` is empty for the qualification as a whole."""

    qualification: str
    title: str
    requirement: str
    was: date
    through: date | None


@dataclass(frozen=True, slots=True)
class Proposal:
    """One live sortie on ``day``: the titles of its tasks and how often each, in conditions no
    easier than ``floor`` on craft of ``only``, of at least ``minutes`` (0: any), and whether it
    has to be supervised. ``extends`` are requirements that were due, ``whole`` the qualifications
    whose own last day moves with them."""

    person: str
    name: str
    day: date
    tasks: tuple[tuple[str, int], ...]
    floor: Floor
    only: Only
    minutes: int
    supervised: bool
    extends: tuple[Extended, ...]
    whole: tuple[Extended, ...]


def best_sorties(reckoning: Reckoning, dues: tuple[Due, ...], on: date) -> Mapping[str, Proposal]:
    """What one sortie on the day after would extend most, in days summed over a person's listed
    requirements, by person; none for somebody whom no practice helps."""
    by_person = _by_person(reckoning, dues)
    settings = {
        person: tuple(worth_trying([leaf for due in some for leaf in _leaves(reckoning, due)]))
        for person, some in by_person.items()
    }
    every = tuple(dict.fromkeys(one for some in settings.values() for one in some))
    trial = Trial.after(reckoning.evidence.sorties, on.toordinal(), every)
    conditions = tuple(Conditions(trial.sorties, s) for s in reckoning.editions.standards)
    found: dict[str, Proposal] = {}
    for person, some in by_person.items():
        asked = _Asked(reckoning, trial, conditions, some)
        best = asked.best([every.index(one) for one in settings[person]])
        if best is not None:
            found[person] = best
    return found


def _by_person(reckoning: Reckoning, dues: tuple[Due, ...]) -> Mapping[str, list[Due]]:
    """What practice can extend, and does not follow from something else that is listed."""
    by_person: dict[str, list[Due]] = {}
    passed_on = told_elsewhere(dues)
    for due in dues:
        if due not in passed_on and _leaves(reckoning, due):
            by_person.setdefault(due.person, []).append(due)
    return by_person


def _leaves(reckoning: Reckoning, due: Due) -> tuple[Recent, ...]:
    """The recent practice that a requirement rests on, at any depth."""
    if due.need is None:
        return ()
    return tuple(_practice(due.need, reckoning.editions.standards[due.edition]))


def _practice(need: Requirement, standard: Standard) -> Iterator[Recent]:
    for requirement in inside(need):
        if isinstance(requirement, Recent):
            yield requirement
        elif isinstance(requirement, Holds):
            for other in standard.qualifications[requirement.qualification].needs:
                yield from _practice(other, standard)


class _Asked:
    """One person's requirements that are due, asked about again with a flight added."""

    def __init__(
        self,
        reckoning: Reckoning,
        trial: Trial,
        conditions: tuple[Conditions, ...],
        dues: Sequence[Due],
    ) -> None:
        self._reckoning = reckoning
        self._trial = trial
        self._conditions = conditions
        self._dues = dues
        self._books = trial.books(reckoning.evidence.books[dues[0].person])

    def best(self, settings: Sequence[int]) -> Proposal | None:
        """The flight that extends most, of several the first, without what adds nothing to it."""
        flights = [self._flight(index) for index in settings]
        gains = [self._gain(flight) for flight in flights]
        most = max(gains, default=0)
        if most <= 0:
            return None
        return self._proposal(self._trimmed(flights[gains.index(most)], most))

    def _flight(self, index: int) -> Flight:
        """Everything that a setting allows, in one sortie."""
        setting = self._trial.settings[index]
        leaves = [leaf for due in self._dues for leaf in _leaves(self._reckoning, due)]
        tasks: dict[str, int] = {}
        for leaf in sorted(leaves, key=lambda leaf: len(leaf.tasks)):
            if meets(setting, leaf):
                task = next((task for task in leaf.tasks if task in tasks), leaf.tasks[0])
                times = leaf.amount if leaf.measure == "times" else 1
                tasks[task] = max(tasks.get(task, 0), times)
        return Flight(index, tuple(tasks.items()))

    def _trimmed(self, flight: Flight, gain: int) -> Flight:
        """The same gain with less: unsupervised, without a task, with fewer times of one."""
        alone = replace(flight, supervised=False)
        if self._gain(alone) >= gain:
            flight = alone
        for task, times in flight.tasks:
            for fewer in range(times):
                changed = (*((t, fewer if t == task else n) for t, n in flight.tasks),)
                less = replace(flight, tasks=tuple((t, n) for t, n in changed if n))
                if self._gain(less) >= gain:
                    flight = less
                    break
        return flight

    def _gain(self, flight: Flight) -> int:
        """Days, summed over the requirements that are due."""
        cases = self._cases(flight)
        return sum(
            max(self._through(cases, due) - due.through.toordinal(), 0) for due in self._dues
        )

    def _cases(self, flight: Flight | None) -> tuple[Case, ...]:
        trial, standards = self._trial, self._reckoning.editions.standards
        books = trial.flown(self._books, flight) if flight else self._books
        evidence = replace(self._reckoning.evidence, sorties=trial.sorties)
        return tuple(
            Case(books, evidence, standard, conditions, trial.day)
            for standard, conditions in zip(standards, self._conditions, strict=True)
        )

    def _through(self, cases: Sequence[Case], due: Due) -> int:
        """The last day of what is met on the day of the flight; 0 where it is not."""
        if due.need is None:
            return 0
        start = self._reckoning.editions.stretch(due.edition)[0]
        days = cases[due.edition].ahead.requirement(due.qualification, due.need)
        run = run_at(days, max(self._trial.day, start))
        return run[1] if run else 0

    def _proposal(self, flight: Flight) -> Proposal:
        setting, cases = self._trial.settings[flight.setting], self._cases(flight)
        first, titles = self._dues[0], self._reckoning.editions.on(self._trial.day).tasks
        return Proposal(
            first.person,
            first.name,
            date.fromordinal(self._trial.day),
            tuple((titles[t].title if t in titles else t, n) for t, n in flight.tasks),
            setting.floor,
            setting.only,
            setting.minutes,
            flight.supervised,
            tuple(
                Extended(d.qualification, d.title, d.requirement, d.through, as_date(last))
                for d in self._dues
                if (last := self._through(cases, d)) > d.through.toordinal()
            ),
            tuple(self._whole(cases)),
        )

    def _whole(self, cases: tuple[Case, ...]) -> Iterator[Extended]:
        """The qualifications that last longer than without the flight."""
        editions, day = self._reckoning.editions, self._trial.day
        before, after = (Docket(editions, some) for some in (self._cases(None), cases))
        assigned = [key for key in editions.qualifications if run_at(after.assigned(key), day)]
        for key in assigned:
            was, now = run_at(before.met(key), day - 1), run_at(after.met(key), day)
            if was and now and was[1] < now[1] and was[1] < FOREVER:
                told = editions.on(day - 1).qualifications.get(key)
                title = told.title if told else key
                yield Extended(key, title, "", date.fromordinal(was[1]), as_date(now[1]))
