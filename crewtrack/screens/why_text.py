"""One standing, explained in text: the standing, its requirements, the evidence counted, what is
missing."""

from collections.abc import Iterator, Sequence
from datetime import date, datetime

from crewtrack.engine.spans import Span
from crewtrack.engine.standings import Counted, Explained, Explanation
from crewtrack.screens import relief_words
from crewtrack.screens.columns import GAP, hung, safe
from crewtrack.screens.roster_table import Paint
from crewtrack.screens.standing_words import (
    CAUTION,
    as_known_at,
    dates_in_words,
    day_or,
    shape_and_word,
)

MET, NOT_MET = "✔", "✖"


def unpainted(text: str, word: str) -> str:
    """The text as it is."""
    return text


def told(
    explanation: Explanation,
    on: date,
    width: int | None = None,
    paint: Paint = unpainted,
    known_at: datetime | None = None,
) -> str:
    """The whole explanation of a standing on a day, as known at an instant (None: all that is
    recorded), wrapped to a width (None: one line for each thing said)."""
    head = (
        f"{safe(explanation.standing.person)} {safe(explanation.name)}, {safe(explanation.title)}"
        f" ({explanation.standing.qualification}) on {on}{as_known_at(known_at)},"
        f" by edition {safe(explanation.edition)}"
    )
    return "\n".join((*hung(head, width), *_lines(explanation, width, paint)))


def _lines(explanation: Explanation, width: int | None, paint: Paint) -> Iterator[str]:
    standing, kinds = explanation.standing, relief_words.kinds_explained(explanation)
    dates = dates_in_words(standing)
    word = shape_and_word(standing, relief_words.letters(standing, kinds))
    yield paint(f"{word}, {dates}" if dates else word, standing.word)
    if standing.limiting:
        yield from hung(_limit(explanation), width, GAP)
    if standing.by_waiver:
        reliefs = ", ".join(relief_words.told(standing, kinds))
        yield from hung(f"rests on {reliefs}", width, GAP)
    yield ""
    for requirement in explanation.requirements:
        yield from _requirement(requirement, width, "")
    yield from hung(f"all met: {_spans(explanation.spans)}", width)
    for note in explanation.notes:
        yield from hung(f"note: {safe(note)}", width)
    yield from ("", *hung(CAUTION, width))


def _limit(explanation: Explanation) -> str:
    """What the last day hangs on, or what is not met."""
    ids = ", ".join(explanation.standing.limiting)
    ahead = explanation.standing.word in ("current", "due")
    return f"ends first: {ids}" if ahead else f"not met: {ids}"


def _requirement(need: Explained, width: int | None, indent: str) -> Iterator[str]:
    """One requirement, what counts for it and what it lacks, and what is nested in it."""
    through = ""
    if need.met:
        through = f" (through {need.through})" if need.through else " (no limit)"
    sign = MET if need.met else NOT_MET
    yield from hung(f"{sign} {need.id}{through}: {safe(need.rule)}", width, indent)
    inside = indent + GAP
    for counted in need.counted:
        yield from hung(_counted(counted), width, inside)
    for missing in need.missing:
        yield from hung(f"{'next' if need.met else 'missing'}: {safe(missing)}", width, inside)
    yield from hung(f"met: {_spans(need.spans)}", width, inside)
    for nested in need.needs:
        yield from _requirement(nested, width, inside)


def _counted(counted: Counted) -> str:
    """One piece of evidence: when, which, how much, in which conditions, how long it counts."""
    much = f" {counted.amount}" if counted.amount != 1 else ""
    parts = [
        f"counts{much}: {counted.day} {counted.kind} {safe(counted.key)}",
        safe(counted.task),
        f"({safe(counted.conditions)})" if counted.conditions else "",
        f"through {counted.through}" if counted.through else "",
    ]
    return " ".join(part for part in parts if part)


def _spans(spans: Sequence[Span]) -> str:
    """Spans of days, both ends included."""
    told = [f"{span.first} to {day_or(span.last, 'no limit')}" for span in spans]
    return "; ".join(told) or "never"
