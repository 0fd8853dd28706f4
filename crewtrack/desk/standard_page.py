"""The unit's standard: all editions, and the chosen one in plain words."""

from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.adopt_dialog import AdoptDialog
from crewtrack.desk.compare_dialog import CompareDialog
from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.page import Page
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.engine.standard import Standard
from crewtrack.screens.language import say
from crewtrack.screens.standard_page_lines import edition_lines, edition_table


class StandardPage(Page):
    """Editions on the left, what the chosen one asks for on the right."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self.editions = TableView(say("Editions of the standard"))
        self.editions.moved_to.connect(self._show_edition)
        self.words = LinesPanel(say("The edition in plain words"), theme)
        self._actions = (
            self.action(say("Adopt a file…"), "Ctrl+Shift+A",
                        say("Look through a standard's file, and make it an edition."),
                        self._choose_file),
            self.action(say("Compare two editions…"), "Ctrl+Shift+C",
                        say("Show what two editions ask for differently."), self.compare),
        )  # fmt: skip
        self._lay_out()

    def title(self) -> str:
        """The page's name."""
        return say("Standard")

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here."""
        return self._actions

    def show_state(self) -> None:
        """Show the editions; the one in effect where none was chosen."""
        editions = self.state.snapshot.editions
        self.editions.show_table(edition_table(editions, self.state.day))
        across = self.editions.horizontalHeader()
        across.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
        if self.editions.chosen() is None:
            self.editions.choose(self.state.snapshot.standard(self.state.day).edition)
        self._show_edition(self.editions.chosen())

    def adopt(self, path: Path) -> None:
        """Look through a file, and adopt it where it is sound and wanted."""
        dialog = AdoptDialog(self.state, self.theme, path, self)
        dialog.exec()
        dialog.deleteLater()

    def compare(self) -> None:
        """Compare two editions."""
        dialog = CompareDialog(self.state, self.theme, self)
        dialog.exec()
        dialog.deleteLater()

    def _choose_file(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self, say("Adopt a standard"), "", f"{say('Standards')} (*.toml)"
        )
        if name:
            self.adopt(Path(name))

    def _lay_out(self) -> None:
        left = QWidget()
        inner = QVBoxLayout(left)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.addWidget(self.editions, 1)
        buttons = QHBoxLayout()
        for action in self._actions:
            button = QPushButton(action.text())
            button.setToolTip(action.toolTip())
            button.setAccessibleName(action.text())
            button.clicked.connect(action.trigger)
            buttons.addWidget(button)
        buttons.addStretch(1)
        inner.addLayout(buttons)
        halves = QSplitter(Qt.Orientation.Horizontal)
        halves.addWidget(left)
        halves.addWidget(self.words)
        halves.setStretchFactor(0, 2)
        halves.setStretchFactor(1, 3)
        halves.setChildrenCollapsible(False)
        halves.setSizes([350, 650])
        QVBoxLayout(self).addWidget(halves)
        self.front = self.editions

    def _show_edition(self, standard: Any) -> None:
        self.words.show_lines(edition_lines(standard) if isinstance(standard, Standard) else ())
