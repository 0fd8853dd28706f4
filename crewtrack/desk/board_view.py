"""The board's table: cells chosen one by one."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QFocusEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QWidget

from crewtrack.desk.board_delegate import BoardDelegate
from crewtrack.desk.board_names import BoardNames
from crewtrack.desk.rows_model import Index
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.screens.board_table import FIRST_CELL, BoardRow
from crewtrack.screens.tables import Table, as_text


class BoardView(TableView):
    """``cell_chosen`` tells the person's row, None where nothing is chosen, and the place of the
    qualification: beyond all of them, or negative, where the cell belongs to none."""

    cell_chosen = Signal(object, int)

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.horizontalHeader().setStretchLastSection(False)
        self._delegate = BoardDelegate(theme, self)
        self.setItemDelegate(self._delegate)
        self.names = BoardNames(self)
        self.names.doubleClicked.connect(self.doubleClicked)

    def show_table(self, table: Table) -> None:
        """Show other rows; the cell that was chosen stays chosen where it still is there."""
        super().show_table(table)
        self.verticalHeader().setDefaultSectionSize(self._delegate.row_height)
        self.names.place()

    def choose_cell(self, person: str, place: int) -> bool:
        """Choose a person's cell of a qualification; whether the person is there."""
        line = self.rows.line_of(person)
        if line is None:
            return False
        self.setCurrentIndex(self.rows.index(line, max(0, FIRST_CELL + place)))
        return True

    def chosen_place(self) -> int:
        """The place of the chosen cell's qualification; beyond all of them, or negative, where it
        belongs to none."""
        return self.currentIndex().column() - FIRST_CELL

    def copied(self) -> str:
        """The selected cells as text, with their people; the whole board where none is."""
        chosen = self.selectionModel().selectedIndexes()
        lines = sorted({index.row() for index in chosen}) or range(self.rows.rowCount())
        places = sorted({0, *(index.column() for index in chosen)})
        columns = self.rows.columns
        if chosen:
            columns = tuple(columns[place] for place in places)
        return as_text(columns, tuple(self.rows.row_at(line) for line in lines))

    def all_copied(self) -> str:
        """The whole board as it is shown, as text."""
        lines = range(self.rows.rowCount())
        return as_text(self.rows.columns, tuple(self.rows.row_at(line) for line in lines))

    def scrollTo(  # noqa: N802 - Qt's name
        self,
        index: Index,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,
    ) -> None:
        """Bring a cell into view, beside the names and not below them."""
        across = self.horizontalScrollBar()
        at = across.value()
        super().scrollTo(index, hint)
        if index.column() == 0:
            across.setValue(at)  # the names are always in view
            return
        hidden = self.columnWidth(0) - self.visualRect(index).left()
        if hidden > 0:
            across.setValue(across.value() - hidden)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """The names are as high as the board."""
        super().resizeEvent(event)
        self.names.place()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """The frame of the chosen cell may lie on a name."""
        super().focusInEvent(event)
        self.names.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """The frame goes with the focus."""
        super().focusOutEvent(event)
        self.names.viewport().update()

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: N802 - Qt's name
        """Tell which cell is chosen now."""
        super().currentChanged(current, previous)
        row: BoardRow | None = self.rows.row_at(current.row()) if current.isValid() else None
        self.cell_chosen.emit(row, current.column() - FIRST_CELL if current.isValid() else -1)
