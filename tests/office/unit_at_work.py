"""A small unit's record, worked on as the office does it, with a clock that stands still."""

import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path
from types import MappingProxyType

from crewtrack.errors import Fault, Refused
from crewtrack.files.answers import history_json, roster_json, why_json
from crewtrack.office import asking, importing, keeping
from crewtrack.office.importing import Imported, ImportOrder
from crewtrack.office.office import Office

FIRST_ACT = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
ON = date(2026, 7, 1)

STANDARD = """\
title = "Small standard"
unit = "Small unit"
edition = "2026-1"
effective = 2026-01-01
zone = "America/Detroit"

[tasks.hand-recovery]
title = "Hand recovery"

[qualifications.deck-pilot]
title = "Deck pilot"
needs = [
  { id = "recency", recent = "hand-recovery", times = 3, within = "P90D" },
  { id = "signed", signed = "hand-recovery" },
]

[qualifications.observer]
title = "Observer"
needs = [ { certificate = "medical" } ]
"""

EVIDENCE = {
    "people": "person,name\nK-01,Ana Kovač\nK-02,Олена Ґедзь\nV-01,Sam Lee\n",
    "assignments": (
        "person,qualification,from\nK-01,deck-pilot,2026-01-01\nK-02,deck-pilot,2026-01-01\n"
    ),
    "sorties": (
        "sortie,launched,minutes,setting\n"
        "S-1,2026-04-01T10:00,12,live\nS-2,2026-05-01T10:00,12,live\nS-3,2026-05-20T10:00,12,live\n"
    ),
    "performances": (
        "sortie,person,task,times\n"
        "S-1,K-02,hand-recovery,3\nS-2,K-01,hand-recovery,3\nS-3,K-01,hand-recovery,1\n"
    ),
    "signoffs": (
        "signoff,person,task,date,level,result,evaluator\n"
        "E-1,K-01,hand-recovery,2026-05-01,alone,passed,V-01\n"
        "E-2,K-02,hand-recovery,2026-04-01,alone,passed,V-01\n"
    ),
}
"""K-01 is current through 2026-07-30, K-02 through 2026-06-30 (three within 90 days)."""


@dataclass
class Clock:
    """A clock that is set by hand."""

    at: datetime = FIRST_ACT

    def __call__(self) -> datetime:
        return self.at


@dataclass
class Unit:
    """A record, the office over it, and a folder to write files into."""

    folder: Path
    office: Office
    clock: Clock
    written: int = field(default=0)

    def files(self, contents: Mapping[str, str]) -> list[Path]:
        """Files of evidence with these contents, in a new folder, in the order given."""
        self.written += 1
        folder = self.folder / f"given-{self.written}"
        folder.mkdir()
        paths = [folder / f"{kind}.csv" for kind in contents]
        for path, content in zip(paths, contents.values(), strict=True):
            path.write_text(content, encoding="utf-8", newline="")
        return paths

    def take(
        self,
        given: Mapping[str, str] = MappingProxyType({}),
        *,
        reason: str | None = None,
        dry_run: bool = False,
        **more: str,
    ) -> Imported:
        """Import files of evidence, by kind; with a reason, as a revision."""
        order = ImportOrder("Ana", dry_run, reason is not None, reason)
        return importing.import_evidence(self.office, self.files({**given, **more}), order)

    def standard(self, text: str) -> Path:
        """A standard as a file."""
        self.written += 1
        path = self.folder / f"standard-{self.written}.toml"
        path.write_text(text, encoding="utf-8", newline="")
        return path

    def adopt(self, text: str, reason: str | None = None) -> keeping.Adopted:
        """Add an edition."""
        return keeping.adopt(self.office, self.standard(text), "Ana", reason)

    def word(self, person: str, on: date = ON, known_at: datetime | None = None) -> str:
        """A person's standing as deck pilot."""
        return asking.why(self.office, person, "deck-pilot", on, known_at).standing.word

    def head(self) -> str:
        """The journal's last digest."""
        with self.office.view() as view:
            return view.head.digest


@contextmanager
def unit_in(folder: Path, record: Path) -> Iterator[Unit]:
    """A unit with a copy of a record, in a folder of its own."""
    clock = Clock()
    with Office.open(shutil.copy(record, folder / "record.crewtrack"), clock) as office:
        yield Unit(folder, office, clock)


def answers(office: Office, *days: date) -> dict[str, str]:
    """Everything that can be asked, as JSON: the history, and for each day the roster and every
    standing explained."""
    told = {"history": history_json(asking.history(office))}
    with office.view() as view:
        people = list(view.reckoning().evidence.books)
        qualifications = view.editions.qualifications
    for day in days:
        told[f"roster {day}"] = roster_json(asking.roster(office, day))
        for person in people:
            for key in qualifications:
                explained = asking.why(office, person, key, day)
                told[f"why {person} {key} {day}"] = why_json(explained, day)
    return told


def refused(unit: Unit, **contents: str) -> tuple[Fault, ...]:
    """The faults of an import; none where it was taken."""
    try:
        unit.take(contents)
    except Refused as refusal:
        return refusal.faults
    return ()


def places(faults: tuple[Fault, ...]) -> list[tuple[str, str]]:
    """Where each fault is."""
    return [(fault.place, fault.field) for fault in faults]
