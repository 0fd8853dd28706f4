"""How what stands in the form for a sortie goes into the record."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from crewtrack.desk.state import State
from crewtrack.facts import PERFORMANCES, SORTIES, Value
from crewtrack.office import flying, recording
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.flying import Flown
from crewtrack.screens.sortie_draft import SortieDraft
from crewtrack.screens.sortie_form import ReadDraft


@dataclass(frozen=True, slots=True)
class Saved:
    """A sortie that was saved, corrected or struck out, its day, and what was typed."""

    key: str
    day: date
    draft: SortieDraft
    changes: Changes


def record_sortie(state: State, seen: Flown | None, read: ReadDraft, reason: str) -> Changes | None:
    """Record a new sortie, or the correction of one that was ``seen``. Refused lets faults
    through; None where the record refused, which the window has told."""
    order = Order(state.author, reason or None)
    if seen is None:
        return state.act(flying.log_sortie, read.sortie, read.performances, order)
    return state.act(flying.correct_sortie, seen, read.sortie, read.performances, order)


def strike_sortie(state: State, seen: Flown, reason: str) -> Changes | None:
    """Strike out a sortie and all that was performed on it."""
    given: list[Entry | Strike] = [
        Strike(PERFORMANCES, performance_key(held.row), held.number) for held in seen.performances
    ]
    given.append(Strike(SORTIES, (seen.key,), seen.sortie.number))
    return state.act(recording.record, given, Order(state.author, reason, "strike"))


def same_revisions(one: Flown, other: Flown) -> bool:
    """Whether two looks at a sortie saw the same."""
    return _numbers(one) == _numbers(other)


def _numbers(flown: Flown) -> Mapping[tuple[Value, ...], int]:
    numbers: dict[tuple[Value, ...], int] = {(): flown.sortie.number}
    return numbers | {performance_key(held.row): held.number for held in flown.performances}


def performance_key(row: tuple[Value, ...]) -> tuple[Value, ...]:
    """What tells a performance from all others."""
    return tuple(row[PERFORMANCES.index(name)] for name in PERFORMANCES.key)
