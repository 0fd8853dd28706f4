"""Opening a record for a window, away from the screen's thread."""

from datetime import datetime
from pathlib import Path

from crewtrack.desk.work import Progress
from crewtrack.errors import RecordUnusable
from crewtrack.facts import SORTIES
from crewtrack.office import safekeeping, snapshot
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.phrases import later
from crewtrack.screens import sortie_log
from crewtrack.screens.window_words import backup_helps


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


class Damaged(RecordUnusable):
    """A backup would help: ``best`` is the newest that is whole, None where there is none in its
    ``folder``."""

    def __init__(self, told: str, best: Path | None, folder: Path) -> None:
        super().__init__(told)
        self.best = best
        self.folder = folder


def opened(record: Path, progress: Progress) -> tuple[Office, Snapshot]:
    """The office over a record, and the record as it stands; Damaged where it is that."""
    try:
        return _opened(record, progress)
    except RecordUnusable as error:
        if not backup_helps(error):
            raise
        best = safekeeping.best_backup(record, progress)
        raise Damaged(error.args[0], best, safekeeping.folder_of(record)) from error


def _opened(record: Path, progress: Progress) -> tuple[Office, Snapshot]:
    office = Office.open(record)
    try:
        return office, taken(office, None, progress)
    except BaseException:
        office.close()
        raise
