"""What the oracle knows of a person on a day: nothing dated later is in it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from crewtrack.engine.evidence import Books, Certificate, Evidence, SignOff, Sorties
from crewtrack.engine.standard import Standard


@dataclass(frozen=True)
class Practised:
    """One performance, with what the rules ask of it."""

    day: date
    sortie: int
    task: str
    times: int
    minutes: int
    drill: bool
    supervised: bool


@dataclass(frozen=True)
class Known:
    """What is known of one person on a day: nothing dated later is in it."""

    sorties: Sorties
    born: date | None
    practised: tuple[Practised, ...]
    signoffs: tuple[SignOff, ...]
    certificates: tuple[Certificate, ...]


def known_on(evidence: Evidence, books: Books, standard: Standard, today: date) -> Known:
    """Drop all that is dated after ``today``; a withdrawn sign-off is gone from its withdrawal,
    and a pass that has to be certified is not there before."""
    now = today.toordinal()
    practised = [p for _, p in sorted(_practised(evidence, books), key=lambda p: p[0])]
    return Known(
        evidence.sorties,
        books.person.born,
        tuple(p for p in practised if p.day <= today),
        tuple(
            s
            for s in books.signoffs
            if s.day <= now
            and not (s.withdrawn and s.withdrawn <= now)
            and not _waits(s, standard, now)
        ),
        tuple(
            c if c.revoked and c.revoked <= now else replace(c, revoked=None)
            for c in books.certificates
            if c.issued <= now
        ),
    )


def _waits(signoff: SignOff, standard: Standard, now: int) -> bool:
    """Whether it is a pass that has to be certified, and has not been."""
    if signoff.result == "failed" or signoff.task not in standard.tasks:
        return False
    if not standard.tasks[signoff.task].certified_by:
        return False
    return not signoff.certified or signoff.certified > now


def _practised(evidence: Evidence, books: Books) -> list[tuple[tuple[int, int], Practised]]:
    rows = []
    for task, done in books.performances.items():
        for place, i in enumerate(done.sortie):
            supervisor = done.supervisor[place]
            one = Practised(
                date.fromordinal(evidence.sorties.day[i]),
                i,
                task,
                done.times[place],
                evidence.sorties.minutes[i],
                evidence.sorties.drill[i],
                supervisor is not None and supervisor != books.person.key,
            )
            rows.append(((i, done.order[place]), one))
    return rows


def dates_of(books: Books) -> Iterator[int]:
    """Every date in a person's books, flights apart."""
    who = books.person
    yield from (day for day in (who.joined, who.left) if day is not None)
    for assignment in books.assignments:
        yield from (assignment.first, assignment.last)
    for waiver in books.waivers:
        yield from (waiver.first, waiver.last)
    for standdown in books.standdowns:
        yield from (standdown.first, standdown.last)
    for signoff in books.signoffs:
        days = (signoff.day, signoff.withdrawn, signoff.certified)
        yield from (day for day in days if day is not None)
    for c in books.certificates:
        yield from (day for day in (c.issued, c.expires, c.revoked) if day is not None)
