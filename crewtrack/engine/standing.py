"""Where one person is with one qualification on one day."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from crewtrack.engine.case import Case
from crewtrack.engine.cover import spliced
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Assignment, Books
from crewtrack.engine.spans import (
    NEVER,
    Days,
    as_date,
    difference,
    intersection,
    join,
    last_run_before,
    run_at,
)
from crewtrack.engine.standard import Editions
from crewtrack.engine.standings import Standing

EDITION = "edition"
MOST_SPARE = 8
"""Waivers at once that could do for each other; where there are more, all of them are named."""


@dataclass(frozen=True, slots=True)
class Docket:
    """One person's cases: one for each edition, all with evidence up to the same day."""

    editions: Editions
    cases: tuple[Case, ...]

    @property
    def books(self) -> Books:
        """The person's books."""
        return self.cases[0].books

    @property
    def until(self) -> int:
        """The last day whose evidence counts."""
        return self.cases[0].until

    def case_on(self, day: int) -> Case:
        """The case under the edition in effect on a day."""
        return self.cases[self.editions.index_on(day)]

    def leaving_out(self, waivers: Iterable[str]) -> "Docket":
        """The same without some waivers and extensions."""
        keys = frozenset(waivers)
        return Docket(self.editions, tuple(case.leaving_out(keys) for case in self.cases))

    def as_of(self, until: int) -> "Docket":
        """The same with evidence up to another day; what was reckoned is shared."""
        return Docket(self.editions, tuple(case.as_of(until) for case in self.cases))

    def met(self, qualification: str) -> Days:
        """The days on which all requirements are met, each edition's within its stretch, joined
        where they touch."""
        return self._over_editions(qualification, lambda case: case.qualification(qualification))

    def ahead(self, qualification: str) -> Days:
        """The same from ``until`` on; nothing is said of the days before."""
        return self._over_editions(
            qualification, lambda case: case.ahead.qualification(qualification)
        )

    def _over_editions(self, qualification: str, met: Callable[[Case], Days]) -> Days:
        parts = [
            met(case) if qualification in case.standard.qualifications else NEVER
            for case in self.cases
        ]
        days = parts[0]
        for index, part in enumerate(parts[1:], 1):
            days = spliced(days, part, self.editions.stretch(index)[0])
        return days

    def assigned(self, qualification: str) -> Days:
        """The days of the assignments known by then; touching ones are one."""
        return assigned(self.books.assignments, qualification, self.until)

    def counting(self, qualification: str) -> Days:
        """The days met, within assignment and time on the books, stand-downs taken out."""
        days = intersection(self.met(qualification), self.assigned(qualification))
        days = intersection(days, (on_the_books(self.books),))
        return difference(days, self.cases[0].stood_down(qualification))


def assigned(assignments: Sequence[Assignment], qualification: str, until: int) -> Days:
    """The days of assignment to a qualification, of assignments that start by ``until``."""
    return join(
        [
            (assignment.first, assignment.last)
            for assignment in assignments
            if assignment.qualification == qualification and assignment.first <= until
        ]
    )


def on_the_books(books: Books) -> tuple[int, int]:
    """The first and last day on which a person counts."""
    joined, left = books.person.joined, books.person.left
    return (1 if joined is None else joined, FOREVER if left is None else left)


def standing(docket: Docket, qualification: str, day: int) -> Standing:
    """The standing on ``day``, which is the docket's ``until`` or, for a forecast, later."""
    books = docket.books
    me, case = books.person.key, docket.case_on(day)
    assignment = run_at(docket.assigned(qualification), day)
    joined, left = on_the_books(books)
    dropped = qualification not in case.standard.qualifications
    if assignment is None or dropped or not joined <= day <= left:
        return Standing(me, qualification, "none")
    if run_at(case.stood_down(qualification), day):
        return Standing(me, qualification, "stood-down")
    days = docket.met(qualification)
    run = run_at(days, day)
    if run is None:
        return _not_met(docket, qualification, day, days, assignment[0])
    first, last = run
    return Standing(
        me,
        qualification,
        "current" if last >= case.standard.notice.after(day) else "due",
        since=date.fromordinal(first),
        through=as_date(last),
        limiting=_limiting(docket, qualification, last),
        by_waiver=_by_waiver(docket, qualification, day, last),
    )


def _not_met(
    docket: Docket, qualification: str, day: int, days: Days, assigned_from: int
) -> Standing:
    me = docket.books.person.key
    limiting = unmet(docket.case_on(day), qualification, day)
    run = last_run_before(days, day)
    if run is None or run[1] < assigned_from:
        return Standing(me, qualification, "training", limiting=limiting)
    since = date.fromordinal(run[1] + 1)
    return Standing(me, qualification, "lapsed", since=since, limiting=limiting)


def unmet(case: Case, qualification: str, day: int) -> tuple[str, ...]:
    """The ids of the top-level requirements not met on a day, the case's ``until`` or later."""
    needs = case.standard.qualifications[qualification].needs
    each = zip(needs, case.ahead.each(qualification), strict=True)
    return tuple([need.id for need, days in each if not run_at(days, day)])


def _limiting(docket: Docket, qualification: str, last: int) -> tuple[str, ...]:
    if last >= FOREVER - 1:
        return ()
    case = docket.case_on(last + 1)
    if qualification not in case.standard.qualifications:
        return (EDITION,)
    return unmet(case, qualification, last + 1)


def _by_waiver(docket: Docket, qualification: str, day: int, last: int) -> tuple[str, ...]:
    """The waivers without which the requirements would not be met on ``day``, or not through
    ``last``. Where several would do for each other, none of them is missed alone: then all that
    make up for the rest are named."""
    waivers = docket.books.waivers
    if not waivers:
        return ()
    live = sorted(w.key for w in waivers if w.first <= docket.until and w.last >= day)
    if not live:
        return ()

    def reaches(keys: Iterable[str]) -> bool:
        run = run_at(docket.leaving_out(set(live) - set(keys)).ahead(qualification), day)
        return run is not None and run[1] >= last

    return _carrying(live, reaches)


def _carrying(live: Sequence[str], reaches: Callable[[Iterable[str]], bool]) -> tuple[str, ...]:
    missed = {key for key in live if not reaches(set(live) - {key})}
    if reaches(missed):
        return tuple(key for key in live if key in missed)
    spare = [key for key in live if key not in missed]
    helpful = _helpful(spare, missed, reaches) if len(spare) <= MOST_SPARE else set(spare)
    return tuple(key for key in live if key in missed | helpful)


def _helpful(
    spare: Sequence[str], missed: set[str], reaches: Callable[[Iterable[str]], bool]
) -> set[str]:
    """Those that are needed in some way of making up for the rest: the members of all sets that
    suffice, and of which nothing can be left out."""
    ways: list[set[str]] = []
    for size in range(1, len(spare) + 1):
        for keys in map(set, combinations(spare, size)):
            if not any(way <= keys for way in ways) and reaches(missed | keys):
                ways.append(keys)
    return set().union(*ways)
