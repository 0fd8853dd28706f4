"""Fields of a form: a label, a place to type or choose, and what is wrong in words beneath."""

from collections.abc import Mapping, Sequence
from typing import Final

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from crewtrack.cells import SEPARATOR
from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.look import set_property
from crewtrack.facts import Choice, Choices, Column, InStandard, Kind, Reference, Text
from crewtrack.screens import fields
from crewtrack.screens.fact_form import FactDraft, Known, is_kind
from crewtrack.screens.language import say

_LINES: Final = 3
_A_ROW: Final = 4
"""Boxes to tick, side by side."""


class LineEditor(QLineEdit):
    """One line."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.textChanged.connect(lambda _: self.edited.emit())

    def set_text(self, text: str) -> None:
        """Put a text into it."""
        self.setText(text)


class LinesEditor(QPlainTextEdit):
    """Several lines; Tab leaves it."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTabChangesFocus(True)
        self.textChanged.connect(self.edited.emit)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Room for a few lines."""
        height = self.fontMetrics().lineSpacing() * (_LINES + 1)
        return QSize(super().sizeHint().width(), height)

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Never less than that."""
        return self.sizeHint()

    def text(self) -> str:
        """What stands in it."""
        return self.toPlainText()

    def set_text(self, text: str) -> None:
        """Put a text into it."""
        self.setPlainText(text)


class ChecksEditor(QWidget):
    """Any of a few words, each with a box to tick."""

    edited = Signal()

    def __init__(self, options: Mapping[str, str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        self._boxes: dict[str, QCheckBox] = {}
        for place, (option, told) in enumerate(options.items()):
            box = QCheckBox(told)
            box.setAccessibleName(told)
            box.toggled.connect(lambda _: self.edited.emit())
            self._boxes[option] = box
            layout.addWidget(box, *divmod(place, _A_ROW))
        layout.setColumnStretch(_A_ROW, 1)
        self.setFocusProxy(next(iter(self._boxes.values())))

    def text(self) -> str:
        """The words that are ticked, as a file would hold them."""
        return SEPARATOR.join(word for word, box in self._boxes.items() if box.isChecked())

    def set_text(self, text: str) -> None:
        """Tick some words."""
        words = text.split(SEPARATOR)
        for word, box in self._boxes.items():
            box.setChecked(word in words)


AnyEditor = LineEditor | LinesEditor | ChoiceEditor | ChecksEditor


def editor_for(column: Column) -> AnyEditor:
    """The place to type or choose for a column's type."""
    match column.type:
        case Reference() | InStandard():
            return ChoiceEditor()
        case Choice(words):
            chooser = ChoiceEditor()
            chooser.offer({word: fields.choice_told(word) for word in words}, keys_told=False)
            return chooser
        case Choices(words):
            return ChecksEditor({word: fields.choice_told(word) for word in words})
        case Text() if is_kind(column):
            return ChoiceEditor(free=True)
        case Text() if column.type.lines:
            return LinesEditor()
        case _:
            line = LineEditor()
            line.setPlaceholderText(fields.hint(column))
            return line


class Field:
    """A label with its editor, unit and fault. ``add_to`` lays it out as rows of a grid."""

    def __init__(self, told: str, editor: AnyEditor, unit: str = "") -> None:
        self.editor = editor
        self.label = QLabel(told)
        self.label.setBuddy(editor)
        self.unit = QLabel(unit)
        self.unit.setProperty("tone", "quiet")
        self.fault = QLabel()
        self.fault.setProperty("tone", "fault")
        self.fault.setWordWrap(True)
        self.fault.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.fault.hide()
        self._name = f"{told} ({unit})" if unit else told
        editor.setAccessibleName(self._name)

    def add_to(self, grid: QGridLayout, row: int, column: int = 0) -> None:
        """Lay it out: label, editor and unit side by side, the fault in the row beneath."""
        top = Qt.AlignmentFlag.AlignTop if isinstance(self.editor, LinesEditor) else None
        if top is None:
            grid.addWidget(self.label, row, column)
        else:
            grid.addWidget(self.label, row, column, top)
        grid.addWidget(self.editor, row, column + 1)
        grid.addWidget(self.unit, row, column + 2)
        grid.addWidget(self.fault, row + 1, column + 1, 1, 2)

    def show_fault(self, told: str) -> None:
        """Say what is wrong beneath the field; empty for nothing. A choice that is still being
        typed is not wrong."""
        if isinstance(self.editor, ChoiceEditor) and self.editor.choosing():
            told = ""
        self.fault.setText(told)
        self.fault.setVisible(bool(told))
        self.editor.setAccessibleDescription(told)
        set_property(self.editor, "faulty", bool(told))


class FactFields(QWidget):
    """The fields of a kind of fact, one below the other, in the order of ``names``."""

    edited = Signal()

    def __init__(
        self, kind: Kind, names: Sequence[str], known: Known, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._kind = kind
        self._known = known
        self._rest: Mapping[str, str] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setColumnStretch(1, 1)
        self.fields: dict[str, Field] = {}
        for place, name in enumerate(names):
            column = kind.columns[kind.index(name)]
            field = Field(fields.label(kind, name), editor_for(column), fields.unit(name))
            field.add_to(grid, 2 * place)
            field.editor.edited.connect(self._edited)
            self.fields[name] = field
        self._offer()

    def draft(self) -> FactDraft:
        """What stands in the fields, and what was set and has no field here."""
        typed = {name: field.editor.text() for name, field in self.fields.items()}
        return FactDraft(self._kind, {**self._rest, **typed})

    def set_draft(self, draft: FactDraft) -> None:
        """Fill the fields."""
        self._rest = dict(draft.texts)
        for name, field in self.fields.items():
            field.editor.set_text(draft.text(name))
        self._offer()

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Say beneath each field what is wrong with it."""
        for name, field in self.fields.items():
            field.show_fault(found.get(name, ""))

    def focus_first(self, found: Mapping[str, str]) -> None:
        """Go to the first field with a fault."""
        for name, field in self.fields.items():
            if name in found:
                field.editor.setFocus(Qt.FocusReason.OtherFocusReason)
                return

    def _edited(self) -> None:
        self._offer()
        self.edited.emit()

    def _offer(self) -> None:
        """Offer what may be referred to, which can hang on other fields."""
        draft = self.draft()
        for name, field in self.fields.items():
            column = self._kind.columns[self._kind.index(name)]
            refers = isinstance(column.type, Reference | InStandard) or is_kind(column)
            if refers and isinstance(field.editor, ChoiceEditor):
                field.editor.offer(self._known.choices(column, draft))


def needed_now(found: Mapping[str, str], visited: Sequence[str]) -> Mapping[str, str]:
    """The faults to show while typing: an empty field that nobody was in yet is left in peace."""
    needed = say("this is needed")
    return {name: told for name, told in found.items() if told != needed or name in visited}
