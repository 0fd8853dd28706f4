"""How the form for a sortie is laid out: fields, crew and tasks, and the deck beside them."""

from collections.abc import Mapping
from itertools import pairwise
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QSplitter, QVBoxLayout, QWidget

from crewtrack.desk.crew_table import CrewTable
from crewtrack.desk.deck_side import DeckSide, cautions
from crewtrack.desk.look import hidden_words
from crewtrack.desk.sortie_fields import first_fields, last_fields
from crewtrack.desk.sortie_sides import CorrectionSide, MeanwhileStrip
from crewtrack.desk.task_table import TaskTable
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import say

_NARROWEST: Final = 5
"""Lines of text that the deck is given at least beside the fields."""


_SMALLER: Final = 0.85
"""The size of the cautions, which are always in sight and must leave room for the fields."""


class SortieLayout(QWidget):
    """The parts of the form, and where a fault is shown."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.first, self.last = first_fields(), last_fields()
        self.crew, self.tasks = CrewTable(), TaskTable(theme)
        self.side = DeckSide(theme)
        self.correction = CorrectionSide(theme)
        self.meanwhile = MeanwhileStrip()
        self.task_faults, self.notes = hidden_words("fault"), hidden_words("warning")
        self.disputed = hidden_words("warning")
        self.buttons = QHBoxLayout()
        self._align()
        self.crew.built.connect(self._in_reading_order)
        self._parts = QSplitter(Qt.Orientation.Horizontal)
        self._fields, self._deck = _scrolled(self._given()), _scrolled(self._beside())
        self._whole = self._deck.minimumWidth()
        self._deck.setMinimumWidth(min(self._whole, _NARROWEST * theme.line()))
        self._parts.addWidget(self._fields)
        self._parts.addWidget(self._deck)
        self._parts.setStretchFactor(0, 3)
        self._parts.setStretchFactor(1, 2)
        self._parts.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._parts, 1)
        self.buttons.addStretch()
        layout.addLayout(self.buttons)
        words = cautions()
        words.setFont(theme.font(_SMALLER))
        layout.addWidget(words)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """The deck is shown whole as long as the fields have the room that they need."""
        super().resizeEvent(event)
        room = self.width() - self._fields.minimumWidth() - self._parts.handleWidth()
        if self._deck.width() < min(self._whole, room):
            deck = min(self._whole, room)
            self._parts.setSizes([self.width() - deck - self._parts.handleWidth(), deck])

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Say at each place what is wrong."""
        self.first.show_faults(found)
        self.last.show_faults(found)
        self.crew.show_faults(found)
        self.tasks.lines.show_faults(found)
        told = [_at_line(place, fault) for place, fault in found.items() if _of_tasks(place)]
        self.task_faults.setText("\n".join(told))
        self.task_faults.setVisible(bool(told))

    def show_notes(self, told: tuple[str, ...]) -> None:
        """Say what should be known, though it is no fault."""
        self.notes.setText("\n".join(told))
        self.notes.setVisible(bool(told))

    def show_disputes(self, told: str) -> None:
        """Say above the fields what is disputed here; empty for nothing."""
        self.disputed.setText(told)
        self.disputed.setVisible(bool(told))

    def go_to(self, place: str) -> None:
        """Put the focus where a fault is."""
        for part in (self.first, self.last):
            if place in part.fields:
                part.go_to(place)
                return
        if place.startswith("crew "):
            self.crew.fields[place.removeprefix("crew ")].editor.setFocus()
        elif place == "reason":
            self.correction.reason.editor.setFocus()
        elif place == "tasks":
            self.tasks.go_to(0, "person")
        elif place.startswith("tasks "):
            _, number, name = place.split(" ")
            self.tasks.go_to(int(number), name)

    def _align(self) -> None:
        """Fields, crew and the rest stand one below the other."""
        parts = (self.first, self.last)
        labels = [field.label for part in parts for field in part.fields.values()]
        units = [field.unit for part in parts for field in part.fields.values()]
        for grid in (self.first.grid, self.crew.grid, self.last.grid):
            for column in (0, 3):
                grid.setColumnMinimumWidth(column, max(each.sizeHint().width() for each in labels))
            for column in (2, 5):
                grid.setColumnMinimumWidth(column, max(each.sizeHint().width() for each in units))

    def _in_reading_order(self) -> None:
        """The seats were made after all else: Tab goes through them where they stand."""
        stops: list[QWidget] = [each.editor for each in self.first.fields.values()]
        stops += [each.editor for each in self.crew.fields.values()]
        stops.append(self.tasks)
        for one, other in pairwise(stops):
            QWidget.setTabOrder(one, other)

    def _given(self) -> QWidget:
        inside = QWidget()
        layout = QVBoxLayout(inside)
        gap = self._theme.line() // 2
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(gap)
        for part in (
            self.meanwhile, self.disputed, self.first, _head(say("Crew")), self.crew,
            _head(say("Tasks")), self.tasks, self.task_faults, self.notes, self.last,
        ):  # fmt: skip
            layout.addWidget(part)
        layout.addStretch(1)
        return inside

    def _beside(self) -> QWidget:
        inside = QWidget()
        layout = QVBoxLayout(inside)
        gap = self._theme.line() // 2
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(gap)
        layout.addWidget(self.correction)
        layout.addWidget(self.side, 1)
        return inside


def _of_tasks(place: str) -> bool:
    return place.split(" ")[0] == "tasks"


def _at_line(place: str, fault: str) -> str:
    parts = place.split(" ")
    return fault if len(parts) == 1 else say("Line {number}: {fault}", number=int(parts[1]) + 1,
                                             fault=fault)  # fmt: skip


def _head(told: str) -> QLabel:
    label = QLabel(told)
    label.setProperty("tone", "title")
    return label


def _scrolled(inside: QWidget) -> QScrollArea:
    scroll = QScrollArea()
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QScrollArea.Shape.NoFrame)
    scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    bar = scroll.verticalScrollBar().sizeHint().width()
    scroll.setMinimumWidth(inside.minimumSizeHint().width() + bar)
    scroll.setWidget(inside)
    return scroll
