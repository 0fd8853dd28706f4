"""The roster for a terminal: a table where it fits the width, else a block for each person; the
lapse list with what brings each back; the cautions."""

from collections.abc import Iterator

from crewtrack.engine.absences import stood_down
from crewtrack.engine.standings import Explanation, Roster, Standing, StoodDown
from crewtrack.screens.columns import GAP, aligned, cells, hung, safe, wrapped
from crewtrack.screens.relief_words import kinds_of, letters, span
from crewtrack.screens.roster_table import Paint, table, who
from crewtrack.screens.standing_words import (
    CAUTION,
    SHAPES,
    as_known_at,
    dates_in_words,
    shape_and_word,
)


def told(roster: Roster, width: int, paint: Paint) -> str:
    """The whole roster, in lines of at most ``width`` columns as far as the names allow."""
    parts = [
        wrapped(heading(roster), width),
        table(roster, width, paint) or list(_blocks(roster, width, paint)),
        _legend(roster, width),
        list(_relief_list(roster, width)),
        list(_stood_down_list(roster, width)),
        list(_lapse_list(roster, width, paint)),
        wrapped(CAUTION, width),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part)


def heading(roster: Roster) -> str:
    """Whose roster it is, of which day, edition and state of the record."""
    return (
        f"{safe(roster.unit)}: roster on {roster.on}{as_known_at(roster.known_at)},"
        f" edition {safe(roster.edition)}, journal {roster.head[:12]}"
    )


def _blocks(roster: Roster, width: int, paint: Paint) -> Iterator[str]:
    """One block for each person: the standings one below the other."""
    if not roster.people:
        yield from wrapped("Nobody is on the books that day.", width)
    titles, kinds = {q.key: safe(q.title) for q in roster.qualifications}, kinds_of(roster)
    for index, person in enumerate(roster.people):
        if index:
            yield ""
        yield from hung(who(person), width)
        rows = [r for r in roster.rows if r.person == person.key and r.word != "none"]
        texts = aligned(
            (shape_and_word(r, letters(r, kinds)), titles[r.qualification], _dates(r)) for r in rows
        )
        fits = all(cells(GAP + text) <= width for text in texts)
        for text, row in zip(texts, rows, strict=True):
            lines = [GAP + text] if fits else hung(text, width, GAP)
            yield from (paint(line, row.word) for line in lines)
        if not rows:
            yield f"{GAP}no assignment"


def _dates(standing: Standing) -> str:
    """The dates, and what the date hangs on where that will matter soon."""
    told = dates_in_words(standing)
    if standing.word == "due" and standing.limiting:
        told += f" ({', '.join(standing.limiting)})"
    return told


def _legend(roster: Roster, width: int) -> list[str]:
    """What the signs in use mean, as far as the word beside them does not say it."""
    words = {row.word for row in roster.rows}
    told = []
    if words & {"current", "due"}:
        told.append("a date beside current or due is the last day")
    if "lapsed" in words:
        told.append("beside lapsed, the first day of the lapse")
    if any(row.by_waiver for row in roster.rows):
        told.append("W: rests on a waiver; E: on an extension")
    return wrapped(f"{told[0][0].upper()}{'; '.join(told)[1:]}.", width) if told else []


def _relief_list(roster: Roster, width: int) -> Iterator[str]:
    """What each standing rests on that would not be as it is without."""
    names = {person.key: who(person) for person in roster.people}
    titles = {q.key: safe(q.title) for q in roster.qualifications}
    if roster.reliefs:
        yield from wrapped("Resting on a waiver or an extension:", width)
    for relief in roster.reliefs:
        for row in roster.rows:
            if relief.key in row.by_waiver:
                told = f"{relief.kind} {safe(relief.key)} {span(relief)}"
                pair = f"{names[row.person]}, {titles[row.qualification]}"
                yield from hung(f"{pair}: {told}", width, GAP)


def _stood_down_list(roster: Roster, width: int) -> Iterator[str]:
    """Who is stood down, from which, since when, through when and why."""
    names = {person.key: who(person) for person in roster.people}
    if roster.standdowns:
        yield "Stood down:"
    for one in roster.standdowns:
        yield from hung(f"{names[one.person]}, {out_of(one, roster)}", width, GAP)


def out_of(one: StoodDown, roster: Roster) -> str:
    """Which qualification somebody is stood down from, since when, through when and why."""
    titles = {q.key: q.title for q in roster.qualifications}
    key = one.down.qualification
    which = "all qualifications" if key is None else titles.get(key, key)
    return safe(f"{which}, {stood_down(one.down).removeprefix('stood down ')}")


def _lapse_list(roster: Roster, width: int, paint: Paint) -> Iterator[str]:
    """Who has lapsed in what, since when, and what brings it back."""
    if not roster.lapses:
        return
    yield f"Lapsed: {len(roster.lapses)}"
    names = {person.key: who(person) for person in roster.people}
    for lapse in roster.lapses:
        standing = lapse.standing
        line = f"{names[standing.person]}, {safe(lapse.title)}, {dates_in_words(standing)}"
        lines = hung(f"{SHAPES[standing.word]} {line}", width)
        yield from (paint(text, standing.word) for text in lines)
        for text in what_is_missing(lapse):
            yield from wrapped(text, width, GAP * 2)


def what_is_missing(explanation: Explanation) -> list[str]:
    """For each requirement that is not met, its id and what is missing, in words."""
    return [
        f"{need.id}: {'; '.join(map(safe, need.lacking())) or 'not met'}"
        for need in explanation.requirements
        if not need.met
    ]
