"""The demonstration: a unit that does not exist, with three years of records.

It goes into a record the way any unit's would: editions adopted, files imported, corrections with
a reason, each at an instant of its own. All is told relative to the day that it is made for, so
that it is always alive.
"""

from datetime import date, datetime
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Final
from uuid import UUID

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KINDS
from crewtrack.files import evidence_writer
from crewtrack.files.standard_file import read_standard
from crewtrack.office.demonstration_acts import Adoption, Import, adoptions, imports
from crewtrack.office.demonstration_rows import ZONE, generated
from crewtrack.office.importing import ImportOrder, import_evidence
from crewtrack.office.office import Clock, Office, now
from crewtrack.phrases import phrase
from crewtrack.records import store

RECORD: Final = "tamarack-harbor.crewtrack"
_FIRST: Final = date(2010, 1, 1)
_LAST: Final = date(2999, 12, 31)


def make(folder: Path, on: date | None = None, clock: Clock = now) -> Path:
    """Make the demonstration record in a folder, for a day (today in the unit's zone where None);
    returns its path. Refused where there is one already, and for a day that is out of all reason.

    For one day the record is the same to the journal's last digest.
    """
    day = on or clock().astimezone(ZONE).date()
    if not _FIRST <= day <= _LAST:
        cure = phrase("name one from {first} through {last}", first=_FIRST, last=_LAST)
        raise Refused(
            Fault("--on", "", phrase("the demonstration can't be made for {day}", day=day), cure)
        )
    path = folder / RECORD
    store.create(path)
    ids = Random(f"acts {day.isoformat()}")
    record = store.Record.open(path, new_id=lambda: str(UUID(int=ids.getrandbits(128), version=4)))
    officer = generated(day)[0].officer.key
    acts: list[Adoption | Import] = [*adoptions(day), *imports(day)]
    acts.sort(key=_instant)
    with Office(record) as office, TemporaryDirectory(prefix="crewtrack-") as papers:
        for act in acts:
            office.clock = _standing_at(act.instant)
            if isinstance(act, Adoption):
                _adopt(office, act, officer)
            else:
                _import(office, act, officer, Path(papers))
    return path


def _instant(act: Adoption | Import) -> datetime:
    return act.instant


def _standing_at(instant: datetime) -> Clock:
    return lambda: instant


def _adopt(office: Office, adoption: Adoption, author: str) -> None:
    """Adopt an edition, be it the first or a later one."""
    standard = read_standard(adoption.source, adoption.name)
    with office.record.act("adopt", author, office.clock(), adoption.reason) as act:
        act.add_edition(standard.edition, standard.effective, adoption.source)


def _import(office: Office, taken: Import, author: str, folder: Path) -> None:
    """Write the rows as files, and import those."""
    paths = [
        evidence_writer.write(folder, kind, taken.rows[kind.name])
        for kind in KINDS
        if taken.rows.get(kind.name)
    ]
    revise = taken.reason is not None
    order = ImportOrder(author, revise=revise, reason=taken.reason, backup=False)
    import_evidence(office, paths, order)
