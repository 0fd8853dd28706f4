"""What an act did: to the record, and to where people stand today."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standings import Standing


@dataclass(frozen=True, slots=True)
class Change:
    """Where one person is with one qualification today, before an act and after it; ``name`` is
    the person's and ``title`` the qualification's."""

    person: str
    name: str
    qualification: str
    title: str
    before: Standing
    after: Standing


@dataclass(frozen=True, slots=True)
class Changes:
    """What an act did. ``digest`` and ``seq`` are its own in the journal, None where it changed
    nothing and so was not written; the counts are of facts, by kind. ``touched``: the keys, in
    their order, of the people on whom it may bear; ``standings`` what became of these today."""

    digest: str | None = None
    seq: int | None = None
    added: Mapping[str, int] = field(default_factory=dict)
    revised: Mapping[str, int] = field(default_factory=dict)
    struck: Mapping[str, int] = field(default_factory=dict)
    touched: tuple[str, ...] = ()
    standings: tuple[Change, ...] = ()


def changed_standings(
    before: Reckoning, after: Reckoning, people: Iterable[str], today: date
) -> tuple[Change, ...]:
    """Whose standings differ in word, span or in what they rest on, by person, then in the order
    of the qualifications. Whoever is not in one of the two stood nowhere there."""
    return tuple(
        change
        for person in sorted(people)
        for change in _of(person, before, after, today)
        if _told(change.before) != _told(change.after)
    )


def _of(person: str, before: Reckoning, after: Reckoning, today: date) -> Iterator[Change]:
    books = after.evidence.books.get(person) or before.evidence.books.get(person)
    if books is not None:
        for told in after.editions.qualifications_on(today.toordinal()):
            was, now = (_standing(one, person, told.key, today) for one in (before, after))
            yield Change(person, books.person.name, told.key, told.title, was, now)


def _standing(reckoning: Reckoning, person: str, qualification: str, today: date) -> Standing:
    if person not in reckoning.evidence.books:
        return Standing(person, qualification, "none")
    return reckoning.standing(person, qualification, today)


def _told(standing: Standing) -> tuple[object, ...]:
    return standing.word, standing.since, standing.through, standing.by_waiver
