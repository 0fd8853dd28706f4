"""What will end soon: every requirement of every assigned person, and what keeps it.

All is reckoned with the evidence up to a day, as if nothing more were done.
"""

from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass, replace
from datetime import date

from crewtrack.engine.case import Case
from crewtrack.engine.days import FOREVER, Duration
from crewtrack.engine.reasons import explained
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Holds, Requirement
from crewtrack.engine.spans import run_at
from crewtrack.engine.standing import EDITION, Docket, on_the_books
from crewtrack.engine.wording import rule
from crewtrack.phrases import phrase


@dataclass(frozen=True, slots=True)
class Due:
    """A top-level requirement that is met through ``through`` and not on the day after.

    ``edition`` is the position of the edition that asks for it, which may be one that takes
    effect on the day after; ``need`` is None where that edition drops the qualification.
    ``keeps`` says in words what would extend it.
    """

    person: str
    name: str
    qualification: str
    title: str
    edition: int
    need: Requirement | None
    rule: str
    through: date
    keeps: tuple[str, ...]

    @property
    def requirement(self) -> str:
        """The requirement's id; ``edition`` where an edition drops the qualification."""
        return EDITION if self.need is None else self.need.id


@dataclass(frozen=True, slots=True)
class _Window:
    """The days looked at: ``first``, and all before ``limit``."""

    first: int
    limit: int

    @property
    def length(self) -> Duration:
        return Duration(days=self.limit - self.first)


Ending = tuple[int, Requirement | None, int]
"""The edition's position, the requirement, and its last day."""


def listed(reckoning: Reckoning, on: date, within: int) -> tuple[Due, ...]:
    """All that is met on a day and whose last day is less than ``within`` days later, soonest
    first: with the notice for ``within``, what makes a standing due. What ends no sooner than the
    assignment, or the time on the books, is left out."""
    first = on.toordinal()
    window = _Window(first, min(first + max(within, 1), FOREVER))
    found = [due for key in reckoning.people(on) for due in _of_person(reckoning, key, window)]
    return tuple(sorted(found, key=lambda due: due.through))


def told_elsewhere(dues: tuple[Due, ...]) -> frozenset[Due]:
    """Those that only pass on what ends in another qualification which is listed for the same
    person, and no later."""
    own = {(d.person, d.qualification, d.through) for d in dues if not isinstance(d.need, Holds)}
    return frozenset(
        due
        for due in dues
        if isinstance(due.need, Holds)
        and any(
            (person, qualification) == (due.person, due.need.qualification)
            and through <= due.through
            for person, qualification, through in own
        )
    )


def _of_person(reckoning: Reckoning, person: str, window: _Window) -> Iterator[Due]:
    books = reckoning.evidence.books[person]
    docket = reckoning.docket(books, window.first)
    for key in reckoning.editions.qualifications:
        assignment = run_at(docket.assigned(key), window.first)
        if assignment is None:
            continue
        until = min(assignment[1], on_the_books(books)[1])
        for index, need, last in _endings(docket, key, window):
            if last < until:
                yield _due(docket, key, (index, need, last), window)


def _endings(docket: Docket, key: str, window: _Window) -> Iterator[Ending]:
    """The requirements of the editions in effect within the window that end within it."""
    now = docket.editions.index_on(window.first)
    for index in range(now, len(docket.cases)):
        start, end = docket.editions.stretch(index)
        if start >= window.limit:
            return
        case, before = docket.cases[index], docket.cases[index - 1] if index > now else None
        if key not in case.standard.qualifications:
            if before and key in before.standard.qualifications:
                yield index, None, start - 1
            continue
        start = max(start, window.first)
        for need in case.standard.qualifications[key].needs:
            last = _last(case, key, need, start)
            if last is None and before and _was_met(before, key, need.id, start - 1):
                yield index, need, start - 1
            elif last is not None and last < min(window.limit, end):
                yield index, need, last


def _last(case: Case, key: str, need: Requirement, day: int) -> int | None:
    run = run_at(case.ahead.requirement(key, need), day)
    return run[1] if run else None


def _was_met(case: Case, key: str, requirement: str, day: int) -> bool:
    """Whether the edition before did not ask for this, or it was met."""
    told = case.standard.qualifications.get(key)
    same = [need for need in told.needs if need.id == requirement] if told else []
    return all(run_at(case.ahead.requirement(key, need), day) for need in same)


def _due(docket: Docket, key: str, ending: Ending, window: _Window) -> Due:
    index, need, last = ending
    case = docket.cases[index]
    named = case if need else docket.cases[index - 1]
    person = docket.books.person
    if need is None:
        told: str = phrase(
            "edition {edition} does not ask for this qualification any more",
            edition=case.standard.edition,
        )
        keeps: tuple[str, ...] = ()
    else:
        told = rule(need, case.standard)
        day = max(window.first, docket.editions.stretch(index)[0])
        keeps = explained(_noticing(case, window.length), key, need, day).missing
    title = named.standard.qualifications[key].title
    through = date.fromordinal(last)
    return Due(person.key, person.name, key, title, index, need, told, through, keeps)


def _noticing(case: Case, notice: Duration) -> Case:
    """The same case under an edition that differs in its notice: within it, reasons say what
    keeps a requirement."""
    other = copy(case)
    other.standard = replace(case.standard, notice=notice)
    return other
