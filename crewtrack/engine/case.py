"""One person's evidence up to a day, before one edition of the standard.

On the days before that one, what counts is what each day knew, the same for whoever looks back.
From that day on, evidence leaves a single run of each requirement. The two are told apart, since
looking back takes one reckoning for all days asked about, and looking ahead next to none.
"""

from collections.abc import Iterable
from functools import partial

from crewtrack.engine import recent
from crewtrack.engine.amounts import Flown
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.cover import Cover, spliced
from crewtrack.engine.covers import Covers, Leaf
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Books, Evidence, SignOff, Waiver
from crewtrack.engine.practice import Practice
from crewtrack.engine.requirement import Recent, Requirement
from crewtrack.engine.signatures import standing
from crewtrack.engine.spans import Days
from crewtrack.engine.standard import Standard
from crewtrack.engine.terms import Terms


class Case:
    """One person, one edition, the evidence dated up to ``until`` (its last day, a day ordinal).

    ``evidence`` is the unit's: it has the sorties, and the names of all others. ``ahead`` answers
    for the days from ``until`` on and says nothing of those before.
    """

    def __init__(
        self,
        books: Books,
        evidence: Evidence,
        standard: Standard,
        conditions: Conditions,
        until: int,
    ) -> None:
        self.books = books
        self.sorties = evidence.sorties
        self.standard = standard
        self.conditions = conditions
        self.until = until
        self._everybody = evidence.books
        self._covers = Covers(books, evidence.sorties, conditions, standard.tasks)
        self._looking_back = Terms(books, standard, self._covers.met, FOREVER)
        self.ahead = self._looking_ahead()

    def as_of(self, until: int) -> "Case":
        """The same case with the evidence up to another day; what was reckoned is shared."""
        other = self._copied()
        other.until = until
        other.ahead = other._looking_ahead()
        return other

    def _looking_ahead(self) -> Terms:
        leaf = partial(self._covers.ahead, self.until)
        return Terms(self.books, self.standard, leaf, self.until)

    def _copied(self) -> "Case":
        other = Case.__new__(Case)
        other.__dict__.update(self.__dict__)
        return other

    def leaving_out(self, waivers: Iterable[str]) -> "Case":
        """The same case without some waivers; what does not rest on waivers is shared."""
        other, keys = self._copied(), frozenset(waivers)
        other._looking_back = self._looking_back.leaving_out(keys)
        other.ahead = self.ahead.leaving_out(keys)
        return other

    def qualification(self, key: str) -> Days:
        """The days on which all requirements of a qualification are met."""
        back, ahead = self._looking_back, self.ahead
        return spliced(back.qualification(key), ahead.qualification(key), self.until)

    def requirement(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement of a qualification is met, or waived."""
        back = self._looking_back.requirement(qualification, requirement)
        return spliced(back, self.ahead.requirement(qualification, requirement), self.until)

    def by_itself(self, qualification: str, requirement: Requirement) -> Days:
        """The days on which one requirement is met, waivers of this very one left out."""
        back = self._looking_back.by_itself(qualification, requirement)
        return spliced(back, self.ahead.by_itself(qualification, requirement), self.until)

    def waived(self, qualification: str, requirement: Requirement) -> tuple[Waiver, ...]:
        """The waivers and extensions that bear on a requirement; only one whose id the standard
        wrote has any."""
        return self.ahead.waived(qualification, requirement)

    def stood_down(self, qualification: str) -> Days:
        """The days on which a stand-down covers a qualification."""
        return self.ahead.stood_down(qualification)

    def cover(self, requirement: Leaf) -> Cover:
        """How long evidence covers a requirement, as each day knew it, whatever ``until`` is."""
        return self._covers.cover(requirement)

    @property
    def signoffs(self) -> tuple[SignOff, ...]:
        """The sign-offs, those that wait to be certified and withdrawn ones among them."""
        return tuple(s for s in self.books.signoffs if s.day <= self.until)

    def standing_signoffs(self, day: int) -> tuple[SignOff, ...]:
        """The sign-offs that count on a day, as known by ``until``: certified where this edition
        asks for it, and not withdrawn."""
        return standing(self.signoffs, min(day, self.until), self.standard.tasks)

    def unwithdrawn_signoffs(self, day: int) -> tuple[SignOff, ...]:
        """Those that would count if all that wait had been certified."""
        return standing(self.signoffs, min(day, self.until), {})

    def name(self, person: str) -> str:
        """What anybody is called, by key; the key where nobody of that key is known."""
        books = self._everybody.get(person)
        return books.person.name if books else person

    def practice(self, requirement: Recent) -> Practice:
        """The person's performances that bear on a requirement."""
        return self._covers.practice(requirement, self.until)

    @property
    def flown(self) -> Flown:
        """What reckoning practice needs of the sorties and the person."""
        return self._covers.flown

    def track(
        self, requirement: Recent, done: Practice, signoffs: tuple[SignOff, ...]
    ) -> recent.Track:
        """One requirement followed through practice and sign-offs."""
        checked = self._covers.checked(requirement, signoffs)
        return recent.track(requirement, done, checked, self.flown)
