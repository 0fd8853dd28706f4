"""A small unit in which everybody has a key: a chief, an officer, an evaluator and two pilots."""

from datetime import date
from pathlib import Path
from typing import Final

from crewtrack.facts import PEOPLE
from crewtrack.office import access, keeping, recording
from crewtrack.office.entries import Entry, Order
from crewtrack.office.keeping import Chief
from crewtrack.office.office import Office
from tests.office.given_by_hand import row
from tests.office.unit_at_work import EVIDENCE, STANDARD, Clock, Unit

CHIEF, OFFICER, EVALUATOR, PILOT, OTHER = "C-01", "O-01", "V-01", "K-01", "K-02"
DUTIES: Final = {
    OFFICER: ("officer",),
    EVALUATOR: ("evaluator",),
    PILOT: ("pilot",),
    OTHER: ("pilot", "evaluator"),
}
CERTIFIED: Final = STANDARD.replace(
    'title = "Hand recovery"', 'title = "Hand recovery"\ncertified_by = "officer"'
)
"""The same standard with a second signature."""


def words(person: str) -> str:
    """Somebody's passphrase."""
    return f"heron lantern {person} tide"


def make(folder: Path, standard: str = STANDARD) -> Path:
    """The record: the evidence was there before anybody had a key."""
    (folder / "unit.toml").write_text(standard, encoding="utf-8")
    path, clock = folder / "record.crewtrack", Clock()
    keeping.init(path, folder / "unit.toml", "Ana", clock)
    with Office.open(path, clock) as office:
        unit = Unit(folder, office, clock)
        unit.take(EVIDENCE)
        for person, name in ((CHIEF, "Chi"), (OFFICER, "Ola")):
            recording.record(office, [Entry(PEOPLE, row(PEOPLE, person=person, name=name))], ANA)
        access.give_access(office, CHIEF, words(CHIEF), Order(CHIEF))
        with access.signing(office, words(CHIEF)):
            for person, duties in DUTIES.items():
                _give(office, person, duties)
    return path


ANA: Final = Order("Ana", "before anybody had a key")


def _give(office: Office, person: str, duties: tuple[str, ...]) -> None:
    with office.record.reading() as reading:
        held = reading.current(PEOPLE)[(person,)]
    place = PEOPLE.index("duties")
    changed = (*held.row[:place], duties, *held.row[place + 1 :])
    order = Order(CHIEF, "duties of the crew")
    recording.record(office, [Entry(PEOPLE, changed, held.number)], order)
    access.give_access(office, person, words(person), Order(CHIEF))


def make_new(folder: Path) -> Path:
    """A record that was made with its first chief, and holds nothing else."""
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    path = folder / "new.crewtrack"
    chief = Chief(CHIEF, "Chi", words(CHIEF))
    keeping.init(path, folder / "unit.toml", "Ana", Clock(), chief)
    return path


DAY: Final = date(2026, 6, 1)
