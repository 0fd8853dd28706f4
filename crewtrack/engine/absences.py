"""Why somebody is out of a qualification on a day, whatever they have done: in words."""

from collections.abc import Iterator
from datetime import date

from crewtrack.engine.evidence import Books, StandDown
from crewtrack.engine.spans import as_date, join, last_run_before, run_at
from crewtrack.engine.standing import on_the_books
from crewtrack.engine.wording import grounds
from crewtrack.phrases import joined, phrase


def absences(books: Books, qualification: str, title: str, day: int) -> Iterator[str]:
    """What keeps a person out on a day: not on the books, not assigned, stood down."""
    first, last = on_the_books(books)
    if day < first:
        yield phrase("not on the books yet: joined on {day}", day=as_date(first))
    if day > last:
        yield phrase("no longer on the books: left on {day}", day=as_date(last))
    yield from _not_assigned(books, qualification, title, day)
    for down in stand_downs(books, day):
        if down.qualification in (None, qualification):
            yield stood_down(down)


def stand_downs(books: Books, day: int) -> tuple[StandDown, ...]:
    """A person's stand-downs that cover a day, by key."""
    found = (down for down in books.standdowns if down.first <= day <= down.last)
    return tuple(sorted(found, key=lambda down: down.key))


def stood_down(down: StandDown) -> str:
    """A stand-down in words: since when, how long, which one, who decided it and why."""
    first, last = as_date(down.first), as_date(down.last)
    told = (
        phrase(
            "stood down from {first} through {last} ({key})", first=first, last=last, key=down.key
        )
        if last
        else phrase("stood down from {first} until lifted ({key})", first=first, key=down.key)
    )
    return joined(", ", (told, grounds(down.reason, down.by)))


def _not_assigned(books: Books, qualification: str, title: str, day: int) -> Iterator[str]:
    """Nothing where the day is one of an assignment, else the nearest assignments."""
    mine = (one for one in books.assignments if one.qualification == qualification)
    runs = join((one.first, one.last) for one in mine)
    if run_at(runs, day):
        return
    before = last_run_before(runs, day)
    after = next((first for first, _ in runs if first > day), None)
    nearest = _assigned_only(
        as_date(before[1]) if before else None, as_date(after) if after is not None else None
    )
    yield joined(": ", (phrase("not assigned to {title} that day", title=title), nearest))


def _assigned_only(last: date | None, first: date | None) -> str:
    """``last``: when the assignment before ended; ``first``: when the next one starts."""
    if last and first:
        return phrase("assigned only through {last} and again from {first}", last=last, first=first)
    if last:
        return phrase("assigned only through {last}", last=last)
    return phrase("assigned only from {first}", first=first) if first else ""
