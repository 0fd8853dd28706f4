"""Life lines: each requirement of one standing along the days, with its spans and its evidence."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from crewtrack.engine.case import Case
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.spans import Span
from crewtrack.engine.standings import Explained, Explanation, Word
from crewtrack.screens import language
from crewtrack.screens.language import count_of, say
from crewtrack.screens.reasons_words import folded, urgent_first
from crewtrack.screens.standing_words import word_told

TickKind = Literal["performance", "sign-off", "certificate"]


@dataclass(frozen=True, slots=True)
class Tick:
    """One piece of evidence on its day. ``key`` is the sortie's for a performance; ``counts`` says
    whether it counts on the day that is asked about; ``failed`` is told of a sign-off that was
    not passed."""

    kind: TickKind
    key: str
    day: date
    counts: bool
    amount: int = 1
    failed: bool = False


@dataclass(frozen=True, slots=True)
class LifeLine:
    """One requirement; ``depth`` is how deep it is nested. The first line is the standing itself,
    with its ``word`` and without evidence."""

    id: str
    rule: str
    depth: int
    met: bool
    through: date | None
    spans: tuple[Span, ...]
    ticks: tuple[Tick, ...]
    word: Word | None = None


def life_lines(reckoning: Reckoning, told: Explanation, on: date) -> tuple[LifeLine, ...]:
    """The standing itself, then a line for each requirement, each before what is nested in it."""
    return (_whole(told), *_requirement_lines(reckoning, told, on))


def _whole(told: Explanation) -> LifeLine:
    standing = told.standing
    met = standing.word in ("current", "due")
    return LifeLine("", told.title, 0, met, standing.through, told.spans, (), standing.word)


def _requirement_lines(reckoning: Reckoning, told: Explanation, on: date) -> Iterator[LifeLine]:
    day = on.toordinal()
    books = reckoning.evidence.books[told.standing.person]
    case = reckoning.docket(books, day).case_on(day)
    asked = case.standard.qualifications.get(told.standing.qualification)
    needs = asked.needs if asked else ()
    yield from _lines(case, needs, told.requirements, 0)


def _lines(
    case: Case, asked: Sequence[Requirement], told: Sequence[Explained], depth: int
) -> Iterator[LifeLine]:
    for place in urgent_first(told):
        requirement, need = asked[place], told[place]
        counting = {(each.kind, each.key) for each in need.counted}
        ticks = sorted(_ticks(case, requirement, counting), key=lambda t: (t.day, t.kind, t.key))
        rule = language.told(need.rule)
        yield LifeLine(need.id, rule, depth, need.met, need.through, need.spans, tuple(ticks))
        if not folded(need):
            yield from _lines(case, _inside(case, requirement), need.needs, depth + 1)


def _inside(case: Case, requirement: Requirement) -> Sequence[Requirement]:
    match requirement:
        case AnyOf() | AllOf():
            return requirement.needs
        case Holds():
            return case.standard.qualifications[requirement.qualification].needs
        case _:
            return ()


def _ticks(case: Case, requirement: Requirement, counting: set[tuple[str, str]]) -> Iterator[Tick]:
    match requirement:
        case Recent():
            yield from _practised(case, requirement, counting)
            if requirement.recheck is not None:
                yield from _signed(case, requirement.tasks, counting)
        case Signed():
            yield from _signed(case, (requirement.task,), counting)
        case Certified():
            yield from _certified(case, requirement.kind, counting)
        case _:
            return


def _practised(case: Case, requirement: Recent, counting: set[tuple[str, str]]) -> Iterator[Tick]:
    """One tick for each sortie, with all that was done on it."""
    done = case.practice(requirement)
    days: dict[int, tuple[int, int]] = {}
    for day, sortie, times in zip(done.day, done.sortie, done.times, strict=True):
        days[sortie] = (day, days.get(sortie, (day, 0))[1] + times)
    for sortie, (day, times) in days.items():
        key = case.sorties.key[sortie]
        counts = ("performance", key) in counting
        yield Tick("performance", key, date.fromordinal(day), counts, times)


def _signed(case: Case, tasks: Sequence[str], counting: set[tuple[str, str]]) -> Iterator[Tick]:
    for signoff in case.signoffs:
        if signoff.task in tasks:
            counts = ("sign-off", signoff.key) in counting
            when, failed = date.fromordinal(signoff.day), signoff.result != "passed"
            yield Tick("sign-off", signoff.key, when, counts, failed=failed)


def _certified(case: Case, kind: str, counting: set[tuple[str, str]]) -> Iterator[Tick]:
    for certificate in case.books.certificates:
        if certificate.kind == kind and certificate.issued <= case.until:
            counts = ("certificate", certificate.key) in counting
            when = date.fromordinal(certificate.issued)
            yield Tick("certificate", certificate.key, when, counts)


def state_told(line: LifeLine) -> str:
    """Where a requirement is on the day, in two words or three."""
    if line.word is not None:
        return word_told(line.word)
    if not line.met:
        return say("not met")
    if line.through is None:
        return say("no limit")
    return say("through {day}", day=line.through)


def line_spoken(line: LifeLine) -> str:
    """A line as one sentence."""
    if line.word is not None:
        return say("{title}: {state}", title=line.rule, state=state_told(line))
    evidence = count_of(
        sum(tick.counts for tick in line.ticks),
        "{count} piece of evidence counts",
        "{count} pieces of evidence count",
    )
    return say(
        "{id}: {rule}; {state}; {evidence}",
        id=line.id,
        rule=line.rule,
        state=state_told(line),
        evidence=evidence,
    )


def tick_spoken(tick: Tick) -> str:
    """One piece of evidence as one sentence."""
    values = {"day": tick.day, "key": tick.key, "count": tick.amount}
    match tick.kind:
        case "performance":
            told = say("{day}: sortie {key}, {count} done", **values)
        case "sign-off" if tick.failed:
            told = say("{day}: sign-off {key}, not passed", **values)
        case "sign-off":
            told = say("{day}: sign-off {key}, passed", **values)
        case "certificate":
            told = say("{day}: certificate {key}", **values)
    return say("{evidence}, counts", evidence=told) if tick.counts else told
