"""What is done to a record as a whole: in, out, kept safe, put back, checked."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from crewtrack.desk.import_dialog import ImportDialog
from crewtrack.desk.progress_dialog import run_with_progress
from crewtrack.desk.retention_dialog import RetentionDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.troubles import show_trouble
from crewtrack.desk.work import Progress
from crewtrack.errors import Refused
from crewtrack.office import exporting, keeping, safekeeping
from crewtrack.screens import backup_words, import_words
from crewtrack.screens.language import count_of, say
from crewtrack.screens.standard_page_lines import Line

_ENDING = ".crewtrack"


def choose_files(parent: QWidget) -> tuple[Path, ...]:
    """Ask for files of evidence; none where it was called off."""
    told = f"{say('Evidence')} (*.csv *.xlsx);;{say('All files')} (*)"
    names, _ = QFileDialog.getOpenFileNames(parent, say("Import files"), "", told)
    return tuple(map(Path, names))


def choose_folder(parent: QWidget) -> tuple[Path, ...]:
    """Ask for a folder of files of evidence."""
    name = QFileDialog.getExistingDirectory(parent, say("Import a folder"))
    return (Path(name),) if name else ()


def import_files(parent: QWidget, state: State, theme: Theme, paths: Sequence[Path]) -> None:
    """Show what files would do, and take them in where that is wanted."""
    dialog = ImportDialog(state, theme, paths, parent)
    dialog.look()
    dialog.exec()
    dialog.deleteLater()


def export(parent: QWidget, state: State) -> None:
    """Write the record into a folder as files."""
    title = say("Export into an empty folder")
    name = QFileDialog.getExistingDirectory(parent, title)
    if name:
        export_to(parent, state, Path(name))


def export_to(parent: QWidget, state: State, folder: Path) -> None:
    """Write the record into that folder."""
    written = _run(parent, state, say("Exporting"),
                   lambda progress: exporting.export(state.office, folder, progress))  # fmt: skip
    if written is not None:
        state.told.emit(
            say("Exported: {files} in {folder}.", folder=folder,
                files=count_of(len(written), "{count} file", "{count} files"))
        )  # fmt: skip


def back_up(parent: QWidget, state: State) -> None:
    """Write a checked copy of the record."""
    path = state.office.record.path
    told = f"{say('Records')} (*{_ENDING})"
    at = path.with_name(f"{path.stem}-{state.today}{_ENDING}")
    name, _ = QFileDialog.getSaveFileName(parent, say("Back up"), str(at), told)
    if name:
        back_up_to(parent, state, Path(name))


def back_up_to(parent: QWidget, state: State, path: Path) -> None:
    """Write a checked copy to that file."""

    def write(progress: Progress) -> Path:
        keeping.backup(state.office, path, progress)
        return path

    if _run(parent, state, say("Backing up"), write) is not None:
        state.told.emit(say("Backed up to {path}, and checked.", path=path))


def restore(parent: QWidget, state: State) -> None:
    """Ask for a backup, say what putting it back does, and do it."""
    record = state.office.record.path
    source = ask_backup(parent, record, safekeeping.newest(record))
    if source is not None:
        restore_from(parent, state, source)


def ask_backup(parent: QWidget, target: Path, first: Path | None) -> Path | None:
    """Ask for a backup to put in a record's place, ``first`` being chosen to begin with; None
    where it was called off."""
    title = say("Restore a backup")
    told = f"{say('Records')} (*{_ENDING});;{say('All files')} (*)"
    name, _ = QFileDialog.getOpenFileName(parent, title, str(first or ""), told)
    if not name:
        return None
    source = Path(name)
    box = QMessageBox(QMessageBox.Icon.NoIcon, title,
                      import_words.restore_told(source, target), parent=parent)  # fmt: skip
    box.setAccessibleName(title)
    go = box.addButton(say("Put it back"), QMessageBox.ButtonRole.AcceptRole)
    box.setDefaultButton(box.addButton(say("Leave it"), QMessageBox.ButtonRole.RejectRole))
    box.exec()
    wanted = box.clickedButton() is go
    box.deleteLater()
    return source if wanted else None


def restore_from(parent: QWidget, state: State, source: Path) -> None:
    """Put a backup in the record's place. The record is let go of meanwhile, since it can't be
    replaced while anybody has it open."""
    target, session = state.office.record.path, state.office.session

    def put_back(progress: Progress) -> tuple[Path | None]:
        return (keeping.restore(target, source, progress, session),)

    state.close()
    done = _run(parent, state, say("Restoring"), put_back)
    state.watch()
    state.refresh()
    if done is not None:
        (aside,) = done
        state.told.emit(
            say("Restored. What was there is kept as {path}.", path=aside.name if aside else "–")
        )


def verify(parent: QWidget, state: State) -> tuple[Line, ...] | None:
    """Check the record; the lines say what was found, None where it was called off."""

    def look(progress: Progress) -> tuple[Line, ...]:
        found = keeping.verify(state.office, progress)
        lines = import_words.breaks_lines(found)
        if not found:
            return lines
        record = state.office.record.path
        best = safekeeping.best_backup(record, progress)
        told = backup_words.whole_backup_told(best, safekeeping.folder_of(record))
        return (*lines, Line("said", told))

    return _run(parent, state, say("Verifying"), look)


def show_retention(parent: QWidget, state: State, theme: Theme) -> None:
    """What is past retention, the period, and sealing."""
    dialog = RetentionDialog(state, theme, parent)
    dialog.look()
    dialog.exec()
    dialog.deleteLater()


def _run(
    parent: QWidget, state: State, title: str, function: Callable[[Progress], Any]
) -> Any | None:
    """Long work under a panel; what it refuses is told in a sentence, and so is that it was not
    done: else the sentence of something done before would stand there still."""
    state.told.emit("")
    try:
        done = run_with_progress(parent, title, function)
    except Refused as refused:
        show_trouble(parent, title, refused)
        done = None
    if done is None:
        state.told.emit(say("{what}: not done.", what=title))
    return done
