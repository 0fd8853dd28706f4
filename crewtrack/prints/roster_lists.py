"""The lists after the roster's grid: what has lapsed, what rests on a waiver, who is stood down."""

from collections.abc import Iterable, Iterator
from itertools import chain

from crewtrack.engine.spans import as_date
from crewtrack.engine.standings import Explained, Explanation, Roster, StoodDown
from crewtrack.prints.listing import CELL, CELL_QUIET, CELL_STRONG, Cell, Column, Listing


def lapse_list(roster: Roster, width: float) -> Listing:
    """Who, what, since when, and what brings it back."""
    columns = (
        Column("Who", width * 0.17),
        Column("Key", width * 0.06),
        Column("Qualification", width * 0.15),
        Column("Since", width * 0.08),
        Column("What brings it back", width * 0.54),
    )
    names = {person.key: person.name for person in roster.people}
    return Listing(
        "Lapsed",
        f"{len(roster.lapses)} in all" if roster.lapses else "",
        columns,
        tuple(_lapse(lapse, names.get(lapse.standing.person, "")) for lapse in roster.lapses),
        "Nothing has lapsed.",
    )


def _lapse(lapse: Explanation, name: str) -> tuple[Cell, ...]:
    since = lapse.standing.since
    return (
        ((name or lapse.name, CELL_STRONG),),
        ((lapse.standing.person, CELL_QUIET),),
        ((lapse.title, CELL),),
        ((since.isoformat() if since else "", CELL),),
        tuple((text, CELL) for text in cures(lapse.requirements)),
    )


def cures(requirements: Iterable[Explained]) -> tuple[str, ...]:
    """What is missing, in words, of the requirements that are not met, else their rules. None
    twice."""
    unmet = (requirement for requirement in requirements if not requirement.met)
    told = (each.lacking() or (f"Not met: {each.rule}",) for each in unmet)
    return tuple(dict.fromkeys(chain.from_iterable(told)))


def relief_list(roster: Roster, width: float) -> Listing:
    """What rests on a waiver or an extension, on which, and why."""
    columns = (
        Column("Who", width * 0.13),
        Column("Key", width * 0.05),
        Column("Qualification", width * 0.12),
        Column("Kind", width * 0.07),
        Column("Its key", width * 0.09),
        Column("Requirement", width * 0.13),
        Column("From and through", width * 0.14),
        Column("Reason", width * 0.17),
        Column("By", width * 0.1),
    )
    entries = tuple(_reliefs(roster))
    told = "the standings that would not be as they are without one"
    return Listing("Resting on a waiver or an extension", told, columns, entries, "")


def _reliefs(roster: Roster) -> Iterator[tuple[Cell, ...]]:
    names = {person.key: person.name for person in roster.people}
    titles = {q.key: q.title for q in roster.qualifications}
    for row in roster.rows:
        for key in row.by_waiver:
            who = ((names[row.person], CELL_STRONG),)
            what = ((titles[row.qualification], CELL),)
            yield (who, ((row.person, CELL_QUIET),), what, *_relief(roster, key))


def _relief(roster: Roster, key: str) -> tuple[Cell, ...]:
    """A waiver's kind, key, requirement, span, reason and who granted it, as far as the roster
    tells them."""
    found = next((relief for relief in roster.reliefs if relief.key == key), None)
    if found is None:
        return _cells("", key, "", "", "", "")
    span = f"{_day(found.first)} – {_day(found.last)}"
    return _cells(found.kind, key, found.requirement, span, found.reason, found.by)


def stood_down_list(roster: Roster, width: float) -> Listing:
    """Who is stood down from what, from when through when, and why."""
    columns = (
        Column("Who", width * 0.17),
        Column("Key", width * 0.06),
        Column("Qualification", width * 0.15),
        Column("Its key", width * 0.1),
        Column("From", width * 0.08),
        Column("Through", width * 0.09),
        Column("Reason", width * 0.22),
        Column("By", width * 0.13),
    )
    entries = tuple(_stood_down(one, roster) for one in roster.standdowns)
    return Listing("Stood down", "from a qualification, or from all", columns, entries, "")


def _stood_down(one: StoodDown, roster: Roster) -> tuple[Cell, ...]:
    name = next(person.name for person in roster.people if person.key == one.person)
    titles = {q.key: q.title for q in roster.qualifications}
    down = one.down
    which = (
        "all" if down.qualification is None else titles.get(down.qualification, down.qualification)
    )
    last = as_date(down.last)
    through = last.isoformat() if last else "until lifted"
    return (
        ((name, CELL_STRONG),),
        ((one.person, CELL_QUIET),),
        *_cells(which, down.key, _day(down.first), through),
        *_cells(down.reason, down.by),
    )


def _cells(*texts: str) -> tuple[Cell, ...]:
    return tuple(((text, CELL),) for text in texts)


def _day(day: int) -> str:
    """A day of the engine's as a date."""
    found = as_date(day)
    return found.isoformat() if found else "no limit"
