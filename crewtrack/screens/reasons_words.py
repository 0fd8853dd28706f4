"""Why somebody stands where they stand, as a few kinds of line: what a page lays out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Literal

from crewtrack.engine.spans import Span
from crewtrack.engine.standings import Counted, Explained, Explanation
from crewtrack.screens import language, relief_words
from crewtrack.screens.dispute_words import Marks, disputed_evidence
from crewtrack.screens.language import say
from crewtrack.screens.standing_words import word_told

Kind = Literal["standing", "rule", "missing", "evidence", "met", "note"]
Link = tuple[str, str]
"""A kind of evidence (``performance``, ``sign-off``, …) and its key; a performance's is the
sortie's."""


@dataclass(frozen=True, slots=True)
class Said:
    """One line. ``met`` is told of a rule; ``link`` leads to a piece of evidence; ``depth`` is how
    deep it is nested."""

    kind: Kind
    text: str
    depth: int = 0
    met: bool | None = None
    link: Link | None = None


def reasons(told: Explanation, marks: Marks = MappingProxyType({})) -> tuple[Said, ...]:
    """A standing opened down to its evidence: how it stands, each requirement with what it lacks
    and what counts, and what else bears on it. ``marks`` are the disputes that are open."""
    return tuple(_reasons(told, marks))


def _reasons(told: Explanation, marks: Marks) -> Iterator[Said]:
    standing, kinds = told.standing, relief_words.kinds_explained(told)
    yield Said("standing", standing_told(told))
    if standing.limiting:
        ids = ", ".join(standing.limiting)
        ahead = standing.word in ("current", "due")
        yield Said(
            "note",
            say("Ends first: {ids}", ids=ids) if ahead else say("Not met: {ids}", ids=ids),
        )
    if standing.by_waiver:
        reliefs = ", ".join(map(language.told, relief_words.told(standing, kinds)))
        yield Said("note", say("Rests on {reliefs}", reliefs=reliefs))
    yield from (Said("note", language.told(note)) for note in told.notes)
    yield from (Said("note", disputed) for disputed in disputed_evidence(told, marks))
    for place in urgent_first(told.requirements):
        yield from _need(told.requirements[place], 0)


def standing_told(told: Explanation) -> str:
    """The standing with its dates: ``due since 2026-09-01, through 2026-12-03``."""
    standing = told.standing
    values = {
        "word": word_told(standing.word),
        "since": standing.since,
        "through": standing.through,
    }
    if standing.word in ("current", "due"):
        if standing.through:
            return say("{word} since {since}, through {through}", **values)
        return say("{word} since {since}, no limit", **values)
    if standing.word == "lapsed" and standing.since:
        return say("{word} since {since}", **values)
    return word_told(standing.word)


def _need(need: Explained, depth: int) -> Iterator[Said]:
    yield Said("rule", _rule(need), depth, met=need.met)
    nested = {text for inner in need.needs for text in inner.missing}
    for text in need.missing:
        if text not in nested:
            what = language.told(text)
            lacking = (
                say("Next: {text}", text=what) if need.met else say("Missing: {text}", text=what)
            )
            yield Said("missing", lacking, depth + 1)
    for counted in need.counted:
        link = (counted.kind, counted.key) if counted.kind != "qualification" else None
        yield Said("evidence", evidence_told(counted), depth + 1, link=link)
    yield Said("met", say("Met: {spans}", spans=spans_told(need.spans)), depth + 1)
    if not folded(need):
        for place in urgent_first(need.needs):
            yield from _need(need.needs[place], depth + 1)


def urgent_first(needs: Sequence[Explained]) -> tuple[int, ...]:
    """The places of some requirements: those not met, then those that end, the first to end
    first; else in the order of the standard."""

    def rank(place: int) -> tuple[bool, date]:
        return needs[place].met, needs[place].through or date.max

    return tuple(sorted(range(len(needs)), key=rank))


def folded(need: Explained) -> bool:
    """Whether what is nested in a requirement is left out: that of another qualification that is
    held and not about to end, which has a cell of its own."""
    other = any(counted.kind == "qualification" for counted in need.counted)
    return other and need.met and not need.missing


def _rule(need: Explained) -> str:
    values = {"id": need.id, "rule": language.told(need.rule), "through": need.through}
    if not need.met:
        return say("{id}, not met: {rule}", **values)
    if need.through is None:
        return say("{id}, met without limit: {rule}", **values)
    return say("{id}, met through {through}: {rule}", **values)


def evidence_told(counted: Counted) -> str:
    """One piece of evidence: when, which, how much, in which conditions, how long it counts."""
    kinds = {
        "performance": say("sortie"),
        "sign-off": say("sign-off"),
        "certificate": say("certificate"),
        "waiver": say("waiver"),
        "extension": say("extension"),
        "qualification": say("qualification"),
    }
    task = language.told(counted.task)
    parts = [
        say(
            "{day} {kind} {key}",
            day=counted.day,
            kind=kinds.get(counted.kind, counted.kind),
            key=counted.key,
        ),
        f"{task} × {counted.amount}" if counted.amount != 1 else task,
        language.told(counted.conditions).rstrip("."),
        say("counts through {day}", day=counted.through) if counted.through else "",
    ]
    return ", ".join(part for part in parts if part)


def spans_told(spans: Sequence[Span], most: int = 3) -> str:
    """The latest spans of days, both ends included, the newest first; how many more there are."""
    if not spans:
        return say("never")
    told = [_span(span) for span in reversed(spans)][:most]
    if len(spans) > most:
        told.append(say("and {count} earlier", count=len(spans) - most))
    return "; ".join(told)


def _span(span: Span) -> str:
    if span.last is None:
        return say("since {first}, no limit", first=span.first)
    return say("{first} to {last}", first=span.first, last=span.last)
