"""One person's cover under one edition: each requirement's worked out once, from all evidence."""

from collections.abc import Callable
from dataclasses import replace
from typing import assert_never

from crewtrack.engine import certified, recent, signed
from crewtrack.engine.amounts import Flown
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.cover import Cover
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Books, SignOff, Sorties
from crewtrack.engine.practice import Practice, checks, practice
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.signatures import Tasks, standing, turning_days
from crewtrack.engine.spans import Days

Leaf = Recent | Signed | Certified
"""The requirements that rest on evidence alone."""


class Covers:
    """One person's covers, found at the first asking and kept, for whatever day they are then
    asked about."""

    def __init__(
        self, books: Books, sorties: Sorties, conditions: Conditions, tasks: Tasks
    ) -> None:
        self.books = books
        self.sorties = sorties
        self.conditions = conditions
        self.tasks = tasks
        self._covers: dict[Leaf, Cover] = {}
        self._asked: list[Leaf] = []
        self._by_identity: dict[int, Cover] = {}

    def met(self, requirement: Leaf) -> Days:
        """The days on which a requirement is met, each as that day knew it."""
        return self.cover(requirement).met

    def ahead(self, day: int, requirement: Leaf) -> Days:
        """The days from ``day`` on, as known on it."""
        return self.cover(requirement).ahead(day)

    def cover(self, requirement: Leaf) -> Cover:
        """How long a requirement is covered.

        Kept by identity too, since to hash a requirement takes longer than all else that a day
        asks of it; the requirement is kept as well, so that no other gets its identity."""
        known = self._by_identity.get(id(requirement))
        if known is None:
            rule = replace(requirement, id="", named=False)  # two may ask for the same
            if rule not in self._covers:
                self._covers[rule] = self._worked_out(requirement)
            known = self._by_identity[id(requirement)] = self._covers[rule]
            self._asked.append(requirement)
        return known

    def practice(self, requirement: Recent, until: int) -> Practice:
        """The performances up to a day that bear on a requirement."""
        return practice(requirement, self.books, self.sorties, self.conditions, until)

    @property
    def flown(self) -> Flown:
        """What reckoning practice needs of the sorties and the person."""
        return Flown(self.sorties.minutes, self.sorties.drill, self.books.person.key)

    def checked(self, requirement: Recent, signoffs: tuple[SignOff, ...]) -> list[int]:
        """The days of the sign-offs that count as the whole requirement."""
        return [s.day for s in checks(requirement, signoffs, self.sorties, self.conditions)]

    def _worked_out(self, requirement: Leaf) -> Cover:
        match requirement:
            case Recent():
                done, flown = self.practice(requirement, FOREVER), self.flown
                if requirement.recheck is None:
                    return recent.cover(requirement, done, (), flown)
                return self._by_signoffs(
                    requirement.tasks,
                    lambda signoffs: recent.cover(
                        requirement, done, self.checked(requirement, signoffs), flown
                    ),
                )
            case Signed():
                return self._by_signoffs(
                    (requirement.task,), lambda signoffs: signed.cover(requirement, signoffs)
                )
            case Certified():
                certificates, born = self.books.certificates, self.books.person.born
                return certified.cover(requirement, certificates, born)
            case _:
                assert_never(requirement)

    def _by_signoffs(
        self, tasks: tuple[str, ...], reckon: Callable[[tuple[SignOff, ...]], Cover]
    ) -> Cover:
        """Reckon with the sign-offs of some tasks that count from their own dates on; from each
        certification and each withdrawal on with those that count then."""
        signoffs = tuple(s for s in self.books.signoffs if s.task in tasks)
        cover = reckon(standing(signoffs, 0, self.tasks))
        for day in turning_days(signoffs, self.tasks):
            cover = cover.replaced(reckon(standing(signoffs, day, self.tasks)), day)
        return cover
