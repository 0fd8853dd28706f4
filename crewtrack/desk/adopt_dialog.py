"""A standard's file, looked through before it becomes an edition: its faults beside its text, or
what it would change."""

from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontDatabase, QTextCursor, QTextFormat
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QLabel,
    QPlainTextEdit,
    QSplitter,
    QTextEdit,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.asking import without_backup
from crewtrack.desk.dialog_buttons import button_row, dialog_button
from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.look import take_room
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.desk.troubles import show_trouble
from crewtrack.engine.standard import Standard
from crewtrack.errors import Fault, NotBackedUp, Refused
from crewtrack.office import keeping
from crewtrack.screens.import_words import fault_lines, fault_table, line_of
from crewtrack.screens.language import say
from crewtrack.screens.standard_adopt import adopted_told, faults_told, sound_told, would_change


class AdoptDialog(QDialog):
    """Adopts the file at ``path`` where it is sound and somebody says so."""

    def __init__(
        self, state: State, theme: Theme, path: Path, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._state, self._theme, self._path = state, theme, path
        self._standard: Standard | None = None
        self.setWindowTitle(say("Adopt {file}", file=path.name))
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.faults = TableView(say("Faults of the file"))
        self.faults.moved_to.connect(self._show_line)
        self.fault = LinesPanel(say("The chosen fault"), theme)
        self.would_change = LinesPanel(say("What it would change"), theme)
        self.text = QPlainTextEdit()
        self.text.setReadOnly(True)
        self.text.setAccessibleName(say("The file's text"))
        self.text.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.text.setTabChangesFocus(True)
        self.text.setFont(_fixed(theme))
        self.reason = Field(say("Why it takes effect in the past"), LineEditor())
        self._lay_out()
        self.look()

    def look(self) -> None:
        """Read the file as it is now, and show what comes of it."""
        try:
            self.text.setPlainText(self._path.read_bytes().decode("utf-8", "replace"))
            self._standard = keeping.check_standard(self._path)
        except Refused as refused:
            self._show_faults(refused.faults)
        except OSError as error:
            self._standard = None
            self.adopt_button.setEnabled(False)
            show_trouble(self, self.windowTitle(), error)
        else:
            self._show_sound(self._standard)

    def adopt(self) -> None:
        """Make the file an edition; what the record has against it is shown like any fault."""
        if self._standard is None:
            return
        path, reason = self._path, self.reason.editor.text().strip() or None
        shown = self._standard
        try:
            if keeping.check_standard(path) != shown:
                self.look()  # the file was saved anew meanwhile: nobody has seen that text
                return
            done = self._adopted(path, reason)
        except Refused as refused:
            self._refuse(refused.faults)
            return
        except OSError as error:
            show_trouble(self, self.windowTitle(), error)
            return
        if done is not None:
            self._state.told.emit(adopted_told(done))
            self.accept()

    def _adopted(self, path: Path, reason: str | None) -> keeping.Adopted | None:
        act, author = self._state.act, self._state.author
        try:
            return act(keeping.adopt, path, author, reason)
        except NotBackedUp as error:
            if not without_backup(self, error):
                return None
            return act(keeping.adopt, path, author, reason, backup=False)

    def _lay_out(self) -> None:
        self.halves = QSplitter(Qt.Orientation.Vertical)
        for part in (self.faults, self.fault, self.would_change, self.text):
            self.halves.addWidget(part)
        self.halves.setSizes([400, 200, 600, 500])
        self.halves.setChildrenCollapsible(False)
        below = QGridLayout()
        self.reason.add_to(below, 0)
        below.setColumnStretch(1, 1)
        self.again_button = dialog_button(say("&Read again"))
        self.again_button.clicked.connect(self.look)
        self.adopt_button = dialog_button(say("&Adopt"))
        self.adopt_button.clicked.connect(self.adopt)
        buttons = button_row(self, (self.again_button, self.adopt_button), say("Close"))
        layout = QVBoxLayout(self)
        layout.addWidget(self.told)
        layout.addWidget(self.halves, 1)
        layout.addLayout(below)
        layout.addWidget(buttons)
        line = self._theme.line()
        take_room(self, line * 48, line * 34)

    def _show_faults(self, found: tuple[Fault, ...]) -> None:
        self._standard = None
        self._list_faults(found)
        self._ask_why(False)
        self.adopt_button.setEnabled(False)

    def _list_faults(self, found: tuple[Fault, ...]) -> None:
        self.told.setText(faults_told(self._path.name, len(found)))
        self.would_change.hide()
        self.faults.show()
        self.fault.show()
        self.faults.show_table(fault_table(found))
        self.faults.setCurrentIndex(self.faults.rows.index(0, 0))

    def _refuse(self, found: tuple[Fault, ...]) -> None:
        """Faults that the record finds; a missing reason is told at its field."""
        missing = [fault for fault in found if "--reason" in fault.cure]
        others = tuple(fault for fault in found if fault not in missing)
        self.reason.show_fault(say("Give a reason.") if missing else "")
        if missing:
            self._ask_why(True)
            self.reason.editor.setFocus()
        if others:
            self._list_faults(others)

    def _show_sound(self, standard: Standard) -> None:
        now = self._state.snapshot.standard(self._state.today)
        self.told.setText(sound_told(self._path.name, standard))
        self.faults.hide()
        self.fault.hide()
        self.would_change.show()
        self.would_change.show_lines(would_change(now, standard))
        self._ask_why(standard.effective < self._state.today)
        self.reason.show_fault("")
        self.adopt_button.setEnabled(True)
        self.adopt_button.setDefault(True)

    def _ask_why(self, asked: bool) -> None:
        self.reason.label.setVisible(asked)
        self.reason.editor.setVisible(asked)
        if not asked:
            self.reason.show_fault("")

    def _show_line(self, row: Any) -> None:
        """Tell a fault in full, its columns may be too narrow for it; bring its line into view."""
        self.fault.show_lines(() if row is None else fault_lines(row.fault))
        line = None if row is None else line_of(row.fault)
        marks = []
        if line is not None:
            block = self.text.document().findBlockByNumber(line - 1)
            cursor = QTextCursor(block)
            self.text.setTextCursor(cursor)
            self.text.centerCursor()
            mark = QTextEdit.ExtraSelection()
            mark.cursor = cursor
            mark.format.setBackground(self._theme.colour(self._theme.shades.tint["due"]))
            mark.format.setProperty(QTextFormat.Property.FullWidthSelection, True)
            marks.append(mark)
        self.text.setExtraSelections(marks)


def _fixed(theme: Theme) -> QFont:
    """A typeface in whose columns a file's text stands as its writer sees it."""
    font = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
    font.setPointSizeF(theme.font().pointSizeF())
    return font
