"""One person's evidence up to a day, before one edition of the standard.

Here requirements of every kind become sets of days: each by its own module, then joined by
``all``, ``any`` and ``holds``, and widened by waivers and extensions.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import reduce
from typing import assert_never

from crewtrack.engine import certified, recent, signed
from crewtrack.engine.amounts import Flown
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.evidence import Books, SignOff, Sorties, Waiver
from crewtrack.engine.practice import Practice, checks, practice
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Recent, Requirement, Signed
from crewtrack.engine.spans import ALWAYS, Days, difference, intersection, join, union
from crewtrack.engine.standard import Standard


class Case:
    """One person, one edition, the evidence dated up to ``until`` (its last day, a day ordinal).

    ``without`` are the keys of waivers and extensions to be left out. Answers are remembered:
    a case is asked about many requirements, and a qualification may be held by several others.
    """

    def __init__(
        self,
        books: Books,
        sorties: Sorties,
        standard: Standard,
        conditions: Conditions,
        until: int,
    ) -> None:
        self.books = books
        self.sorties = sorties
        self.standard = standard
        self.conditions = conditions
        self.until = until
        self.without: frozenset[str] = frozenset()
        self.signoffs = tuple(s for s in books.signoffs if s.day <= until)
        self._own: dict[Requirement, Days] = {}
        self._practices: dict[tuple[object, ...], Practice] = {}
        self._qualifications: dict[str, Days] = {}

    def leaving_out(self, waivers: Iterable[str]) -> "Case":
        """The same case without some waivers; what does not rest on waivers is shared."""
        other = Case.__new__(Case)
        other.__dict__.update(self.__dict__)
        other.without = frozenset(waivers)
        other._qualifications = {}
        return other

    def qualification(self, key: str) -> Days:
        """The days on which all requirements of a qualification are met."""
        if key not in self._qualifications:
            needs = self.standard.qualifications[key].needs
            met = (self.requirement(key, need) for need in needs)
            self._qualifications[key] = reduce(intersection, met, ALWAYS)
        return self._qualifications[key]

    def requirement(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement of a qualification is met, or waived."""
        days = self.by_itself(qualification, requirement)
        waived = self.waived(qualification, requirement)
        return union(days, join((w.first, w.last) for w in waived)) if waived else days

    def waived(self, qualification: str, requirement: Requirement) -> tuple[Waiver, ...]:
        """The waivers and extensions that bear on a requirement; only one whose id the standard
        wrote has any."""
        if not requirement.named:
            return ()
        return tuple(
            waiver
            for waiver in self.books.waivers
            if waiver.qualification == qualification
            and waiver.requirement == requirement.id
            and waiver.first <= self.until
            and waiver.key not in self.without
        )

    def stood_down(self, qualification: str) -> Days:
        """The days on which a stand-down covers a qualification."""
        return join(
            (down.first, down.last)
            for down in self.books.standdowns
            if down.qualification in (None, qualification) and down.first <= self.until
        )

    def by_itself(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement is met, waivers of this very one left out."""
        match requirement:
            case AllOf():
                parts = (self.requirement(qualification, need) for need in requirement.needs)
                return reduce(intersection, parts, ALWAYS)
            case AnyOf():
                return union(*(self.requirement(qualification, n) for n in requirement.needs))
            case Holds():
                other = requirement.qualification
                return difference(self.qualification(other), self.stood_down(other))
            case Recent() | Signed() | Certified():
                rule = replace(requirement, id="", named=False)  # two may ask for the same
                if rule not in self._own:
                    self._own[rule] = self._reckon(requirement)
                return self._own[rule]
            case _:
                assert_never(requirement)

    def _reckon(self, requirement: Recent | Signed | Certified) -> Days:
        match requirement:
            case Recent():
                done = self.practice(requirement)
                return self._by_withdrawals(
                    lambda signoffs: self.track(requirement, done, signoffs).days
                )
            case Signed():
                return self._by_withdrawals(lambda signoffs: signed.days_met(requirement, signoffs))
            case Certified():
                certificates, born = self.books.certificates, self.books.person.born
                return certified.days_met(requirement, certificates, born, self.until)
            case _:
                assert_never(requirement)

    def practice(self, requirement: Recent) -> Practice:
        """The person's performances that bear on a requirement."""
        asked = (requirement.tasks, requirement.floor, requirement.only)
        if asked not in self._practices:
            self._practices[asked] = practice(
                requirement, self.books, self.sorties, self.conditions, self.until
            )
        return self._practices[asked]

    @property
    def flown(self) -> Flown:
        """What reckoning practice needs of the sorties and the person."""
        return Flown(self.sorties.minutes, self.sorties.drill, self.books.person.key)

    def track(
        self, requirement: Recent, done: Practice, signoffs: tuple[SignOff, ...]
    ) -> recent.Track:
        """One requirement followed through practice and sign-offs."""
        checked = checks(requirement, signoffs, self.sorties, self.conditions)
        return recent.track(requirement, done, [s.day for s in checked], self.flown)

    def standing_signoffs(self, day: int) -> tuple[SignOff, ...]:
        """The sign-offs that are not withdrawn on a day."""
        return tuple(s for s in self.signoffs if s.withdrawn is None or s.withdrawn > day)

    def _by_withdrawals(self, reckon: Callable[[tuple[SignOff, ...]], Days]) -> Days:
        """Reckon with all sign-offs; from each withdrawal on as if it had never been; joined."""
        days = reckon(self.standing_signoffs(0))
        for day in sorted({s.withdrawn for s in self.signoffs if s.withdrawn is not None}):
            if day <= self.until:
                before = intersection(days, ((1, day - 1),))
                after = reckon(self.standing_signoffs(day))
                days = union(before, intersection(after, ((day, ALWAYS[0][1]),)))
        return days
