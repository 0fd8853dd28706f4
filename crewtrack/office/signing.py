"""Sign-offs: the evaluator's own standing, what was marked, signing, certifying and
withdrawing."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standings import Standing
from crewtrack.errors import Fault, Refused
from crewtrack.facts import CERTIFICATIONS, SIGNOFFS, Row, Value
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, fault_place, named
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.phrases import later, phrase
from crewtrack.records.finding import find

_MARK: Final = re.compile(r"\[([ x])\] (.+)")
_PLACE: Final = fault_place(SIGNOFFS, 1)


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """A sign-off, by its key and the revision that was seen, no longer counts from the day
    ``on``; who says so, and why."""

    key: str
    revision: int
    on: date
    by: str
    reason: str


@dataclass(frozen=True, slots=True)
class Certification:
    """A sign-off, by its key, is certified on the day ``on`` by the person ``by``, in words
    where there are any."""

    key: str
    on: date
    by: str
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class Marks:
    """What the remarks of a sign-off say: the criteria, each with whether it was met, and the
    evaluator's own words."""

    criteria: tuple[tuple[str, bool], ...]
    words: str


def sign_off(office: Office, row: Row, order: Order) -> Changes:
    """Record a sign-off; faults are at ``signoffs 1``."""
    return record(office, [Entry(SIGNOFFS, row)], replace(order, act_kind="sign-off"))


def withdraw(office: Office, withdrawal: Withdrawal, order: Order) -> Changes:
    """Withdraw a sign-off; faults are at ``signoffs 1``. The journal's reason is that of the
    withdrawal where the order gives none."""
    with office.record.reading() as reading:
        held = find(reading, SIGNOFFS, (withdrawal.key,))
    faults, fact = _unsaid(withdrawal), named(SIGNOFFS, (withdrawal.key,))
    if held is None or held.struck:
        problem = phrase("no {fact} is recorded", fact=fact)
        faults.append(Fault(_PLACE, "signoff", problem, phrase("choose one that is there")))
    elif held.row[SIGNOFFS.index("withdrawn")] is not None:
        day = held.row[SIGNOFFS.index("withdrawn")]
        problem = phrase("{fact} is withdrawn already, from {day} on", fact=fact, day=day)
        cure = phrase("correct it where that day is wrong")
        faults.append(Fault(_PLACE, "withdrawn", problem, cure))
    if held is None or faults:
        raise Refused(*faults)
    row = _with(held.row, withdrawal)
    order = replace(order, act_kind="withdraw", reason=order.reason or withdrawal.reason)
    return record(office, [Entry(SIGNOFFS, row, withdrawal.revision)], order)


def certify(office: Office, certification: Certification, order: Order) -> Changes:
    """Put the second signature to a sign-off; faults are at ``certifications 1``."""
    row: Row = (
        certification.key,
        certification.on,
        certification.by,
        certification.remarks or None,
    )
    return record(office, [Entry(CERTIFICATIONS, row)], replace(order, act_kind="certify"))


def evaluator_standing(
    reckoning: Reckoning, task: str, evaluator: str, on: date
) -> Standing | None:
    """Where somebody stands on a day with what a task asks of its evaluators, and of its
    supervisors; None where that day's edition asks for nothing."""
    told = reckoning.editions.on(on.toordinal()).tasks.get(task)
    if told is None or told.evaluator is None:
        return None
    if evaluator not in reckoning.evidence.books:
        return Standing(evaluator, told.evaluator, "none")
    return reckoning.standing(evaluator, told.evaluator, on)


def marked(criteria: Sequence[str], marks: Sequence[bool], words: str = "") -> str:
    """The remarks of a sign-off: a line for each criterion, ``[x]`` before those that were met,
    then the evaluator's own words. ``marks_of`` reads them back."""
    lines = [
        f"[{'x' if met else ' '}] {' '.join(criterion.split())}"
        for criterion, met in zip(criteria, marks, strict=True)
    ]
    return "\n\n".join(part for part in ("\n".join(lines), words.strip()) if part)


def marks_of(remarks: str | None) -> Marks:
    """What ``marked`` made of marks and words; remarks written in another way are all words."""
    lines = (remarks or "").split("\n")
    found = []
    for line in lines:
        mark = _MARK.fullmatch(line)
        if mark is None:
            break
        found.append((mark[2], mark[1] == "x"))
    return Marks(tuple(found), "\n".join(lines[len(found) :]).strip())


def _unsaid(withdrawal: Withdrawal) -> list[Fault]:
    """A withdrawal says who and why."""
    return [
        Fault(_PLACE, field, phrase("the cell is empty"), phrase(cure))
        for field, said, cure in (
            ("withdrawn_by", withdrawal.by, later("say who withdraws it")),
            ("withdrawn_reason", withdrawal.reason, later("say why it no longer counts")),
        )
        if not said.strip()
    ]


def _with(row: Row, withdrawal: Withdrawal) -> Row:
    said: dict[str, Value] = {
        "withdrawn": withdrawal.on,
        "withdrawn_by": withdrawal.by,
        "withdrawn_reason": withdrawal.reason,
    }
    return tuple(said.get(name, value) for name, value in zip(SIGNOFFS.names, row, strict=True))
