"""A panel with all occurrences and all disputes, for those who answer them."""

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QDialog, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.dialog_buttons import closing_row, table_button
from crewtrack.desk.look import quiet_words, take_room
from crewtrack.desk.said_acts import SaidActs
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.facts import DISPUTES, OCCURRENCES, Kind
from crewtrack.office.disputes import all_disputes
from crewtrack.screens import fields
from crewtrack.screens.dispute_words import disputes_table
from crewtrack.screens.language import say
from crewtrack.screens.occurrence_table import (
    closed_told,
    occurrence_lines,
    occurrence_table,
    readers_told,
)


class SaidBoard(QDialog):
    """Disputes above, occurrences below; those that are answered only where asked for."""

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.acts = SaidActs(state, self)
        self.setWindowTitle(say("Occurrences and disputes"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tables = {kind.name: TableView(fields.kind_told(kind.name)) for kind in _KINDS}
        self.readers = quiet_words("")
        self.answered = QCheckBox(say("Also those that are answered"))
        self.answered.setAccessibleName(self.answered.text())
        self.answered.toggled.connect(lambda _: self.show_state())
        layout = QVBoxLayout(self)
        for kind in _KINDS:
            self._add_part(layout, kind)
        below = QHBoxLayout()
        below.addWidget(self.answered, 1)
        below.addWidget(closing_row(self))
        layout.addLayout(below)
        self.show_state()
        state.moved.connect(self.show_state)
        self.tables[DISPUTES.name].setFocus()
        line = self.fontMetrics().lineSpacing()
        take_room(self, 80 * line, 36 * line)

    def show_state(self) -> None:
        """Show what there is now; nothing of occurrences to those who may not read them."""
        snapshot = self._state.snapshot
        closed = snapshot.closed(OCCURRENCES)
        told = closed_told(closed) if closed else readers_told(snapshot.identified)
        self.readers.setText(told)
        raised = all_disputes(snapshot)
        happened = () if closed else occurrence_lines(snapshot.rows(OCCURRENCES), self._state.zone)
        self.tables[DISPUTES.name].show_table(disputes_table(self._wanted(raised)))
        self.tables[OCCURRENCES.name].show_table(occurrence_table(self._wanted(happened)))

    def _wanted(self, lines: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(one for one in lines if one.open or self.answered.isChecked())

    def _add_part(self, layout: QVBoxLayout, kind: Kind) -> None:
        title = QLabel(fields.kind_told(kind.name))
        title.setProperty("tone", "title")
        layout.addWidget(title)
        if kind is OCCURRENCES:
            layout.addWidget(self.readers)
        table = self.tables[kind.name]
        layout.addWidget(table, 1)
        table.opened.connect(lambda _: self._answer(kind))
        buttons = QHBoxLayout()
        offered = [(say("Answer…"), "F4", lambda: self._answer(kind))]
        if kind is OCCURRENCES:
            offered.append((say("Report an occurrence…"), "Ins", lambda: self.acts.report()))
        for told, key, slot in offered:
            button = table_button(table, kind, told, key, slot)
            button.setToolTip(f"{told} ({key})")
            buttons.addWidget(button)
        buttons.addStretch()
        layout.addLayout(buttons)

    def _answer(self, kind: Kind) -> None:
        line: Any = self.tables[kind.name].chosen()
        if line is not None:
            self.acts.answer(kind, line.key)


_KINDS: tuple[Kind, ...] = (DISPUTES, OCCURRENCES)
