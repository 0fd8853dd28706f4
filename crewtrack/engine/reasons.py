"""Why a requirement is met or not: the evidence counted, and in words what is missing."""

from collections.abc import Sequence
from datetime import date
from typing import Final, assert_never

from crewtrack.engine import certified, practice_reasons, signed
from crewtrack.engine.case import Case
from crewtrack.engine.days import FOREVER, month_last
from crewtrack.engine.evidence import Certificate
from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.signature_reasons import CERTIFICATION, signoff_counted, waits
from crewtrack.engine.spans import Days, as_date, as_spans, last_run_before, run_at
from crewtrack.engine.standings import Counted, Explained
from crewtrack.engine.wording import at_level, certificate, grounds, rule
from crewtrack.phrases import joined, later, phrase

NO_BIRTH_DATE: Final = later("no birth date is recorded, so the shortest window was used")


def explained(case: Case, qualification: str, requirement: Requirement, day: int) -> Explained:
    """One requirement of a qualification on a day, opened down to its evidence."""
    days = case.requirement(qualification, requirement)
    run = run_at(days, day)
    counted, missing, needs = _told(case, qualification, requirement, day)
    relief = tuple(
        Counted(
            w.kind,
            w.key,
            date.fromordinal(w.first),
            through=as_date(w.last),
            conditions=grounds(w.reason, w.by),
        )
        for w in sorted(case.waived(qualification, requirement), key=lambda w: (w.first, w.key))
        if w.first <= day <= w.last
    )
    return Explained(
        requirement.id,
        rule(requirement, case.standard),
        run is not None,
        as_date(run[1]) if run else None,
        as_spans(days),
        counted + relief,
        _still(missing, run, case, day),
        needs,
    )


def _still(
    missing: tuple[str, ...], run: tuple[int, int] | None, case: Case, day: int
) -> tuple[str, ...]:
    """What is missing is worth saying where the requirement is not met, or ends within the
    notice."""
    if run is not None and run[1] >= case.standard.notice.after(day):
        return ()
    return missing


Told = tuple[tuple[Counted, ...], tuple[str, ...], tuple[Explained, ...]]


def _told(case: Case, qualification: str, requirement: Requirement, day: int) -> Told:
    match requirement:
        case Recent():
            return *practice_reasons.counted_and_missing(case, requirement, day), ()
        case Signed():
            return *_signed(case, requirement, day), ()
        case Certified():
            return *_certified(case, requirement, day), ()
        case Holds():
            return _holds(case, requirement, day)
        case AnyOf() | AllOf():
            return _nested(case, qualification, requirement, day)
        case _:
            assert_never(requirement)


def _signed(
    case: Case, requirement: Signed, day: int
) -> tuple[tuple[Counted, ...], tuple[str, ...]]:
    bearing = signed.results(requirement, case.standing_signoffs(day))
    run = run_at(signed.days_met(requirement, bearing), day)
    title = case.standard.tasks[requirement.task].title
    promised = signed.results(requirement, case.unwithdrawn_signoffs(day))
    then = run_at(signed.days_met(requirement, promised), day)
    waiting = waits(case, bearing, promised, (run, then))
    a_pass = phrase("a pass {level}", level=at_level(requirement.level))
    things = phrase(CERTIFICATION) if waiting else a_pass
    if run is None:
        days = case.by_itself("", requirement)
        back = (
            phrase("{things} brings this back", things=things)
            if last_run_before(days, day)
            else phrase("{things} meets this", things=things)
        )
        why = joined("; ", (waiting or _not_signed(case, requirement, days, day), back))
        return (), (joined(": ", (title, why)),)
    latest = [signoff for signoff in bearing if signoff.result == "passed"][-1]
    counted = (signoff_counted(case, latest, run[1]),)
    if run[1] >= FOREVER:
        return counted, ()
    keeps = phrase("{things} by {day} keeps this", things=things, day=date.fromordinal(run[1]))
    due = signed.due_month(requirement, bearing) if requirement.late else None
    ends = "" if due is None else _due_date(due)
    return counted, (joined(": ", (title, joined("; ", (waiting, keeps, ends)))),)


def _due_date(month: int) -> str:
    return phrase("the due date is {day}", day=date.fromordinal(month_last(month)))


def _not_signed(case: Case, requirement: Signed, days: Days, day: int) -> str:
    """Why no pass covers a day; ``days`` are those that passes ever covered."""
    bearing = signed.results(requirement, case.standing_signoffs(day))
    if bearing and bearing[-1].result == "failed":
        return phrase("failed on {day}", day=date.fromordinal(bearing[-1].day))
    run = last_run_before(days, day)
    if run is None:
        return phrase("not signed off yet")
    for signoff in signed.results(requirement, case.standing_signoffs(run[1])):
        if signoff.withdrawn == run[1] + 1:
            given, withdrawn = date.fromordinal(signoff.day), date.fromordinal(signoff.withdrawn)
            return phrase(
                "the sign-off of {given} was withdrawn on {day}", given=given, day=withdrawn
            )
    return phrase("ended on {day}", day=date.fromordinal(run[1]))


def _certified(
    case: Case, requirement: Certified, day: int
) -> tuple[tuple[Counted, ...], tuple[str, ...]]:
    born = case.books.person.born
    held = [
        certificate
        for certificate in sorted(case.books.certificates, key=lambda c: (-c.issued, c.key))
        if certificate.kind == requirement.kind and certificate.issued <= case.until
    ]
    covers = [(c, certified.covered(requirement, c, born, case.until)) for c in held]
    counted = tuple(
        Counted("certificate", c.key, date.fromordinal(first), through=as_date(last))
        for c, (first, last) in covers
        if first <= day <= last
    )
    what = certificate(requirement.kind)
    if not held:
        return (), (joined(": ", (what, phrase("none is recorded; one meets this"))),)
    if any(c.through is None for c in counted):
        return counted, ()
    if counted:
        last = max(c.through for c in counted if c.through)
        why: str = phrase("a new one by {day} keeps this", day=last)
    else:
        why = _not_covered(held, case.by_itself("", requirement), day)
    missing = joined(": ", (what, why))
    if requirement.ages and born is None:
        return counted, (missing, phrase(NO_BIRTH_DATE))
    return counted, (missing,)


def _not_covered(held: Sequence[Certificate], days: Days, day: int) -> str:
    """Why none of a person's certificates of a kind covers a day."""
    run = last_run_before(days, day)
    if run is None:
        return phrase("none that is valid is recorded; a valid one meets this")
    after = run[1] + 1
    revoked = any(certificate.revoked == after for certificate in held)
    ended = (
        phrase("revoked on {day}", day=date.fromordinal(after))
        if revoked
        else phrase("ended on {day}", day=as_date(run[1]))
    )
    return joined("; ", (ended, phrase("a new one brings this back")))


def _holds(case: Case, requirement: Holds, day: int) -> Told:
    key = requirement.qualification
    other = case.standard.qualifications[key]
    needs = tuple(explained(case, key, need, day) for need in other.needs)
    run = run_at(case.by_itself("", requirement), day)
    counted: tuple[Counted, ...] = ()
    if run is not None:
        since, through = date.fromordinal(run[0]), as_date(run[1])
        counted = (Counted("qualification", key, since, task=other.title, through=through),)
    missing = [
        words if str(words).startswith("or ") else joined(": ", (other.title, words))
        for need in needs
        for words in need.missing
    ]
    down = run_at(case.stood_down(key), day)
    if down:
        through = as_date(down[1])
        until = (
            phrase("stood down through {day}", day=through)
            if through
            else phrase("stood down until lifted")
        )
        missing.append(joined(": ", (other.title, until)))
    return counted, tuple(missing), needs


def _nested(case: Case, qualification: str, requirement: AnyOf | AllOf, day: int) -> Told:
    needs = tuple(explained(case, qualification, need, day) for need in requirement.needs)
    if isinstance(requirement, AllOf):
        return (), tuple(words for need in needs for words in need.missing), needs
    ways = _ways_out(requirement, needs)
    if len(ways) > 1:
        first, *others = ways
        ways = [phrase("either {way}", way=first), *(phrase("or {way}", way=w) for w in others)]
    return (), tuple(ways), needs


def _ways_out(requirement: AnyOf, needs: Sequence[Explained]) -> list[str]:
    """What would do, one line for each way; one that takes several things names them all. Where
    some part is met, only what keeps such a part is worth saying."""
    ways: list[str] = []
    some_met = any(told.met for told in needs)
    for need, told in zip(requirement.needs, needs, strict=True):
        if some_met and not told.met:
            continue
        if isinstance(need, AnyOf):
            ways += _ways_out(need, told.needs)
        elif told.missing:
            ways.append(_in_one(told.missing))
    return ways


def _in_one(missing: Sequence[str]) -> str:
    """Several things that are all needed, in one line; a line that starts with "or" is another
    way of what stands before it."""
    first, *rest = missing
    return joined(
        ", ", (first, *(w if w.startswith("or ") else phrase("and {what}", what=w) for w in rest))
    )
