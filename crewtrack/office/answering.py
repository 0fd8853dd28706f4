"""What an officer answers to an occurrence or a dispute: a revision that leaves what was said as
it was said."""

from dataclasses import dataclass, replace
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.facts import Kind, Row, Value
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, fault_place, named
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.phrases import phrase
from crewtrack.records.finding import find

_ACT: Final = "answer"


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer to what has a key, of which a revision was seen. ``by``: the officer's key;
    ``outcome`` that of a dispute, None of an occurrence."""

    key: str
    revision: int
    words: str
    by: str
    outcome: str | None = None


def answer(office: Office, kind: Kind, given: Answer, order: Order) -> Changes:
    """Put an answer on the record, dated today; faults are at the first place of the kind. The
    order's reason is read by everybody who reads the journal."""
    place = fault_place(kind, 1)
    with office.record.reading() as reading:
        held = find(reading, kind, (given.key,))
    if held is None or held.struck:
        problem = phrase("no {fact} is recorded", fact=named(kind, (given.key,)))
        raise Refused(Fault(place, kind.key[0], problem, phrase("choose one that is there")))
    if not given.words.strip():
        problem, cure = phrase("the cell is empty"), phrase("answer in words")
        raise Refused(Fault(place, "answer", problem, cure))
    row = _answered(office, kind, held.row, given)
    return record(office, [Entry(kind, row, given.revision)], replace(order, act_kind=_ACT))


def _answered(office: Office, kind: Kind, row: Row, given: Answer) -> Row:
    said: dict[str, Value] = {
        "answer": given.words,
        "answered_by": given.by,
        "answered": office.today(),
        "outcome": given.outcome,
    }
    return tuple(said.get(name, value) for name, value in zip(kind.names, row, strict=True))
