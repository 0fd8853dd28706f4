"""The board's first column, kept in view while the others are scrolled sideways."""

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView


class BoardNames(QTableView):
    """Lies over the left of a table and shows its first column, with the table's own rows, choice
    and keys. It is out of sight as long as the table isn't scrolled."""

    def __init__(self, table: QTableView) -> None:
        super().__init__(table)
        self._table = table
        self.setObjectName("names")
        self.setAccessibleName(table.accessibleName())
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setFocusProxy(table)
        self.setModel(table.model())
        self.setSelectionModel(table.selectionModel())
        self.setItemDelegate(table.itemDelegate())
        for other in ("selectionMode", "selectionBehavior", "editTriggers"):
            self.setProperty(other, table.property(other))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setAutoScroll(False)
        self.verticalHeader().hide()
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self._follow_header()
        self._follow_scrolling()
        self.hide()

    def place(self) -> None:
        """Lie where the first column would be; only where the table is scrolled away from it."""
        table, across = self._table, self._table.horizontalHeader()
        self.setVisible(table.horizontalScrollBar().value() > 0)
        if not self.isVisible():
            return
        for column in range(1, self.model().columnCount()):
            self.setColumnHidden(column, True)
        self.setColumnWidth(0, table.columnWidth(0))
        self.horizontalHeader().setFixedHeight(across.height())
        self.verticalHeader().setDefaultSectionSize(table.verticalHeader().defaultSectionSize())
        room = table.viewport().geometry().united(across.geometry())
        self.setGeometry(room.left(), room.top(), table.columnWidth(0) + 1, room.height())
        self.verticalScrollBar().setValue(table.verticalScrollBar().value())
        self.raise_()

    def _follow_header(self) -> None:
        mine, across = self.horizontalHeader(), self._table.horizontalHeader()
        mine.setHighlightSections(False)
        mine.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        mine.setDefaultAlignment(across.defaultAlignment())
        mine.setSortIndicatorClearable(True)
        mine.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        self.setSortingEnabled(True)
        _mirror(mine, across)
        _mirror(across, mine)
        across.sectionResized.connect(lambda *_: self.place())
        across.geometriesChanged.connect(self.place)

    def _follow_scrolling(self) -> None:
        down = self._table.verticalScrollBar()
        down.valueChanged.connect(self.verticalScrollBar().setValue)
        self.verticalScrollBar().valueChanged.connect(down.setValue)
        self._table.horizontalScrollBar().valueChanged.connect(self.place)


def _mirror(one: QHeaderView, other: QHeaderView) -> None:
    """Show in one header by what the other has sorted the rows, which they share."""

    def show(column: int, order: Qt.SortOrder) -> None:
        with QSignalBlocker(one):
            one.setSortIndicator(column, order)
        one.viewport().update()

    other.sortIndicatorChanged.connect(show)
