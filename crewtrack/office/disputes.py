"""Disputes: somebody says that an entry is wrong, and an officer answers by a correction or by a
refusal. The entry counts as it stands meanwhile, and is marked wherever it is shown."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

from crewtrack.facts import DISPUTES, KINDS, Kind, Row, Value
from crewtrack.office import answering
from crewtrack.office.answering import Answer
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order
from crewtrack.office.fact_text import fact_key, fact_text
from crewtrack.office.given_rows import FactKey
from crewtrack.office.numbering import following
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.office.snapshot import Snapshot
from crewtrack.records.finding import taken_keys

_PREFIX: Final = "Q-"
_ACT: Final = "dispute"
_KINDS: Final = {kind.name: kind for kind in KINDS}

Disputed = tuple[str, FactKey]
"""The kind and the key of an entry that is disputed."""


@dataclass(frozen=True, slots=True)
class Objection:
    """What is wrong with an entry, in the words of whoever says so (``by``, a person's key)."""

    kind: Kind
    key: FactKey
    words: str
    by: str


@dataclass(frozen=True, slots=True)
class Dispute:
    """One dispute of the entry ``fact`` of ``kind``; without an answer it is open."""

    key: str
    kind: Kind
    fact: FactKey
    raised: date
    by: str
    words: str
    outcome: str | None
    answer: str | None
    answered_by: str | None
    answered: date | None

    @property
    def open(self) -> bool:
        """Whether nobody has answered it yet."""
        return self.outcome is None


def raise_dispute(office: Office, objection: Objection, order: Order) -> Changes:
    """Dispute an entry, dated today; faults are at ``disputes 1``."""
    with office.record.reading() as reading:
        key = following(taken_keys(reading, DISPUTES), _PREFIX)
    values: dict[str, Value] = {
        "dispute": key,
        "kind": objection.kind.name,
        "fact": fact_text(objection.key),
        "raised": office.today(),
        "by": objection.by,
        "words": objection.words,
    }
    row = tuple(values.get(name) for name in DISPUTES.names)
    return record(office, [Entry(DISPUTES, row)], replace(order, act_kind=_ACT))


def answer(office: Office, given: Answer, order: Order) -> Changes:
    """Answer a dispute with an outcome; faults are at ``disputes 1``. ``revised`` says that the
    entry was corrected, which is an act of its own. The journal's reason is the answer where the
    order gives none."""
    order = replace(order, reason=order.reason or given.words)
    return answering.answer(office, DISPUTES, given, order)


def listed(office: Office) -> tuple[Dispute, ...]:
    """All disputes, the newest first."""
    with office.record.reading() as reading:
        return _newest_first(reading.rows(DISPUTES))


def all_disputes(snapshot: Snapshot) -> tuple[Dispute, ...]:
    """The same in one state of the record."""
    return _newest_first(snapshot.rows(DISPUTES))


def open_disputes(snapshot: Snapshot) -> Mapping[Disputed, tuple[Dispute, ...]]:
    """The disputes that nobody has answered, by what they are about, the oldest first."""
    found: dict[Disputed, tuple[Dispute, ...]] = {}
    for one in reversed(all_disputes(snapshot)):
        if one.open:
            at = (one.kind.name, one.fact)
            found[at] = (*found.get(at, ()), one)
    return found


def dispute_of(row: Row) -> Dispute | None:
    """A dispute as a value; None where the program no longer knows what it is about."""
    values: dict[str, Any] = dict(zip(DISPUTES.names, row, strict=True))
    kind = _KINDS.get(values["kind"])
    fact = None if kind is None else fact_key(kind, values["fact"])
    if kind is None or fact is None:
        return None
    return Dispute(values.pop("dispute"), **{**values, "kind": kind, "fact": fact})


def row_of(dispute: Dispute) -> Row:
    """A dispute as the record has it."""
    values: dict[str, Value] = {
        name: getattr(dispute, name, None) for name in DISPUTES.names if name != "dispute"
    }
    values |= {"kind": dispute.kind.name, "fact": fact_text(dispute.fact)}
    return (dispute.key, *(values[name] for name in DISPUTES.names[1:]))


def _newest_first(rows: Iterable[Row]) -> tuple[Dispute, ...]:
    read = [one for one in map(dispute_of, rows) if one is not None]
    return tuple(sorted(read, key=lambda one: one.raised)[::-1])
