"""What opens below the board for one cell: the life lines and the reasons."""

from dataclasses import dataclass
from datetime import date

from crewtrack.engine.standings import Word
from crewtrack.office.disputes import open_disputes
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.language import say
from crewtrack.screens.life_lines import LifeLine, life_lines
from crewtrack.screens.reasons_words import Said, reasons


@dataclass(frozen=True, slots=True)
class CellDetail:
    """One person's standing in one qualification on a day, opened."""

    title: str
    word: Word
    lines: tuple[LifeLine, ...]
    said: tuple[Said, ...]


def cell_detail(snapshot: Snapshot, person: str, qualification: str, on: date) -> CellDetail:
    """A cell, opened; KeyError for an unknown person."""
    told = snapshot.explain(person, qualification, on)
    title = say(
        "{name}, {qualification}, on {day}", name=told.name, qualification=told.title, day=on
    )
    lines = life_lines(snapshot.reckoning, told, on)
    return CellDetail(title, told.standing.word, lines, reasons(told, open_disputes(snapshot)))
