"""Files looked through before they are taken in: their faults, or what they would change."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QGridLayout,
    QLabel,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.asking import without_backup
from crewtrack.desk.dialog_buttons import button_row, dialog_button
from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.look import set_property, take_room
from crewtrack.desk.progress_dialog import run_with_progress
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.errors import Fault, NotBackedUp, Refused
from crewtrack.office.importing import Imported, ImportOrder, import_evidence
from crewtrack.screens import import_words
from crewtrack.screens.language import say


class ImportDialog(QDialog):
    """Imports the files at ``paths`` once somebody has seen what they would do. ``done`` is what
    they did, None as long as nothing was written."""

    def __init__(
        self, state: State, theme: Theme, paths: Sequence[Path], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._state, self._theme, self._paths = state, theme, tuple(paths)
        self.imported: Imported | None = None
        self.setWindowTitle(say("Import"))
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.faults = TableView(say("Faults of the files"))
        self.faults.moved_to.connect(self._show_fault)
        self.counts = TableView(say("What would change, by kind"))
        self.counts.horizontalHeader().setStretchLastSection(False)
        self.notices = LinesPanel(say("What to know"), theme)
        self.revise = QCheckBox(say("Take over what &differs, as a revision"))
        self.revise.setAccessibleName(say("Take over what differs, as a revision"))
        self.reason = Field(say("Why it changed"), LineEditor())
        self.revise.toggled.connect(self._revising)
        self.import_button = dialog_button(say("&Import"))
        self.import_button.clicked.connect(self.take_in)
        self.look_button = dialog_button(say("&Look again"))
        self.look_button.clicked.connect(self.look)
        self._lay_out()
        self._revising(False)

    def look(self) -> None:
        """Look through the files as they are now; nothing is written."""
        revise = self.revise.isChecked()
        order = ImportOrder(self._state.author, True, revise, self._reason() or say("to look"))
        try:
            found = self._run(say("Looking through the files"), order)
        except Refused as refused:
            self._show_faults(refused.faults)
            return
        if found is None:
            self._show_faults(())
            self.told.setText(say("Not looked through. Nothing was written."))
        else:
            self._show_counts(found)

    def take_in(self) -> None:
        """Write what the files hold into the record."""
        revise = self.revise.isChecked()
        if revise and not self._reason():
            self.reason.show_fault(say("Give a reason."))
            self.reason.editor.setFocus()
            return
        order = ImportOrder(self._state.author, False, revise, self._reason() or None)
        try:
            self.imported = self._taken_in(order)
        except Refused as refused:
            self._show_faults(refused.faults)
            return
        if self.imported is not None:
            self._state.refresh()
            self._state.told.emit(import_words.imported_told(self.imported))
            self.accept()

    def _taken_in(self, order: ImportOrder) -> Imported | None:
        title = say("Importing")
        try:
            return self._state.signed(lambda: self._run(title, order))
        except NotBackedUp as error:
            if not without_backup(self, error):
                return None
            without = replace(order, backup=False)
            return self._state.signed(lambda: self._run(title, without))

    def _run(self, title: str, order: ImportOrder) -> Imported | None:
        office, paths = self._state.office, self._paths
        return run_with_progress(
            self, title, lambda progress: import_evidence(office, paths, order, progress)
        )

    def _reason(self) -> str:
        return self.reason.editor.text().strip()

    def _lay_out(self) -> None:
        files = QLabel(say("From {files}", files=", ".join(map(str, self._paths))))
        files.setWordWrap(True)
        set_property(files, "tone", "quiet")
        halves = QSplitter(Qt.Orientation.Vertical)
        for part in (self.faults, self.counts, self.notices):
            halves.addWidget(part)
        halves.setChildrenCollapsible(False)
        halves.setSizes([600, 600, 400])
        below = QGridLayout()
        below.addWidget(self.revise, 0, 0, 1, 3)
        self.reason.add_to(below, 1)
        below.setColumnStretch(1, 1)
        layout = QVBoxLayout(self)
        layout.addWidget(files)
        layout.addWidget(self.told)
        layout.addWidget(halves, 1)
        layout.addLayout(below)
        layout.addWidget(button_row(self, (self.look_button, self.import_button), say("Close")))
        line = self._theme.line()
        take_room(self, line * 48, line * 28)

    def _revising(self, revise: bool) -> None:
        """Another choice than was looked at: look again before importing."""
        self.reason.label.setEnabled(revise)
        self.reason.editor.setEnabled(revise)
        self.reason.show_fault("")
        self.import_button.setEnabled(False)

    def _show_faults(self, found: Sequence[Fault]) -> None:
        self.told.setText(import_words.faults_told(found))
        set_property(self.told, "tone", "fault")
        self.counts.hide()
        self.notices.setVisible(bool(found))
        self.faults.show()
        self.faults.show_table(import_words.fault_table(found))
        if found:
            self.faults.setCurrentIndex(self.faults.rows.index(0, 0))
        self.import_button.setEnabled(False)

    def _show_fault(self, row: Any) -> None:
        """The chosen fault in full: its columns may be too narrow for it."""
        self.notices.show_lines(() if row is None else import_words.fault_lines(row.fault))

    def _show_counts(self, found: Imported) -> None:
        self.told.setText(import_words.preview_told(found))
        set_property(self.told, "tone", "")
        self.faults.hide()
        self.counts.show()
        self.counts.show_table(import_words.count_table(found))
        self.notices.setVisible(bool(found.notices))
        self.notices.show_lines(import_words.notice_lines(found))
        self.import_button.setEnabled(found.changed)
