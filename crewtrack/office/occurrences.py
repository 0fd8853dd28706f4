"""Occurrences: what happened and who it hurt, told so that others learn from it.

They bear on nobody's standing. Everybody reports them, without a name where that is wanted;
officers and chiefs alone read and answer them.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.facts import HARMS, OCCURRENCES, Row, Value
from crewtrack.office import answering
from crewtrack.office.answering import Answer
from crewtrack.office.changes import Changes
from crewtrack.office.closed import check_open
from crewtrack.office.entries import Entry, Order, fault_place
from crewtrack.office.numbering import following
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.office.rights import ANONYMOUS, REPORT
from crewtrack.phrases import phrase
from crewtrack.records.finding import taken_keys

_PREFIX: Final = "R-"
_PLACE: Final = fault_place(OCCURRENCES, 1)
_ANSWERED: Final = "answered"
"""Why an occurrence changes, in a journal that everybody reads."""


@dataclass(frozen=True, slots=True)
class MonthCount:
    """How many occurrences happened in the month that begins on ``month``; ``hurt`` and
    ``damage`` how many of them hurt somebody or damaged something, which may be both."""

    month: date
    reported: int
    hurt: int
    damage: int


def report(office: Office, row: Row, order: Order, anonymous: bool = False) -> Changes:
    """Record an occurrence; faults are at ``occurrences 1``. A row without a key gets the next.

    ``anonymous``: neither the row nor the journal says who reported it, and nobody need be signed
    in. Else, where the row does not say, the author did.
    """
    values = dict(zip(OCCURRENCES.names, row, strict=True))
    values["occurrence"] = values["occurrence"] or _next_key(office)
    if anonymous:
        values["reported_by"], order = None, Order(ANONYMOUS, None, REPORT)
    else:
        values["reported_by"] = values["reported_by"] or order.author
        order = replace(order, act_kind=REPORT)
    _check_past(values["happened"], office.clock())
    return record(office, [Entry(OCCURRENCES, tuple(values.values()))], order)


def answer(office: Office, given: Answer, order: Order) -> Changes:
    """Answer an occurrence; faults are at ``occurrences 1``. The journal does not say what."""
    return answering.answer(office, OCCURRENCES, given, replace(order, reason=_ANSWERED))


def listed(office: Office) -> tuple[Row, ...]:
    """All occurrences, the one that happened last first; Refused, with who could, for whoever may
    not read them."""
    with office.record.reading() as reading:
        check_open(office, reading, OCCURRENCES)
        rows = tuple(reading.rows(OCCURRENCES))
    return newest_first(rows)


def newest_first(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """Occurrences in the order in which they are read."""
    return tuple(sorted(rows, key=_happened, reverse=True))


def counts(office: Office, first: date, last: date) -> tuple[MonthCount, ...]:
    """How many occurrences there were, for every month with a day from ``first`` through
    ``last``, both in the unit's zone; open to everybody, since they say nothing but that."""
    with office.view() as view:
        zone = view.editions.zone
        rows = list(view.reading.rows(OCCURRENCES))
    harm = OCCURRENCES.index("harm")
    found: Counter[tuple[date, str]] = Counter()
    for row in rows:
        day = _happened(row).astimezone(zone).date()
        if first <= day <= last:
            kinds = row[harm] or ()
            assert isinstance(kinds, tuple)  # a choice of several words
            found.update((day.replace(day=1), name) for name in ("reported", *kinds))
    return tuple(
        MonthCount(month, found[month, "reported"], *(found[month, name] for name in HARMS))
        for month in _months(first, last)
    )


def _months(first: date, last: date) -> Iterator[date]:
    month = first.replace(day=1)
    while month <= last:
        yield month
        month = date(month.year + month.month // 12, month.month % 12 + 1, 1)


def _happened(row: Row) -> datetime:
    found = row[OCCURRENCES.index("happened")]
    assert isinstance(found, datetime)  # it is required
    return found


def _next_key(office: Office) -> str:
    with office.record.reading() as reading:
        return following(taken_keys(reading, OCCURRENCES), _PREFIX)


def _check_past(happened: Value, now: datetime) -> None:
    if isinstance(happened, datetime) and happened.tzinfo is not None and happened > now:
        problem = phrase("this has not happened yet")
        cure = phrase("write when it happened, at the latest now")
        raise Refused(Fault(_PLACE, "happened", problem, cure))
