"""What one edition asks of one person, as sets of days.

The days on which evidence meets a requirement are given; here they are joined by ``all``, ``any``
and ``holds``, and widened by waivers and extensions.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import reduce
from typing import assert_never

from crewtrack.engine.covers import Leaf
from crewtrack.engine.evidence import Books, Waiver
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Recent, Requirement, Signed
from crewtrack.engine.spans import ALWAYS, NEVER, Days, difference, intersection, join, union
from crewtrack.engine.standard import Standard


class Terms:
    """The days that count by waivers and stand-downs that start by ``until``, and by ``leaf``,
    which tells the days on which evidence meets a requirement.

    ``leaf`` may tell of a part of all days only: then so do the answers, which on each day rest
    on nothing but that day. Those about qualifications are remembered.
    """

    def __init__(
        self, books: Books, standard: Standard, leaf: Callable[[Leaf], Days], until: int
    ) -> None:
        self.without: frozenset[str] = frozenset()
        self._books = books
        self._standard = standard
        self._leaf = leaf
        self._until = until
        self._each: dict[str, Sequence[Days]] = {}
        self._qualifications: dict[str, Days] = {}

    def leaving_out(self, waivers: Iterable[str]) -> "Terms":
        """The same without some waivers and extensions."""
        other = Terms(self._books, self._standard, self._leaf, self._until)
        other.without = frozenset(waivers)
        return other

    def qualification(self, key: str) -> Days:
        """The days on which all requirements of a qualification are met."""
        known = self._qualifications.get(key)
        if known is None:
            known = self._qualifications[key] = _all_of(self.each(key))
        return known

    def each(self, key: str) -> Sequence[Days]:
        """The days of each requirement of a qualification, in the order of the standard."""
        known = self._each.get(key)
        if known is None:
            needs = self._standard.qualifications[key].needs
            known = self._each[key] = [self.requirement(key, need) for need in needs]
        return known

    def requirement(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement of a qualification is met, or waived."""
        days = self.by_itself(qualification, requirement)
        if not self._books.waivers:
            return days
        waived = self.waived(qualification, requirement)
        return union(days, join((w.first, w.last) for w in waived)) if waived else days

    def waived(self, qualification: str, requirement: Requirement) -> tuple[Waiver, ...]:
        """The waivers and extensions that bear on a requirement; only one whose id the standard
        wrote has any."""
        if not requirement.named:
            return ()
        return tuple(
            waiver
            for waiver in self._books.waivers
            if waiver.qualification == qualification
            and waiver.requirement == requirement.id
            and waiver.first <= self._until
            and waiver.key not in self.without
        )

    def stood_down(self, qualification: str) -> Days:
        """The days on which a stand-down covers a qualification."""
        if not self._books.standdowns:
            return NEVER
        return join(
            (down.first, down.last)
            for down in self._books.standdowns
            if down.qualification in (None, qualification) and down.first <= self._until
        )

    def by_itself(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement is met, waivers of this very one left out."""
        match requirement:
            case Recent() | Signed() | Certified():
                return self._leaf(requirement)
            case AllOf():
                return _all_of([self.requirement(qualification, n) for n in requirement.needs])
            case AnyOf():
                return union(*(self.requirement(qualification, n) for n in requirement.needs))
            case Holds():
                other = requirement.qualification
                return difference(self.qualification(other), self.stood_down(other))
            case _:
                assert_never(requirement)


def _all_of(parts: Sequence[Days]) -> Days:
    return reduce(intersection, parts) if parts else ALWAYS
