"""Opening a record for a window, away from the screen's thread."""

from datetime import datetime
from pathlib import Path

from crewtrack.desk.work import Progress
from crewtrack.facts import SORTIES
from crewtrack.office import snapshot
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.phrases import later
from crewtrack.screens import sortie_log


def taken(office: Office, known_at: datetime | None, progress: Progress) -> Snapshot:
    """The record as it stands or stood, with everybody's spans worked out: after that any day is
    shown at once."""
    made = snapshot.take(office, known_at, progress)
    progress(later("reckoning"), 0, 0)
    made.history()
    if known_at is None:
        office.keep(made.head, made.reckoning)  # spares an act from reading what was before it
    made.taken_keys(SORTIES)  # what the log and the form for sorties would have to wait for
    made.told(SORTIES, sortie_log.TOLD)
    return made


def opened(record: Path, progress: Progress) -> tuple[Office, Snapshot]:
    """The office over a record, and the record as it stands."""
    office = Office.open(record)
    try:
        return office, taken(office, None, progress)
    except BaseException:
        office.close()
        raise
