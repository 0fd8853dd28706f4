"""The criteria of a task, marked one by one with single keys."""

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QWidget

from crewtrack.screens.language import say
from crewtrack.screens.signoff_marks import MARKS, Mark, mark_told

_KEYS: Final[dict[int, Mark]] = {
    Qt.Key.Key_Y: "yes",
    Qt.Key.Key_1: "yes",
    Qt.Key.Key_N: "not-yet",
    Qt.Key.Key_2: "not-yet",
    Qt.Key.Key_S: "not-seen",
    Qt.Key.Key_0: "not-seen",
    Qt.Key.Key_Backspace: "not-seen",
}


class MarkButton(QPushButton):
    """One criterion's mark. ``marked``: a key has set it; ``moved``: up (-1) or down (1)."""

    marked = Signal()
    moved = Signal(int)

    def __init__(self, criterion: str) -> None:
        super().__init__()
        self._criterion = criterion
        self.mark: Mark = "not-seen"
        self.setAutoDefault(False)
        self.set_mark("not-seen")
        self.clicked.connect(self._go_round)

    def set_mark(self, mark: Mark) -> None:
        """Show a mark."""
        self.mark = mark
        self.setText(mark_told(mark))
        self.setAccessibleName(f"{self._criterion}: {mark_told(mark)}")

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Y, N and S mark and go on; the arrows go up and down; Space goes round the marks."""
        key = event.key()
        if key in _KEYS and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.set_mark(_KEYS[key])
            self.marked.emit()
            self.moved.emit(1)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.moved.emit(-1 if key == Qt.Key.Key_Up else 1)
        else:
            super().keyPressEvent(event)

    def _go_round(self) -> None:
        self.set_mark(MARKS[(MARKS.index(self.mark) + 1) % len(MARKS)])
        self.marked.emit()


class _Criterion(QLabel):
    """A criterion's words; a click goes to its mark."""

    def __init__(self, words: str, button: MarkButton) -> None:
        super().__init__(words)
        self.setWordWrap(True)
        self.setBuddy(button)
        self._button = button

    def mousePressEvent(self, _: QEvent) -> None:  # noqa: N802 - Qt's name
        """Go round its marks."""
        self._button.setFocus()
        self._button.click()


class CriteriaMarks(QWidget):
    """All criteria of a task; ``edited``: one was marked."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._criteria: tuple[str, ...] = ()
        self._held: dict[str, Mark] = {}
        self.buttons: list[MarkButton] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(0, 1)
        self._hint = QLabel()
        self._hint.setProperty("tone", "quiet")
        self._hint.setWordWrap(True)

    @property
    def criteria(self) -> tuple[str, ...]:
        """The criteria shown."""
        return self._criteria

    def marks(self) -> tuple[Mark, ...]:
        """The marks, one for each criterion."""
        return tuple(button.mark for button in self.buttons)

    def offer(self, criteria: Sequence[str], task: bool = True) -> None:
        """Ask for other criteria. Marks are kept for the time when theirs are asked for again:
        while a date is being typed, there is no edition to ask for any. ``task``: whether one is
        chosen at all."""
        self._hint.setText(_hint(bool(criteria), task))
        if tuple(criteria) == self._criteria and self._grid.count():
            return
        self._held.update(zip(self._criteria, self.marks(), strict=True))
        self._criteria = tuple(criteria)
        self._clear()
        self._grid.addWidget(self._hint, 0, 0, 1, 2)
        for place, words in enumerate(criteria):
            self._add(words, self._held.get(words, "not-seen"), place)
        self._grid.setRowStretch(len(criteria) + 1, 1)

    def set_marks(self, marks: Sequence[Mark]) -> None:
        """Put marks on the criteria."""
        for button, mark in zip(self.buttons, marks, strict=True):
            button.set_mark(mark)

    def _add(self, words: str, mark: Mark, place: int) -> None:
        button = MarkButton(words)
        button.set_mark(mark)
        button.setMinimumWidth(_width(button))
        button.marked.connect(self.edited.emit)
        button.moved.connect(lambda step, place=place: self._go(place + step))
        for column, part in enumerate((_Criterion(words, button), button)):
            self._grid.addWidget(part, place + 1, column)
            part.show()  # at once, so that it can take the keys
        self.buttons.append(button)

    def _go(self, place: int) -> None:
        if 0 <= place < len(self.buttons):
            self.buttons[place].setFocus(Qt.FocusReason.TabFocusReason)

    def _clear(self) -> None:
        self.buttons = []
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None and widget is not self._hint:
                widget.hide()
                widget.deleteLater()


def _hint(any_asked: bool, task: bool) -> str:
    if not task:
        return say("Choose a task, and its criteria stand here.")
    if not any_asked:
        return say("The standard asks for no criteria here.")
    return say("Y yes, N not yet, S not seen; Space goes round.")


def _width(button: MarkButton) -> int:
    """Wide enough for every mark."""
    metrics = button.fontMetrics()
    return max(metrics.horizontalAdvance(mark_told(one)) for one in MARKS) + 2 * metrics.height()
