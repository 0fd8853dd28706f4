"""A table on the screen: chosen and opened by keys and mouse, copied as text."""

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from crewtrack.desk.rows_model import Index, RowsModel
from crewtrack.screens.tables import Table, as_text


class TableView(QTableView):
    """Shows a ``Table``. ``opened``: a row was opened (Enter, double click); ``moved_to``: another
    row was chosen, None where there is none."""

    opened = Signal(object)
    moved_to = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._rows = RowsModel(Table((), (), lambda row: row))
        self.setModel(self._rows)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setSortingEnabled(True)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        across = self.horizontalHeader()
        across.setHighlightSections(False)
        across.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        across.setSortIndicatorClearable(True)
        across.setStretchLastSection(True)
        across.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.doubleClicked.connect(lambda index: self.opened.emit(self._rows.row_at(index.row())))

    @property
    def rows(self) -> RowsModel:
        """The model."""
        return self._rows

    def show_table(self, table: Table) -> None:
        """Show other rows; the row that was chosen stays chosen where it still is there."""
        current = self.currentIndex()
        held = self._rows.key_at(current.row()) if current.isValid() else None
        column = current.column() if current.isValid() else 0
        at = self.verticalScrollBar().value()
        columns_before, empty = self._rows.columns, not self._rows.rowCount()
        self._rows.show_table(table)
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().lineSpacing() * 3 // 2)
        others = [one.title for one in columns_before] != [one.title for one in table.columns]
        if others or (empty and table.rows):
            self.fit()
        self.verticalScrollBar().setValue(at)
        line = None if held is None else self._rows.line_of(held)
        if line is not None:
            self.setCurrentIndex(self._rows.index(line, min(column, len(table.columns) - 1)))

    def chosen(self) -> Any | None:
        """The row that is chosen; None where there is none."""
        current = self.currentIndex()
        return self._rows.row_at(current.row()) if current.isValid() else None

    def choose(self, key: Any) -> bool:
        """Choose the row with a key and bring it into view; whether it is there."""
        line = self._rows.line_of(key)
        if line is None:
            return False
        self.setCurrentIndex(self._rows.index(line, max(0, self.currentIndex().column())))
        self.scrollTo(self.currentIndex())
        return True

    def copied(self) -> str:
        """The selected rows as text; all rows where none is selected."""
        lines = sorted({index.row() for index in self.selectionModel().selectedIndexes()})
        chosen = lines or range(self._rows.rowCount())
        return as_text(self._rows.columns, tuple(self._rows.row_at(line) for line in chosen))

    def currentChanged(self, current: Index, previous: Index) -> None:  # noqa: N802 - Qt's name
        """Tell which row is chosen now."""
        super().currentChanged(current, previous)
        self.moved_to.emit(self._rows.row_at(current.row()) if current.isValid() else None)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter opens, Ctrl+C copies."""
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.copied())
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.chosen() is not None:
            self.opened.emit(self.chosen())
        else:
            super().keyPressEvent(event)

    def fit(self) -> None:
        """Give each column the width that its title and first rows ask for."""
        self.ensurePolished()  # else the widths would be those of another font
        across = self.horizontalHeader()
        stretched = across.stretchLastSection()
        across.setResizeContentsPrecision(50)
        across.setStretchLastSection(False)  # the last column, too, is stretched from its own width
        self.resizeColumnsToContents()
        across.setStretchLastSection(stretched)
