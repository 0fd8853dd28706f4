"""What somebody hands in to be recorded in one act: facts, strikes, and who acts and why."""

from dataclasses import dataclass
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, shown
from crewtrack.cells import cell_text, read_cell
from crewtrack.checks import row_faults
from crewtrack.errors import Fault
from crewtrack.facts import TEXT_LENGTH, Column, Kind, Row, Text, Value
from crewtrack.office.given_rows import FactKey
from crewtrack.phrases import Phrase, phrase

_AUTHOR: Final = Column("author", Text(), required=True)
_REASON: Final = Column("reason", Text(TEXT_LENGTH, lines=True))


@dataclass(frozen=True, slots=True)
class Entry:
    """One fact to be recorded: a new one where ``revision`` is None, else a correction, and
    ``revision`` is the number of the revision that its writer saw."""

    kind: Kind
    row: Row
    revision: int | None = None


@dataclass(frozen=True, slots=True)
class Strike:
    """One fact to be struck out, by its key and the number of the revision that was seen."""

    kind: Kind
    key: FactKey
    revision: int


@dataclass(frozen=True, slots=True)
class Order:
    """Who acts, why (corrections and strikes need a reason), and the word for what is done."""

    author: str
    reason: str | None = None
    act_kind: str = "record"


def fault_place(kind: Kind, number: int) -> str:
    """Where a fault of one entry is: ``performances 2`` for the second of its kind, counted
    from 1 in the order in which they were given."""
    return f"{kind.name} {number}"


def strike_place(kind: Kind, number: int) -> str:
    """The same for what is to be struck out, counted on its own: ``struck performances 1``."""
    return f"struck {kind.name} {number}"


def checked(
    kind: Kind, row: Row, zone: ZoneInfo, place: str
) -> tuple[Row, list[Fault], frozenset[str]]:
    """A row as it would be read from a file, the faults within it, and the columns that can't
    be taken, which are None in it."""
    values: list[Value] = []
    faults: list[Fault] = []
    unread: set[str] = set()
    for column, value in zip(kind.columns, row, strict=True):
        try:
            values.append(read_cell(column, cell_text(value), zone))
        except BadCell as bad:
            values.append(None)
            unread.add(column.name)
            faults.append(Fault(place, column.name, bad.problem, bad.cure))
    between = row_faults(kind, tuple(values), unread)
    faults += [Fault(place, name, problem, cure) for name, problem, cure in between]
    return tuple(values), faults, frozenset(unread)


def ordered(order: Order, zone: ZoneInfo) -> tuple[Order, list[Fault]]:
    """An order as it goes into the journal, and what is wrong with it; its place is empty."""
    read: list[Value] = []
    faults = []
    for column, text in ((_AUTHOR, order.author), (_REASON, order.reason)):
        try:
            read.append(read_cell(column, text or "", zone))
        except BadCell as bad:
            read.append(None)
            faults.append(Fault("", column.name, bad.problem, bad.cure))
    author, reason = (None if value is None else str(value) for value in read)
    return Order(author or "", reason, order.act_kind), faults


def named(kind: Kind, key: FactKey) -> Phrase:
    """A fact in a sentence: ``sortie 'S-0193'``."""
    return phrase("{kind} {key}", kind=phrase(kind.one), key=shown(" + ".join(map(cell_text, key))))
