"""The board: who stands where on the day, and below it one cell, opened."""

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import QScrollArea, QSplitter, QVBoxLayout, QWidget

from crewtrack.desk.board_filter import BoardFilterBar
from crewtrack.desk.board_view import BoardView
from crewtrack.desk.life_lines import LifeLines
from crewtrack.desk.page import Page
from crewtrack.desk.reasons_panel import ReasonsPanel
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import Roster
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.board_table import BoardRow, board_table, counted, most_pressing
from crewtrack.screens.cell_detail import cell_detail
from crewtrack.screens.language import say
from crewtrack.screens.strip_days import StripDays, around


class BoardPage(Page):
    """People × qualifications; the chosen cell opens below as life lines and reasons."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self._days = around(state.day)
        self._roster: tuple[Snapshot, Roster] | None = None
        self._cell: tuple[str, str] | None = None
        self.filter = BoardFilterBar(theme)
        self.board = BoardView(say("Board: people and qualifications"), theme)
        self.lines = LifeLines(theme)
        self.reasons = ReasonsPanel(theme)
        self._actions = self._make_actions()
        self._lay_out()
        self.front = self.board
        self.filter.changed.connect(self._show_board)
        self.filter.text.returnPressed.connect(self.board.setFocus)
        self.board.cell_chosen.connect(self._choose)
        self.board.opened.connect(self._open)
        self.lines.evidence_opened.connect(self._open_evidence)
        self.reasons.evidence_opened.connect(self._open_evidence)

    def title(self) -> str:
        """The page's name."""
        return say("Board")

    def page_actions(self) -> tuple[QAction, ...]:
        """Filter, sort, copy, print."""
        return self._actions

    def show_days(self, days: StripDays) -> None:
        """Draw the life lines along the days of the day line."""
        self._days = days
        self.lines.show_days(days)

    def show_state(self) -> None:
        """Show the day's roster, and the chosen cell on that day."""
        self._days = self._days.keeping(self.state.day)
        self._show_board()
        if self._cell is None:
            first = most_pressing(self.roster())
            if first is not None:
                self.show_cell(*first)
        self._show_cell()

    def show_cell(self, person: str, qualification: str) -> None:
        """Open a cell: a person's standing in a qualification."""
        keys = [told.key for told in self.roster().qualifications]
        if qualification in keys:
            self.board.choose_cell(person, keys.index(qualification))

    def roster(self) -> Roster:
        """The roster of the day that is shown."""
        snapshot, day = self.state.snapshot, self.state.day
        held = self._roster
        if held is None or held[0] is not snapshot or held[1].on != day:
            held = self._roster = (snapshot, snapshot.board(day))
        return held[1]

    def _make_actions(self) -> tuple[QAction, ...]:
        return (
            self.action(
                say("Filter"), "Ctrl+F", say("Type a part of a name to show."), self._filter
            ),
            self.action(
                say("Show everybody"), "Ctrl+Shift+F", say("Clear the filter."), self.filter.clear
            ),
            self.action(
                say("Sort by this column"),
                "Ctrl+Shift+S",
                say("Sort the board by the column of the chosen cell; again for the other way."),
                self._sort,
            ),
            self.action(
                say("Board alone"),
                "Ctrl+Shift+L",
                say("Hide the life lines below the board, or show them."),
                lambda: self.below.setVisible(self.below.isHidden()),
            ),
            self.action(
                say("Copy the board"),
                "Ctrl+Shift+C",
                say("Copy the board as it is shown, as text."),
                self._copy,
            ),
            self.action(
                say("Print or save the roster…"),
                "Ctrl+P",
                say("See the roster of this day as it will be printed; print or save it."),
                self.preview,
            ),
        )

    def _lay_out(self) -> None:
        area = QScrollArea()
        area.setWidget(self.lines)
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        below = self.below = QSplitter(Qt.Orientation.Horizontal)
        below.addWidget(area)
        below.addWidget(self.reasons)
        below.setSizes([620, 380])
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.board)
        split.addWidget(below)
        split.setSizes([560, 440])
        split.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.filter)
        layout.addWidget(split, 1)

    def _show_board(self) -> None:
        roster = self.roster()
        table = board_table(roster, self.filter.shown())
        with QSignalBlocker(self.board):  # the cell is shown anew by whoever calls this
            self.board.show_table(table)
        self.filter.tell_count(counted(len(table.rows), len(roster.people)))

    def _choose(self, row: BoardRow | None, place: int) -> None:
        """Open a cell; one that belongs to no qualification opens the person's standing in the
        qualification that was open."""
        qualifications = self.roster().qualifications
        if row is None:
            return
        if 0 <= place < len(qualifications):
            self._cell = (row.person.key, qualifications[place].key)
        elif self._cell is not None:
            self._cell = (row.person.key, self._cell[1])
        self._show_cell()

    def _show_cell(self) -> None:
        known = self.state.snapshot.reckoning.evidence.books
        if self._cell is None or self._cell[0] not in known:
            self.lines.show_lines((), self._days, self.state.day)
            hint = self._hint()
            self.reasons.show_reasons(hint, None, ())
            return
        detail = cell_detail(self.state.snapshot, *self._cell, self.state.day)
        self.lines.show_lines(detail.lines, self._days, self.state.day)
        self.reasons.show_reasons(detail.title, detail.word, detail.said)

    def _hint(self) -> str:
        """What to do where no cell is open."""
        if self.roster().people:
            return say("Choose a cell of the board to see what it rests on.")
        return say(
            "Nobody is on the books on this day. People are added on the page People (Alt+3) by"
            " Ctrl+Shift+P, boats and aircraft by Ctrl+Shift+B; or import files on the page Record."
        )

    def _open(self, row: BoardRow) -> None:
        place, qualifications = self.board.chosen_place(), self.roster().qualifications
        named = 0 <= place < len(qualifications)
        self.open_person.emit(row.person.key, qualifications[place].key if named else "")

    def _open_evidence(self, kind: str, key: str) -> None:
        if kind == "performance":
            self.open_sortie.emit(key)
        elif kind == "qualification" and self._cell is not None:
            self.open_person.emit(self._cell[0], key)
        elif self._cell is not None:
            self.open_evidence.emit(self._cell[0], kind, key)

    def _filter(self) -> None:
        self.filter.text.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.filter.text.selectAll()

    def _sort(self) -> None:
        column, header = self.board.currentIndex().column(), self.board.horizontalHeader()
        if column < 0:
            return
        up = Qt.SortOrder.AscendingOrder
        again = header.sortIndicatorSection() == column and header.sortIndicatorOrder() == up
        self.board.sortByColumn(column, Qt.SortOrder.DescendingOrder if again else up)

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.board.all_copied())
        self.state.told.emit(say("The board is on the clipboard."))

    def preview(self) -> None:
        """Show the roster as it will be printed."""
        from crewtrack.desk.roster_preview import RosterPreview  # heavy: paper

        window = self.window()
        paper = window.settings.paper if isinstance(window, Shell) else "A4"
        roster = self.state.snapshot.roster(self.state.day)
        dialog = RosterPreview(roster, self.state.author, paper, self.theme, self)
        dialog.exec()
        dialog.deleteLater()
