"""The journal, newest first: filtered, and read on as one scrolls."""

from collections.abc import Callable
from datetime import date
from typing import Any, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from crewtrack.bad_cell import BadCell
from crewtrack.desk.look import set_property
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import RecordUnusable
from crewtrack.moments import read_day
from crewtrack.office.looking_back import JournalAct, Sought, act_kinds, acts_back
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.journal_table import act_kind_told, journal_table, journal_told
from crewtrack.screens.language import say

AT_ONCE: Final = 200
"""Acts that are read at a time."""


class JournalView(QWidget):
    """``chosen`` tells the act whose row was chosen, None for none."""

    chosen = Signal(object)

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._acts: tuple[JournalAct, ...] = ()
        self._whole = False
        self.text, self.first, self.last = QLineEdit(), QLineEdit(), QLineEdit()
        self.kind = QComboBox()
        self.told = QLabel()
        self.table = TableView(say("Journal"))
        self.table.moved_to.connect(self.chosen)
        self.table.verticalScrollBar().valueChanged.connect(self._scrolled)
        self._lay_out()
        for edit in (self.text, self.first, self.last):
            edit.textChanged.connect(self.look)
        self.kind.currentIndexChanged.connect(self.look)

    def show_state(self) -> None:
        """Show the journal as the state knows it."""
        if not self._try(self._offer_kinds):
            return
        self.look()

    def look(self) -> None:
        """Look for the newest acts that the filter takes."""
        self._acts, self._whole = (), False
        self._read_on()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 0)
        fields: tuple[tuple[str, QWidget, str, str], ...] = (
            (say("&Text"), self.text, say("Text in who, what or why"), say("who or why")),
            (say("&What"), self.kind, say("What was done"), ""),
            (say("&From"), self.first, say("From this day on"), "2026-11-25"),
            (say("T&hrough"), self.last, say("Through this day"), "2026-11-25"),
        )
        for place, (told, widget, name, hint) in enumerate(fields):
            row, column = divmod(place, 2)  # in one row, large text would leave no room to type
            label = QLabel(told)
            label.setBuddy(widget)
            widget.setAccessibleName(name)
            if isinstance(widget, QLineEdit):
                widget.setPlaceholderText(hint)
                widget.setClearButtonEnabled(True)
            grid.addWidget(label, row, 2 * column)
            grid.addWidget(widget, row, 2 * column + 1)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(3, 1)
        self.told.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(grid)
        layout.addWidget(self.told)
        layout.addWidget(self.table, 1)

    def _offer_kinds(self) -> None:
        kinds = act_kinds(self._state.office)
        held = self.kind.currentData() or ""
        self.kind.blockSignals(True)
        self.kind.clear()
        self.kind.addItem(say("anything"), "")
        for kind in kinds:
            self.kind.addItem(act_kind_told(kind), kind)
        self.kind.setCurrentIndex(max(0, self.kind.findData(held)))
        self.kind.blockSignals(False)

    def _scrolled(self, at: int) -> None:
        near = self.table.verticalHeader().defaultSectionSize()
        if not self._whole and at >= self.table.verticalScrollBar().maximum() - near:
            self._read_on()

    def _read_on(self) -> None:
        """Read the next acts, if there are more."""
        sought = self._sought()
        if sought is None:
            return
        before = self._acts[-1].seq if self._acts else self._state.snapshot.head.seq + 1
        self._try(lambda: self._add(acts_back(self._state.office, sought, before, AT_ONCE)))

    def _add(self, more: tuple[JournalAct, ...]) -> None:
        self._acts += more
        self._whole = len(more) < AT_ONCE
        self.table.show_table(journal_table(self._acts))
        if self.table.chosen() is None and self._acts:
            self.table.setCurrentIndex(self.table.rows.index(0, 0))
        elif not self._acts:
            self.chosen.emit(None)
        self.told.setText(journal_told(len(self._acts), self._whole))
        set_property(self.told, "tone", "quiet")

    def _sought(self) -> Sought | None:
        """What the filter asks for; None where a day can't be read, which is then told."""
        try:
            first, last = _day(self.first.text()), _day(self.last.text())
        except BadCell as bad:
            self.told.setText(sentence(bad.problem, bad.cure))
            set_property(self.told, "tone", "fault")
            return None
        return Sought(self.text.text().strip(), self.kind.currentData() or "", first, last)

    def _try(self, read: Callable[[], Any]) -> bool:
        """Read from the record; what goes wrong is told in place of the count."""
        try:
            read()
        except (RecordUnusable, OSError) as error:
            self.told.setText(trouble_told(error))
            set_property(self.told, "tone", "fault")
            return False
        return True


def _day(text: str) -> date | None:
    return read_day(text.strip()) if text.strip() else None
