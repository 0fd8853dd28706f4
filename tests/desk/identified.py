"""A small record in which people sign in: a chief, an evaluator, a pilot, and somebody without a
key."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from crewtrack.facts import ASSIGNMENTS, PEOPLE, PERFORMANCES, SORTIES, VESSELS
from crewtrack.office import access, keeping, recording
from crewtrack.office.entries import Entry, Order
from crewtrack.office.keeping import Chief
from crewtrack.office.office import Office

CHIEF, EVALUATOR, PILOT, NOBODY = "K-01", "K-02", "K-03", "K-04"
NAMES: Final = {
    CHIEF: "Ana Kovač", EVALUATOR: "Олена Ґедзь", PILOT: "Sam Lee", NOBODY: "Ada Moss",
}  # fmt: skip
WORDS: Final = {
    CHIEF: "four words nobody knows",
    EVALUATOR: "a lantern behind the pier",
    PILOT: "seven gulls upon one buoy",
}
"""Everybody's passphrase."""

STANDARD: Final = """\
title = "Small standard"
unit = "Small unit"
edition = "2026-1"
effective = 2026-01-01
zone = "America/Detroit"

[tasks.hand-recovery]
title = "Hand recovery"
criteria = ["Gloves on"]

[qualifications.deck-pilot]
title = "Deck pilot"
needs = [ { id = "signed", signed = "hand-recovery" } ]
"""
_MADE: Final = datetime(2026, 11, 1, 12, 0, tzinfo=UTC)


def make(folder: Path, standard: str = STANDARD) -> Path:
    """Make the record in a folder; returns its path."""
    (folder / "unit.toml").write_text(standard, encoding="utf-8")
    record = folder / "unit.crewtrack"
    chief = Chief(CHIEF, NAMES[CHIEF], WORDS[CHIEF])
    keeping.init(record, folder / "unit.toml", CHIEF, _clock, chief)
    with Office.open(record, _clock) as office:
        access.sign_in(office, CHIEF, WORDS[CHIEF])
        with access.signing(office, WORDS[CHIEF]):
            recording.record(office, _facts(), Order(CHIEF))
            access.give_access(office, EVALUATOR, WORDS[EVALUATOR], Order(CHIEF))
            access.give_access(office, PILOT, WORDS[PILOT], Order(CHIEF))
    return record


def _clock() -> datetime:
    return _MADE


def _facts() -> list[Entry]:
    duties = {EVALUATOR: ("evaluator", "officer"), PILOT: ("pilot",), NOBODY: ("pilot",)}
    people = [
        Entry(PEOPLE, (person, NAMES[person], None, None, None, None, held))
        for person, held in duties.items()
    ]
    first = datetime(2026, 1, 1, tzinfo=UTC).date()
    sortie = ("S-1", datetime(2026, 10, 20, 15, 0, tzinfo=UTC), 12, "live", "B-1")
    return [
        *people,
        Entry(ASSIGNMENTS, (PILOT, "deck-pilot", first, None)),
        Entry(VESSELS, ("B-1", "Heron", None, None)),
        Entry(SORTIES, (*sortie, *(None,) * (len(SORTIES.columns) - len(sortie)))),
        Entry(PERFORMANCES, ("S-1", EVALUATOR, "hand-recovery", 1, *(None,) * 4)),
    ]
