"""The fields of a sortie, two to a line, in reading order."""

from collections.abc import Mapping
from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.fields import AnyEditor, Field, LineEditor, editor_for
from crewtrack.facts import SORTIES
from crewtrack.screens import fields
from crewtrack.screens.sortie_differences import field_told
from crewtrack.screens.sortie_form import SortieKnown

_LINES: Final = (
    ("vessel", "aircraft"),
    ("date", "time"),
    ("minutes", "setting"),
    ("lat", "lon"),
    ("way", "sea"),
    ("wind", "heading"),
    ("speed", "current"),
    ("purpose",),
)
_LAST: Final = (("light", "light_reason"), ("remarks",), ("sortie",))
_HINTS: Final = {
    "date": "2026-11-25",
    "time": "0640",
    "lat": "47 07.2 N",
    "lon": "88 36.0 W",
    "wind": "240/14",
    "current": "090/1.2",
}


class SortieFields(QWidget):
    """Some of the fields; ``edited`` tells which one was, ``left`` which one the focus left."""

    edited = Signal(str)
    left = Signal(str)

    def __init__(self, lines: tuple[tuple[str, ...], ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(4, 1)
        self.grid = grid
        self.fields: dict[str, Field] = {}
        for number, names in enumerate(lines):
            for place, name in enumerate(names):
                self._add(grid, name, 2 * number, 3 * place, wide=len(names) == 1)

    def _add(self, grid: QGridLayout, name: str, row: int, column: int, wide: bool) -> None:
        unit = "" if name in _HINTS else fields.unit(name)
        field = Field(field_told(name), _editor(name), unit)
        field.add_to(grid, row, column)
        if wide and name != "sortie":
            grid.addWidget(field.editor, row, column + 1, 1, 5)
            grid.addWidget(field.fault, row + 1, column + 1, 1, 5)
        field.editor.setObjectName(name)
        field.editor.edited.connect(lambda: self.edited.emit(name))
        field.editor.installEventFilter(self)
        self.fields[name] = field

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Tell which field was left."""
        if event.type() == QEvent.Type.FocusOut and watched.objectName() in self.fields:
            self.left.emit(watched.objectName())
        return super().eventFilter(watched, event)

    def offer(self, known: SortieKnown) -> None:
        """Offer boats and aircraft."""
        for name, choices in (("vessel", known.vessels), ("aircraft", known.aircraft)):
            editor = self.fields[name].editor if name in self.fields else None
            if isinstance(editor, ChoiceEditor):
                editor.offer(choices)

    def text(self, name: str) -> str:
        """What stands in a field."""
        return self.fields[name].editor.text()

    def show_texts(self, texts: Mapping[str, str]) -> None:
        """Fill the fields, without telling that they were edited."""
        for name, field in self.fields.items():
            if field.editor.text() != texts[name]:
                blocked = field.editor.blockSignals(True)
                field.editor.set_text(texts[name])
                show_beginning(field.editor)
                field.editor.blockSignals(blocked)

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Say beneath each field what is wrong with it."""
        for name, field in self.fields.items():
            told = found.get(name, "")
            if told != field.fault.text():
                field.show_fault(told)

    def go_to(self, name: str) -> None:
        """Put the focus into a field, all of it chosen, so that typing replaces it."""
        editor = self.fields[name].editor
        editor.setFocus(Qt.FocusReason.OtherFocusReason)
        if isinstance(editor, LineEditor):
            editor.selectAll()


def show_beginning(editor: AnyEditor) -> None:
    """Of a text that is too long for its chooser, show the beginning."""
    line = editor.lineEdit() if isinstance(editor, ChoiceEditor) else None
    if line is not None and not editor.hasFocus():
        line.setCursorPosition(0)


def first_fields() -> SortieFields:
    """The fields above the crew."""
    return SortieFields(_LINES)


def last_fields() -> SortieFields:
    """The fields below the tasks."""
    return SortieFields(_LAST)


class WordEditor(ChoiceEditor):
    """A choice of a few words, as a person reads them; ``text`` is the word that is recorded."""

    def __init__(self, words: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = {fields.choice_told(word): word for word in words}
        self.offer({told: told for told in self._words})

    def text(self) -> str:
        """The word, or what was typed."""
        typed = super().text()
        return self._words.get(typed, typed)

    def set_text(self, text: str) -> None:
        """Choose a word."""
        told = {word: told for told, word in self._words.items()}
        super().set_text(told.get(text, text))


def _editor(name: str) -> AnyEditor:
    if name in SORTIES.names and name not in ("wind", "lat", "lon", "light_reason"):
        column = SORTIES.columns[SORTIES.index(name)]
        words = fields.options(column)
        return WordEditor(words) if words else editor_for(column)
    line = LineEditor()
    line.setPlaceholderText(_HINTS.get(name, ""))
    return line
