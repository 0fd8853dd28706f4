"""One model for all tables: rows under columns, as ``screens.tables`` describes them."""

from collections.abc import Hashable, Sequence
from typing import Any, Final

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal

from crewtrack.screens.tables import Table, TableColumn

Index = QModelIndex | QPersistentModelIndex
ROLE_WORD: Final = Qt.ItemDataRole.UserRole
"""The standing whose shape and ink a cell bears."""
ROLE_ROW: Final = Qt.ItemDataRole.UserRole + 1
"""The row itself."""

_NOWHERE: Final = QModelIndex()
_RIGHT: Final = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
_LEFT: Final = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)


class RowsModel(QAbstractTableModel):
    """A table, in the order given or sorted by one of its columns. It asks nobody anything: all
    that it shows is in the rows. ``waiting``: what is to be run, on whatever thread, before the
    rows can be sorted as was asked; then ``sort_again``."""

    waiting = Signal(object)

    def __init__(self, table: Table) -> None:
        super().__init__()
        self._table = table
        self._rows: Sequence[Any] = table.rows
        self._sorted: tuple[int, Qt.SortOrder] | None = None

    @property
    def columns(self) -> tuple[TableColumn, ...]:
        """The columns."""
        return self._table.columns

    def show_table(self, table: Table) -> None:
        """Show other rows; sorted as before where the columns still are as many."""
        self.beginResetModel()
        if len(table.columns) != len(self._table.columns):
            self._sorted = None
        self._table = table
        self._rows = self._in_order()
        self.endResetModel()

    def row_at(self, number: int) -> Any:
        """The row in a line of the view."""
        return self._rows[number]

    def line_of(self, key: Hashable) -> int | None:
        """The line in which the row with a key stands; None where there is none."""
        lines = (n for n, row in enumerate(self._rows) if self._table.key(row) == key)
        return next(lines, None)

    def key_at(self, number: int) -> Hashable:
        """The key of the row in a line."""
        return self._table.key(self._rows[number])

    def rowCount(self, parent: Index = _NOWHERE) -> int:  # noqa: N802 - Qt's name
        """How many rows there are."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _NOWHERE) -> int:  # noqa: N802 - Qt's name
        """How many columns there are."""
        return 0 if parent.isValid() else len(self._table.columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows, says, and bears."""
        if not index.isValid():
            return None
        row, column = self._rows[index.row()], self._table.columns[index.column()]
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return column.text(row)
            case Qt.ItemDataRole.AccessibleTextRole:
                return column.said(row)
            case Qt.ItemDataRole.ToolTipRole:
                return column.said(row)
            case Qt.ItemDataRole.TextAlignmentRole:
                return _RIGHT if column.right else _LEFT
            case _ if role == ROLE_WORD:
                return None if column.word is None else column.word(row)
            case _ if role == ROLE_ROW:
                return row
            case _:
                return None

    def headerData(  # noqa: N802 - Qt's name
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """The columns' titles."""
        across = orientation == Qt.Orientation.Horizontal
        if not across or not 0 <= section < len(self._table.columns):
            return None
        column = self._table.columns[section]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if column.right else _LEFT
        return None

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; -1 for the order in which the rows came. Where that takes long, they
        stay as they are and ``waiting`` tells what has to be done before."""
        self._sorted = (column, order) if 0 <= column < len(self._table.columns) else None
        if not self._waits():
            self.sort_again()

    def sort_again(self) -> None:
        """Sort as was asked last, if what that takes has been done by now."""
        self.layoutAboutToBeChanged.emit()
        moved = self.persistentIndexList()
        held = {index.row(): self.key_at(index.row()) for index in moved}
        self._rows = self._in_order()
        places = self._places(frozenset(held.values()))
        self.changePersistentIndexList(
            moved, [self.index(places[held[one.row()]], one.column()) for one in moved]
        )
        self.layoutChanged.emit()

    def _places(self, keys: frozenset[Hashable]) -> dict[Hashable, int]:
        """The lines of some rows, by their keys."""
        if not keys:
            return {}
        of = map(self._table.key, self._rows)
        return {key: line for line, key in enumerate(of) if key in keys}

    def _waits(self) -> bool:
        column = None if self._sorted is None else self._table.columns[self._sorted[0]]
        if column is None or not column.waits:
            return False
        self.waiting.emit(column.prepare)
        return True

    def _in_order(self) -> Sequence[Any]:
        if self._sorted is None or self._waits():
            return self._table.rows
        column, order = self._sorted
        told = self._table.columns[column]
        down = order == Qt.SortOrder.DescendingOrder
        return sorted(self._table.rows, key=told.order or told.rank, reverse=down)
