"""What ends soon, whose it is, and the one sortie that would extend most of it."""

from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QSpinBox,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.page import Page
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.engine.due import Due, listed
from crewtrack.engine.one_sortie import Proposal, best_sorties
from crewtrack.screens import due_table
from crewtrack.screens.columns import safe
from crewtrack.screens.language import say
from crewtrack.screens.standard_page_lines import Line

_DAYS = 60
_MOST_DAYS = 730
_REST_MS = 100
"""How long a row has to stay chosen before a sortie is looked for: not while the day is dragged."""


class AheadPage(Page):
    """The due list of the state's day. A row opens its person."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self._all: tuple[Due, ...] = ()
        self._proposals: dict[str, Proposal | None] = {}
        self.days = QSpinBox()
        self.days.setRange(1, _MOST_DAYS)
        self.days.setValue(_DAYS)
        self.days.setAccessibleName(say("Days ahead"))
        self.days.valueChanged.connect(self.show_state)
        self.everything = QCheckBox(say("Also what only &follows from another row"))
        self.everything.setAccessibleName(say("Also what only follows from another row"))
        self.everything.toggled.connect(self._show_rows)
        self.count = QLabel()
        self.table = TableView(say("What ends soon"))
        self.table.moved_to.connect(self._show_due)
        self.table.opened.connect(self._open)
        self._waiting = QTimer(self, singleShot=True, interval=_REST_MS)
        self._waiting.timeout.connect(lambda: self._show_due(self.table.chosen(), True))
        self.panel = LinesPanel(say("The chosen requirement, and one sortie"), theme)
        self._lay_out()
        self._actions = (
            self.action(say("Days ahead"), "Ctrl+Shift+D", say("Say how many days ahead to look."),
                        self._choose_days),
            self.action(say("Open the person"), "Ctrl+Return",
                        say("Open the books of the person in the chosen row."),
                        lambda: self._open(self.table.chosen())),
            self.action(say("Also what follows"), "Ctrl+Shift+F",
                        say("Show or hide what only follows from another row."),
                        self.everything.toggle),
        )  # fmt: skip

    def title(self) -> str:
        """The page's name."""
        return say("Ahead")

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here."""
        return self._actions

    def show_state(self) -> None:
        """Reckon the list anew."""
        reckoning = self.state.snapshot.reckoning
        self._all = listed(reckoning, self.state.day, self.days.value())
        self._proposals = {}
        self._show_rows()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        label = QLabel(say("Ends within"))
        label.setBuddy(self.days)
        for widget in (label, self.days, QLabel(say("days"))):
            top.addWidget(widget)
        top.addSpacing(self.theme.line())
        top.addWidget(self.everything)
        top.addStretch(1)
        top.addWidget(self.count)
        halves = QSplitter(Qt.Orientation.Vertical)
        halves.addWidget(self.table)
        halves.addWidget(self.panel)
        halves.setStretchFactor(0, 3)
        halves.setStretchFactor(1, 2)
        halves.setChildrenCollapsible(False)
        halves.setSizes([650, 350])
        layout = QVBoxLayout(self)
        layout.addLayout(top)
        layout.addWidget(halves, 1)
        self.front = self.table

    def _choose_days(self) -> None:
        self.days.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.days.selectAll()

    def _show_rows(self) -> None:
        shown = due_table.shown(self._all, self.everything.isChecked())
        self.table.show_table(due_table.due_table(shown, self.state.day))
        self.count.setText(due_table.counted(shown, self.days.value()))
        if self.table.chosen() is None and shown:
            self.table.setCurrentIndex(self.table.rows.index(0, 0))
        self._show_due(self.table.chosen())

    def _show_due(self, due: Any, rested: bool = False) -> None:
        if not isinstance(due, Due):
            self.panel.show_lines(())
            return
        lines = [
            Line("title", say("{name}, {qualification}", name=safe(due.name),
                              qualification=safe(due.title))),
            Line("said", due_table.rule_told(due, self.state.snapshot.editions)),
            Line("said", say("Ends on {day}: {keeps}.", day=due.through,
                             keeps=due_table.keeps_told(due))),
            Line("title", say("The one sortie that would extend most")),
        ]  # fmt: skip
        if not rested and due.person not in self._proposals:
            self._waiting.start()
            self.panel.show_lines(lines)
            return
        proposal = self._proposal(due.person)
        if proposal is None:
            lines.append(Line("said", say("No sortie extends what ends here: it takes other things"
                                          " than practice.")))  # fmt: skip
        else:
            lines.append(Line("said", due_table.sortie_told(proposal)))
            lines += [Line("said", told, 1) for told in due_table.extends_told(proposal)]
        self.panel.show_lines(lines)

    def _proposal(self, person: str) -> Proposal | None:
        """Worked out when it is first looked at; one person's takes a few milliseconds."""
        if person not in self._proposals:
            own = tuple(due for due in self._all if due.person == person)
            found = best_sorties(self.state.snapshot.reckoning, own, self.state.day)
            self._proposals[person] = found.get(person)
        return self._proposals[person]

    def _open(self, due: Any) -> None:
        if isinstance(due, Due):
            self.open_person.emit(due.person, due.qualification)
