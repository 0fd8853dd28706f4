"""Choosing a record to open, and making a new one or the demonstration."""

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog, QInputDialog, QWidget

from crewtrack.desk.progress_dialog import run_with_progress
from crewtrack.desk.troubles import show_trouble
from crewtrack.desk.work import Progress
from crewtrack.errors import Refused
from crewtrack.office.shipped import shipped_standards
from crewtrack.screens.language import say

if TYPE_CHECKING:
    from crewtrack.office.keeping import Chief

ENDING = ".crewtrack"


def _records() -> str:
    return say("Records ({pattern})", pattern=f"*{ENDING}")


def open_record(parent: QWidget) -> Path | None:
    """Ask for a record to open."""
    name, _ = QFileDialog.getOpenFileName(
        parent, say("Open a record"), "", f"{_records()};;{say('All files')} (*)"
    )
    return Path(name) if name else None


def new_record(parent: QWidget) -> Path | None:
    """Ask for a standard, a name and a first chief, who may be left out, and make an empty
    record."""
    from crewtrack.desk.key_dialogs import FirstChiefDialog

    title = say("New record")
    standard = _standard(parent, title)
    if standard is None:
        return None
    name, _ = QFileDialog.getSaveFileName(parent, title, f"record{ENDING}", _records())
    if not name:
        return None
    record = Path(name) if Path(name).suffix else Path(name + ENDING)
    dialog = FirstChiefDialog(parent)
    wanted = dialog.exec()
    dialog.deleteLater()
    return _made(parent, record, standard, dialog.chief) if wanted else None


def demonstration(parent: QWidget) -> Path | None:
    """Make the demonstration record in a new folder."""
    from crewtrack.office import demonstration as made

    folder = Path(tempfile.mkdtemp(prefix="crewtrack-demo-"))
    record = run_with_progress(parent, say("Making the demonstration"), lambda _: made.make(folder))
    return record if isinstance(record, Path) else None


def restored(parent: QWidget, record: Path, best: Path | None = None) -> Path | None:
    """Ask for a backup, ``best`` to begin with, and put it in the place of a record that can't be
    opened."""
    from crewtrack.desk.record_acts import ask_backup
    from crewtrack.office import keeping

    source, title = ask_backup(parent, record, best), say("Restoring")
    if source is None:
        return None

    def put_back(progress: Progress) -> Path:
        keeping.restore(record, source, progress)
        return record

    try:
        done = run_with_progress(parent, title, put_back)
    except Refused as refused:
        show_trouble(parent, title, refused)
        return None
    return done if isinstance(done, Path) else None


def _made(parent: QWidget, record: Path, standard: Path, chief: "Chief | None") -> Path | None:
    from crewtrack.office import keeping
    from crewtrack.office.unnamed import default_author

    author = default_author() if chief is None else chief.person
    try:
        keeping.init(record, standard, author, chief=chief)
    except (Refused, OSError) as error:
        show_trouble(parent, say("New record"), error)
        return None
    return record


def _standard(parent: QWidget, title: str) -> Path | None:
    """One of the standards that come with the program, or a file of the unit's own."""
    own = say("A file of our own…")
    known = {path.stem: path for path in shipped_standards()}
    told, taken = QInputDialog.getItem(
        parent, title, say("Which standard is it to begin with?"), [*known, own], 0, editable=False
    )
    if not taken:
        return None
    if told != own:
        return known[told]
    file, _ = QFileDialog.getOpenFileName(
        parent, say("The unit's standard"), "", f"{say('Standards')} (*.toml)"
    )
    return Path(file) if file else None
