"""Waivers and extensions, judged when they are granted.

None may be longer than the standard's ``waiver_limit``; those of one requirement that overlap or
touch count as one. An extension starts no later than the day after the requirement's own span
ends. Both by the edition in effect on the day from which it holds.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from crewtrack.engine.evidence import Evidence, Waiver
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Requirement, inside
from crewtrack.engine.spans import Days, join, run_at
from crewtrack.engine.standard import Editions, Standard
from crewtrack.errors import Fault
from crewtrack.office.given_rows import GivenRows
from crewtrack.phrases import phrase


def relief_faults(
    sheet: GivenRows, touched: Sequence[int], evidence: Evidence, editions: Editions
) -> list[Fault]:
    """The faults of the waivers and extensions in the touched rows of a sheet; ``evidence``
    holds them already."""
    reckoning = Reckoning(evidence, editions)
    person, key = sheet.kind.index("person"), sheet.kind.index("waiver")
    faults = []
    for number in touched:
        row = sheet.rows[number]
        waivers = evidence.books[str(row[person])].waivers
        waiver = next(one for one in waivers if one.key == row[key])
        place = sheet.at(number)
        faults += _judged(reckoning, str(row[person]), waiver, waivers, place)
    return faults


def _judged(
    reckoning: Reckoning,
    person: str,
    waiver: Waiver,
    waivers: Sequence[Waiver],
    place: str,
) -> list[Fault]:
    runs = join(
        (one.first, one.last)
        for one in waivers
        if (one.qualification, one.requirement) == (waiver.qualification, waiver.requirement)
    )
    run = run_at(runs, waiver.first)
    assert run is not None  # the waiver's own days are among them
    standard = reckoning.editions.on(run[0])
    faults = [*_too_long(standard, waiver, run, place)]
    requirement = _requirement(standard, waiver)
    if waiver.kind == "extension" and requirement is not None:
        own = reckoning.met(person, standard, requirement, date.fromordinal(waiver.first))
        faults += _too_late(own, waiver, run[0], place)
    return faults


def _too_long(
    standard: Standard, waiver: Waiver, run: tuple[int, int], place: str
) -> Iterator[Fault]:
    """``run``: the waiver's days, joined with those of the ones that it touches."""
    first, last = run
    limit = standard.waiver_limit.after(first)
    if last <= limit:
        return
    problem = phrase(
        "{first} to {last} is longer than the standard's waiver_limit, {limit}",
        first=date.fromordinal(first),
        last=date.fromordinal(last),
        limit=standard.waiver_limit,
    )
    if run != (waiver.first, waiver.last):
        problem = phrase("{problem}, together with those that it touches", problem=problem)
    cure = phrase("end it on {day} or earlier", day=date.fromordinal(limit))
    if limit < waiver.first:
        cure = phrase("those before it have used all of that")
    yield Fault(place, "through", problem, cure)


def _too_late(own: Days, waiver: Waiver, first: int, place: str) -> Iterator[Fault]:
    """``own``: when the requirement is met by itself; ``first``: where the extension starts,
    together with the waivers and extensions that it touches."""
    starts = (first, first - 1, waiver.first, waiver.first - 1)
    if not any(run_at(own, day) for day in starts):
        before = date.fromordinal(waiver.first - 1)
        problem = phrase(
            "{requirement} was not met on {day}, so there is nothing to extend",
            requirement=waiver.requirement,
            day=before,
        )
        cure = phrase(
            "start it no later than the day after the requirement ends, or grant a waiver"
        )
        yield Fault(place, "from", problem, cure)


def _requirement(standard: Standard, waiver: Waiver) -> Requirement | None:
    """The requirement that a waiver names, where an edition has it."""
    qualification = standard.qualifications.get(waiver.qualification)
    needs = qualification.needs if qualification else ()
    nested = (one for need in needs for one in inside(need))
    return next((one for one in nested if one.named and one.id == waiver.requirement), None)
