"""A panel with the unit's boats and aircraft, to add and to correct."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.dialog_buttons import closing_row, table_button
from crewtrack.desk.look import take_room
from crewtrack.desk.person_acts import PersonActs
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.facts import AIRCRAFT, VESSELS, Kind, Row
from crewtrack.screens import fields
from crewtrack.screens.craft_table import craft_table
from crewtrack.screens.language import say


class CraftDialog(QDialog):
    """Boats above, aircraft below."""

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.acts = PersonActs(state, self)
        self.setWindowTitle(say("Boats and aircraft"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tables = {kind.name: TableView(fields.kind_told(kind.name)) for kind in _KINDS}
        layout = QVBoxLayout(self)
        for kind in _KINDS:
            self._add_part(layout, kind)
        layout.addWidget(closing_row(self))
        self._show()
        state.moved.connect(self._show)
        line = self.fontMetrics().lineSpacing()
        take_room(self, 44 * line, 32 * line)

    def _show(self) -> None:
        for kind in _KINDS:
            rows = self._state.snapshot.rows(kind)
            self.tables[kind.name].show_table(craft_table(kind, rows))

    def _add_part(self, layout: QVBoxLayout, kind: Kind) -> None:
        title = QLabel(fields.kind_told(kind.name))
        title.setProperty("tone", "title")
        table = self.tables[kind.name]
        layout.addWidget(title)
        layout.addWidget(table, 1)
        table.opened.connect(lambda row: self.acts.correct(kind, row))
        buttons = QHBoxLayout()
        for told, key, slot in (
            (say("Add…"), "Ins", lambda: self.acts.add(kind, "")),
            (say("Correct…"), "F4", lambda: self._correct(kind)),
            (say("Strike out…"), "Del", lambda: self._strike(kind)),
        ):
            buttons.addWidget(table_button(table, kind, told, key, slot))
        buttons.addStretch()
        layout.addLayout(buttons)

    def _correct(self, kind: Kind) -> None:
        row: Row | None = self.tables[kind.name].chosen()
        if row is not None:
            self.acts.correct(kind, row)

    def _strike(self, kind: Kind) -> None:
        row: Row | None = self.tables[kind.name].chosen()
        if row is not None:
            self.acts.strike(kind, row)


_KINDS = (VESSELS, AIRCRAFT)
