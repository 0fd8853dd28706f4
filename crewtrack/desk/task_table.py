"""The tasks of a sortie: a line for each person and task, edited in place."""

from collections.abc import Mapping
from typing import Any, Final

from PySide6.QtCore import (
    QAbstractItemModel,
    QAbstractTableModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.fields import LineEditor
from crewtrack.desk.theme import Theme
from crewtrack.facts import PERFORMANCES, STOOD
from crewtrack.screens import fields
from crewtrack.screens.language import say
from crewtrack.screens.sortie_draft import TASK_FIELDS, TaskLine
from crewtrack.screens.sortie_form import SortieKnown, task_place

Index = QModelIndex | QPersistentModelIndex
_NOWHERE: Final = QModelIndex()
_RIGHT: Final = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
_LEFT: Final = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
_FEWEST: Final = 4
_MOST: Final = 12
_COUNTS: Final = ("times", "attempts", "waveoffs")


class TaskModel(QAbstractTableModel):
    """The lines, and a blank one below them. ``edited``: line, field and its new text."""

    edited = Signal(int, str, str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self._lines: tuple[TaskLine, ...] = ()
        self._faults: Mapping[str, str] = {}
        self.choices: Mapping[str, Mapping[str, str]] = {}

    def show_lines(self, lines: tuple[TaskLine, ...]) -> None:
        """Show other lines."""
        if len(lines) == len(self._lines):
            self._lines = lines
            self._tell_all()
        else:
            self.beginResetModel()
            self._lines = lines
            self.endResetModel()

    def offer(self, known: SortieKnown) -> None:
        """What the fields may hold, and what each is called."""
        tasks = {key: task.title for key, task in known.tasks.items()}
        stood = {word: fields.choice_told(word) for word in STOOD}
        self.choices = {
            "person": known.people, "supervisor": known.people, "task": tasks, "stood": stood,
        }  # fmt: skip

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Mark what is wrong."""
        if found != self._faults:
            self._faults = found
            self._tell_all()

    def rowCount(self, parent: Index = _NOWHERE) -> int:  # noqa: N802 - Qt's name
        """The lines and the blank one."""
        return 0 if parent.isValid() else len(self._lines) + 1

    def columnCount(self, parent: Index = _NOWHERE) -> int:  # noqa: N802 - Qt's name
        """The fields of a line."""
        return 0 if parent.isValid() else len(TASK_FIELDS)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every cell can be edited."""
        known = super().flags(index)
        return known | Qt.ItemFlag.ItemIsEditable if index.isValid() else known

    def text(self, index: Index) -> str:
        """What is typed in a cell."""
        if index.row() >= len(self._lines):
            return ""
        return self._lines[index.row()].text(TASK_FIELDS[index.column()])

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows and says."""
        if not index.isValid():
            return None
        name, text = TASK_FIELDS[index.column()], self.text(index)
        fault = self._faults.get(task_place(index.row(), name), "")
        match role:
            case Qt.ItemDataRole.EditRole:
                return text
            case Qt.ItemDataRole.DisplayRole:
                told = self.choices.get(name, {}).get(text, text)
                return told or ("!" if fault else "")
            case Qt.ItemDataRole.ForegroundRole if fault:
                return QColor(self._theme.shades.fault)
            case Qt.ItemDataRole.ToolTipRole:
                return fault or None
            case Qt.ItemDataRole.AccessibleTextRole:
                told = self.choices.get(name, {}).get(text, text) or "–"
                said = f"{fields.label(PERFORMANCES, name)}: {told}"
                return f"{said}. {fault}" if fault else said
            case Qt.ItemDataRole.TextAlignmentRole:
                return _RIGHT if name in _COUNTS else _LEFT
            case _:
                return None

    def setData(  # noqa: N802 - Qt's name
        self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole
    ) -> bool:
        """Tell what was typed; the lines come back by ``show_lines``."""
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        if str(value) != self.text(index):
            self.edited.emit(index.row(), TASK_FIELDS[index.column()], str(value))
        return True

    def headerData(  # noqa: N802 - Qt's name
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """The fields' labels."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        name = TASK_FIELDS[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if name in _COUNTS else _LEFT
        return fields.label(PERFORMANCES, name) if role == Qt.ItemDataRole.DisplayRole else None

    def _tell_all(self) -> None:
        last = self.index(self.rowCount() - 1, self.columnCount() - 1)
        self.dataChanged.emit(self.index(0, 0), last)


class _Editors(QStyledItemDelegate):
    """A chooser or a line for each cell."""

    def createEditor(  # noqa: N802 - Qt's name
        self, parent: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> QWidget:
        """The editor of a cell, named as its column."""
        model = index.model()
        name = TASK_FIELDS[index.column()]
        editor: ChoiceEditor | LineEditor
        if isinstance(model, TaskModel) and name in model.choices:
            editor = ChoiceEditor(parent)
            editor.offer(model.choices[name])
        else:
            editor = LineEditor(parent)
        editor.setAccessibleName(fields.label(PERFORMANCES, name))
        return editor

    def setEditorData(self, editor: QWidget, index: Index) -> None:  # noqa: N802 - Qt's name
        """Begin with what stands there, all of it chosen."""
        if isinstance(editor, ChoiceEditor | LineEditor):
            editor.set_text(str(index.data(Qt.ItemDataRole.EditRole)))
        if isinstance(editor, ChoiceEditor) and (line := editor.lineEdit()) is not None:
            line.selectAll()

    def setModelData(  # noqa: N802 - Qt's name
        self, editor: QWidget, model: QAbstractItemModel, index: Index
    ) -> None:
        """Take what was typed."""
        if isinstance(editor, ChoiceEditor):
            editor.settle()
        if isinstance(editor, ChoiceEditor | LineEditor):
            model.setData(index, editor.text().strip())


class TaskTable(QTableView):
    """The lines on the screen. Typing, F2 or Enter edits a cell; ``removed``: a line is to go."""

    removed = Signal(int)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lines = TaskModel(theme)
        self.setModel(self.lines)
        self._editors = _Editors(self)
        self.setItemDelegate(self._editors)
        self.setAccessibleName(say("Tasks"))
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
        )
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(theme.line() * 8 // 5)
        across = self.horizontalHeader()
        across.setHighlightSections(False)
        across.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        for column, name in enumerate(TASK_FIELDS):
            across.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
            if name not in ("person", "task", "supervisor"):
                across.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        self._fit()
        self.lines.modelReset.connect(self._fit)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter edits, Delete takes the line away."""
        index = self.currentIndex()
        if self.state() == QAbstractItemView.State.EditingState:
            event.accept()  # the editor has had it, and is about to close
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and index.isValid():
            self.edit(index)
        elif event.key() == Qt.Key.Key_Delete and index.isValid():
            self.removed.emit(index.row())
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _fit(self) -> None:
        """Room for all lines, as far as that is not too much."""
        rows = max(_FEWEST, min(self.lines.rowCount(), _MOST))
        high = rows * self.verticalHeader().defaultSectionSize()
        self.setFixedHeight(high + self.horizontalHeader().sizeHint().height() + 4)

    def go_to(self, line: int, name: str) -> None:
        """Put the focus on a cell."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.setCurrentIndex(self.lines.index(line, TASK_FIELDS.index(name)))
