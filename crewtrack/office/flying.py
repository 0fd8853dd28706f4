"""A sortie and all that was performed on it, recorded or corrected together."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from crewtrack.facts import PERFORMANCES, SORTIES, Row
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.given_rows import FactKey
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.records.finding import find, naming
from crewtrack.records.reading import Current
from crewtrack.records.stored import layout

_KEY: Final = SORTIES.index("sortie")
_SORTIE: Final = PERFORMANCES.index("sortie")


@dataclass(frozen=True, slots=True)
class Flown:
    """A sortie as somebody saw it who wants to correct it: its newest revision, and that of each
    performance on it."""

    sortie: Current
    performances: tuple[Current, ...]

    @property
    def key(self) -> str:
        """The sortie's key."""
        return str(self.sortie.row[_KEY])


def flown(office: Office, key: str) -> Flown | None:
    """A sortie as it stands now; None where there is none."""
    with office.record.reading() as reading:
        sortie = find(reading, SORTIES, (key,))
        if sortie is None or sortie.struck:
            return None
        return Flown(sortie, tuple(naming(reading, PERFORMANCES, "sortie", key)))


def log_sortie(office: Office, sortie: Row, performances: Sequence[Row], order: Order) -> Changes:
    """Record a new sortie. What its performances name as theirs is passed over: they are of this
    one. Faults are at ``sorties 1`` and ``performances 1``, ``performances 2`` …"""
    entries = [Entry(SORTIES, sortie)]
    entries += [Entry(PERFORMANCES, _on(sortie[_KEY], row)) for row in performances]
    return record(office, entries, replace(order, act_kind="sortie"))


def correct_sortie(
    office: Office, seen: Flown, sortie: Row, performances: Sequence[Row], order: Order
) -> Changes:
    """Make a sortie what is given here: the performances that were seen and are no longer there
    are struck out (their faults are at ``struck performances 1`` …), new ones added, those that
    differ corrected. One that somebody else added meanwhile stays. The key stays too."""
    numbers = {_performance(held.row): held.number for held in seen.performances}
    rows = [_on(seen.key, row) for row in performances]
    kept = set(map(_performance, rows))
    given: list[Entry | Strike] = [Entry(SORTIES, _under(seen.key, sortie), seen.sortie.number)]
    given += [Entry(PERFORMANCES, row, numbers.get(_performance(row))) for row in rows]
    given += [Strike(PERFORMANCES, key, n) for key, n in numbers.items() if key not in kept]
    return record(office, given, replace(order, act_kind="correct"))


def _performance(row: Row) -> FactKey:
    return layout(PERFORMANCES).key_of(row)


def _on(sortie: object, row: Row) -> Row:
    """A performance, on this sortie."""
    return (*row[:_SORTIE], None if sortie is None else str(sortie), *row[_SORTIE + 1 :])


def _under(key: str, row: Row) -> Row:
    """A sortie, under this key."""
    return (*row[:_KEY], key, *row[_KEY + 1 :])
