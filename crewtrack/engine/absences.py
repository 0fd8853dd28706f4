"""Why somebody is out of a qualification on a day, whatever they have done: in words."""

from collections.abc import Iterator

from crewtrack.engine.evidence import Books, StandDown
from crewtrack.engine.spans import as_date, join, last_run_before, run_at
from crewtrack.engine.standing import on_the_books
from crewtrack.engine.wording import grounds


def absences(books: Books, qualification: str, title: str, day: int) -> Iterator[str]:
    """What keeps a person out on a day: not on the books, not assigned, stood down."""
    joined, left = on_the_books(books)
    if day < joined:
        yield f"not on the books yet: joined on {as_date(joined)}"
    if day > left:
        yield f"no longer on the books: left on {as_date(left)}"
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
    last = as_date(down.last)
    through = f"through {last}" if last else "until lifted"
    told = f"stood down from {as_date(down.first)} {through} ({down.key})"
    return ", ".join(part for part in (told, grounds(down.reason, down.by)) if part)


def _not_assigned(books: Books, qualification: str, title: str, day: int) -> Iterator[str]:
    """Nothing where the day is one of an assignment, else the nearest assignments."""
    mine = (one for one in books.assignments if one.qualification == qualification)
    runs = join((one.first, one.last) for one in mine)
    if run_at(runs, day):
        return
    before = last_run_before(runs, day)
    after = next((first for first, _ in runs if first > day), None)
    told = [f"through {as_date(before[1])}"] if before else []
    if after is not None:
        told.append(f"{'again ' if before else ''}from {as_date(after)}")
    only = f": assigned only {' and '.join(told)}" if told else ""
    yield f"not assigned to {title} that day{only}"
