"""The roster for a pipe or a file: one line for each person × qualification assigned, in columns
that line up; then one line for each thing that a lapsed one lacks."""

from collections.abc import Iterator

from crewtrack.engine.standings import Roster, Standing
from crewtrack.screens import relief_words
from crewtrack.screens.columns import aligned, safe
from crewtrack.screens.relief_words import Kinds, kinds_of
from crewtrack.screens.roster_text import heading, out_of, what_is_missing
from crewtrack.screens.standing_words import CAUTION, day_or

HEADER = ("person", "qualification", "standing", "since", "through", "relief", "name", "limiting")


def told(roster: Roster) -> str:
    """The whole roster; lines that start with ``#`` are about it, not of it."""
    return "\n".join(_lines(roster))


def _lines(roster: Roster) -> Iterator[str]:
    names = {person.key: safe(person.name) for person in roster.people}
    kinds = kinds_of(roster)
    rows = [row for row in roster.rows if row.word != "none"]
    yield f"# {heading(roster)}"
    yield from aligned([HEADER, *(_row(row, names[row.person], kinds) for row in rows)])
    for lapse in roster.lapses:
        at = f"{safe(lapse.standing.person)} {lapse.standing.qualification}"
        yield from (f"# missing: {at}: {text}" for text in what_is_missing(lapse))
    for relief in roster.reliefs:
        told = f"{relief.kind} {safe(relief.key)} {relief_words.span(relief)}"
        resting = (row for row in rows if relief.key in row.by_waiver)
        for row in resting:
            yield f"# relief: {safe(row.person)} {row.qualification}: {told}"
    for one in roster.standdowns:
        yield f"# stood down: {safe(one.person)}: {out_of(one, roster)}"
    left_out = len(roster.rows) - len(rows)
    if left_out:
        pairs = "1 pair" if left_out == 1 else f"{left_out} pairs"
        yield f"# left out: {pairs} of person and qualification not assigned that day"
    yield f"# {CAUTION}"


def _row(standing: Standing, name: str, kinds: Kinds) -> tuple[str, ...]:
    """One standing, ``-`` where there is nothing to say."""
    return (
        safe(standing.person),
        standing.qualification,
        standing.word,
        day_or(standing.since, "-"),
        day_or(standing.through, "-"),
        ", ".join(relief_words.told(standing, kinds)) or "-",
        name,
        ",".join(standing.limiting) or "-",
    )
