"""A slow, obvious oracle of what "current" means, day by day.

For each day it takes what was known by then, asks of each requirement whether it is met, and reads
everything else off those answers: words, ``since``, ``through``, ``limiting``, ``by_waiver``.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import combinations

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Evidence
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Recent, Requirement, Signed
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Editions, Standard
from crewtrack.engine.standings import HistoryRow, Standing
from tests.oracle_calendar import later
from tests.oracle_known import dates_of, known_on
from tests.oracle_rules import Cover, certified_covers, recent_covers, signed_covers

ONE_DAY = timedelta(days=1)
NINE_YEARS = timedelta(days=9 * 366)


@dataclass(frozen=True)
class View:
    """Whose requirements, under which edition, known on which day, with which waivers."""

    person: str
    standard: Standard
    known_by: date
    reliefs: frozenset[str]


class Oracle:
    """Answers for one body of evidence and its editions.

    ``beyond``: longer than any horizon asked about; what holds so long after all dates is open.
    """

    def __init__(
        self, evidence: Evidence, editions: Editions, beyond: timedelta = NINE_YEARS
    ) -> None:
        self.evidence = evidence
        self.standards = editions.standards
        self.keys = editions.qualifications
        dates = sorted(self._all_dates())
        self.first, self.last = dates[0] - ONE_DAY, dates[-1] + beyond
        self._covers: dict[tuple[str, int, int], list[Cover]] = {}
        self._met: dict[tuple[str, str, date, date], bool] = {}
        self._changes = {person: self._known_changes(person) for person in evidence.books}

    def _all_dates(self) -> Iterator[date]:
        yield from (standard.effective for standard in self.standards)
        yield from (date.fromordinal(day) for day in self.evidence.sorties.day)
        for books in self.evidence.books.values():
            yield from (date.fromordinal(day) for day in dates_of(books) if day < FOREVER)

    def _known_changes(self, person: str) -> list[date]:
        """The days on which something of a person's becomes known, in order."""
        days = set(dates_of(self.evidence.books[person]))
        for performances in self.evidence.books[person].performances.values():
            days |= {self.evidence.sorties.day[i] for i in performances.sortie}
        return sorted(date.fromordinal(day) for day in days if day < FOREVER)

    def edition_on(self, day: date) -> Standard:
        """The edition in effect; before the first one, that."""
        serving = self.standards[0]
        for standard in self.standards:
            if standard.effective <= day:
                serving = standard
        return serving

    def view(self, person: str, day: date, today: date) -> View:
        """How ``day`` looks from ``today``: what is dated later than either is left out."""
        known_by = min(day, today)
        standard = self.edition_on(day)
        waivers = self.evidence.books[person].waivers
        if not waivers:
            return View(person, standard, known_by, frozenset())
        keys = frozenset(w.key for w in waivers if w.first <= known_by.toordinal())
        return View(person, standard, known_by, keys)

    def covers(self, need: Recent | Signed | Certified, view: View) -> list[Cover]:
        """A requirement's covers; worked out once for all days on which the same is known."""
        changes = self._changes[view.person]
        place = bisect_right(changes, view.known_by)
        key = (view.person, id(need), place)
        if key not in self._covers:
            books = self.evidence.books[view.person]
            known = known_on(self.evidence, books, view.standard, view.known_by)
            if isinstance(need, Recent):
                self._covers[key] = recent_covers(need, known)
            elif isinstance(need, Signed):
                self._covers[key] = signed_covers(need, known)
            else:
                self._covers[key] = certified_covers(need, known)
        return self._covers[key]

    def is_met(self, view: View, qualification: str, need: Requirement, day: date) -> bool:
        """Whether a requirement of a qualification is met, by itself or by waiver."""
        return self._waived(view, qualification, need, day) or self.by_itself(
            view, qualification, need, day
        )

    def by_itself(self, view: View, qualification: str, need: Requirement, day: date) -> bool:
        """Whether a requirement is met, waivers of it apart."""
        if isinstance(need, Holds):
            return self.all_met(view, need.qualification, day) and not self._stood_down(
                view, need.qualification, day
            )
        if isinstance(need, AnyOf):
            return any(self.is_met(view, qualification, n, day) for n in need.needs)
        if isinstance(need, AllOf):
            return all(self.is_met(view, qualification, n, day) for n in need.needs)
        return any(first <= day <= last for first, last in self.covers(need, view))

    def _waived(self, view: View, qualification: str, need: Requirement, day: date) -> bool:
        return need.named and any(
            w.key in view.reliefs
            and (w.qualification, w.requirement) == (qualification, need.id)
            and w.first <= day.toordinal() <= w.last
            for w in self.evidence.books[view.person].waivers
        )

    def _stood_down(self, view: View, qualification: str, day: date) -> bool:
        return any(
            s.qualification in (None, qualification)
            and s.first <= view.known_by.toordinal()
            and s.first <= day.toordinal() <= s.last
            for s in self.evidence.books[view.person].standdowns
        )

    def all_met(self, view: View, qualification: str, day: date) -> bool:
        """Whether all requirements of a qualification are met."""
        held = view.standard.qualifications.get(qualification)
        return held is not None and all(
            self.is_met(view, qualification, need, day) for need in held.needs
        )

    def met(self, person: str, qualification: str, day: date, today: date) -> bool:
        """Whether a qualification's requirements are met on a day, as seen from today."""
        key = (person, qualification, day, min(day, today))
        if key not in self._met:
            self._met[key] = self.all_met(self.view(person, day, today), qualification, day)
        return self._met[key]

    def assigned(self, person: str, qualification: str, day: date) -> bool:
        """Whether an assignment covers the day."""
        return any(
            a.qualification == qualification and a.first <= day.toordinal() <= a.last
            for a in self.evidence.books[person].assignments
        )

    def on_the_books(self, person: str, day: date) -> bool:
        """Whether the day lies from ``joined`` through ``left``."""
        who = self.evidence.books[person].person
        joined = who.joined is None or who.joined <= day.toordinal()
        return joined and (who.left is None or day.toordinal() <= who.left)

    def standing(self, person: str, qualification: str, today: date) -> Standing:
        """Section 5, in its order."""
        bare = Standing(person, qualification, "none")
        here = self.view(person, today, today)
        if (
            not self.on_the_books(person, today)
            or not self.assigned(person, qualification, today)
            or qualification not in here.standard.qualifications
        ):
            return bare
        if self._stood_down(here, qualification, today):
            return replace(bare, word="stood-down")
        if self.met(person, qualification, today, today):
            return self._current(person, qualification, today)
        return self._not_current(person, qualification, today)

    def _current(self, person: str, qualification: str, today: date) -> Standing:
        since, through = today, today
        while since > self.first and self.met(person, qualification, since - ONE_DAY, today):
            since -= ONE_DAY
        while through < self.last and self.met(person, qualification, through + ONE_DAY, today):
            through += ONE_DAY
        is_open = through == self.last
        notice = later(today, self.edition_on(today).notice)
        limiting = () if is_open else self._unmet(person, qualification, through + ONE_DAY, today)
        return Standing(
            person,
            qualification,
            "current" if through >= notice else "due",
            since,
            None if is_open else through,
            limiting,
            self._by_waiver(person, qualification, today, through),
        )

    def _not_current(self, person: str, qualification: str, today: date) -> Standing:
        unmet = self._unmet(person, qualification, today, today)
        day = today
        while day >= self.first and self.assigned(person, qualification, day):
            if self.met(person, qualification, day, today):
                break
            day -= ONE_DAY
        else:
            return Standing(person, qualification, "training", limiting=unmet)
        return Standing(person, qualification, "lapsed", since=day + ONE_DAY, limiting=unmet)

    def _unmet(self, person: str, qualification: str, day: date, today: date) -> tuple[str, ...]:
        view = self.view(person, day, today)
        held = view.standard.qualifications.get(qualification)
        if held is None:
            return ("edition",)
        return tuple(n.id for n in held.needs if not self.is_met(view, qualification, n, day))

    def _by_waiver(
        self, person: str, qualification: str, today: date, through: date
    ) -> tuple[str, ...]:
        """All that belong to a smallest set on which the standing rests: a set that is enough,
        while no part of it is."""
        keys = sorted(self.view(person, today, today).reliefs)
        if not keys:
            return ()
        enough: list[set[str]] = []
        for count in range(len(keys) + 1):
            for some in combinations(keys, count):
                smaller = any(less <= set(some) for less in enough)
                if not smaller and self._holds_with(
                    person, qualification, set(some), (today, through)
                ):
                    enough.append(set(some))
        return tuple(sorted(set().union(*enough)))

    def _holds_with(
        self, person: str, qualification: str, reliefs: set[str], span: tuple[date, date]
    ) -> bool:
        day, through = span
        while day <= through:
            view = replace(self.view(person, day, span[0]), reliefs=frozenset(reliefs))
            if not self.all_met(view, qualification, day):
                return False
            day += ONE_DAY
        return True

    def history(self) -> tuple[HistoryRow, ...]:
        """For every pair with an assignment, the days that count, each as that day knew it."""
        return tuple(
            HistoryRow(person, qualification, self._spans(person, qualification))
            for person in sorted(self.evidence.books)
            for qualification in self.keys
            if any(
                a.qualification == qualification for a in self.evidence.books[person].assignments
            )
        )

    def _spans(self, person: str, qualification: str) -> tuple[Span, ...]:
        return self._runs(lambda day: self._counts(person, qualification, day))

    def requirement_spans(
        self, person: str, standard: Standard, need: Recent | Signed | Certified
    ) -> tuple[Span, ...]:
        """The days on which a requirement is met under one edition, each as that day knew it."""

        def is_met(day: date) -> bool:
            return self.by_itself(View(person, standard, day, frozenset()), "", need, day)

        return self._runs(is_met)

    def _runs(self, counts: Callable[[date], bool]) -> tuple[Span, ...]:
        """Day after day through all that matters; a run that goes on to the end is open."""
        spans: list[Span] = []
        day, first = self.first, None
        while day <= self.last:
            here = counts(day)
            if here and first is None:
                first = day
            if not here and first is not None:
                spans.append(Span(first, day - ONE_DAY))
                first = None
            day += ONE_DAY
        return (*spans, Span(first, None)) if first else tuple(spans)

    def _counts(self, person: str, qualification: str, day: date) -> bool:
        return (
            self.assigned(person, qualification, day)
            and self.on_the_books(person, day)
            and self.met(person, qualification, day, day)
            and not self._stood_down(self.view(person, day, day), qualification, day)
        )
