"""Rows as a form hands them in, for the unit at work."""

from datetime import UTC, date, datetime

from crewtrack import facts
from crewtrack.errors import Fault, Refused
from crewtrack.facts import Kind, Row, Value
from crewtrack.office import recording
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.snapshot import history_of
from tests.office.unit_at_work import Unit

ANA = Order("Ana")
MENDED = Order("Ana", "typing slip")
LAUNCHED = datetime(2026, 6, 1, 10, 0, tzinfo=UTC)


def row(kind: Kind, /, **values: Value) -> Row:
    """A row with these values (``from_`` for ``from``), the rest as a form leaves it."""
    given = {name.rstrip("_"): value for name, value in values.items()}
    assert given.keys() <= set(kind.names)
    return tuple(given.get(column.name, column.default) for column in kind.columns)


def sortie(key: str, launched: Value = LAUNCHED, **more: Value) -> Row:
    """A sortie of a quarter of an hour."""
    return row(facts.SORTIES, sortie=key, launched=launched, minutes=15, setting="live", **more)


def recovery(person: str, key: Value = None, times: int = 1, **more: Value) -> Row:
    """A hand recovery."""
    return row(
        facts.PERFORMANCES, sortie=key, person=person, task="hand-recovery", times=times, **more
    )


def signoff(key: str, person: str = "K-02", **more: Value) -> Row:
    """A passed sign-off of the hand recovery, on the day of the first act."""
    values: dict[str, Value] = {
        "date": date(2026, 6, 1), "level": "alone", "result": "passed", "evaluator": "V-01"
    }  # fmt: skip
    return row(facts.SIGNOFFS, signoff=key, person=person, task="hand-recovery", **(values | more))


def held(unit: Unit, kind: Kind, *key: Value) -> tuple[Row, int]:
    """The newest row under a key, and its revision's number."""
    last = history_of(unit.office, kind, key)[-1]
    return last.row, last.number


def changed(values: Row, kind: Kind, /, **new: Value) -> Row:
    """A row with other values in some columns."""
    given = {name.rstrip("_"): value for name, value in new.items()}
    assert given.keys() <= set(kind.names)
    return tuple(given.get(name, old) for name, old in zip(kind.names, values, strict=True))


def done(unit: Unit, *given: Entry | Strike, order: Order = ANA) -> Changes:
    """Record what is given."""
    return recording.record(unit.office, given, order)


def faults(unit: Unit, *given: Entry | Strike, order: Order = ANA) -> tuple[Fault, ...]:
    """What is wrong with what is given; none where it was recorded."""
    try:
        done(unit, *given, order=order)
    except Refused as refusal:
        return refusal.faults
    return ()
