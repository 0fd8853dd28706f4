"""A field that offers choices: a few letters of one are enough."""

from collections.abc import Mapping
from typing import Any, Final

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QStringListModel,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QWheelEvent
from PySide6.QtWidgets import QApplication, QComboBox, QCompleter, QWidget

from crewtrack.screens.choosing import folded, meant

Index = QModelIndex | QPersistentModelIndex
_PARTS: Final = " — "
_FEWEST: Final = 8
"""Letters of a choice to be seen where there is little room."""


class _Choices(QStringListModel):
    """The choices; each can be found without the marks on its letters."""

    FOLDED: Final = int(Qt.ItemDataRole.UserRole)

    def data(self, index: Index, role: int = int(Qt.ItemDataRole.DisplayRole)) -> Any:
        """What a choice is called, or what it is sought by."""
        if role == self.FOLDED:
            return folded(str(super().data(index, int(Qt.ItemDataRole.DisplayRole))))
        return super().data(index, role)


class _Finder(QCompleter):
    """Lists the choices with what is typed anywhere in them."""

    def __init__(self, choices: _Choices, parent: QWidget) -> None:
        super().__init__(choices, parent)
        self.setCompletionRole(choices.FOLDED)
        self.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)

    def splitPath(self, path: str) -> list[str]:  # noqa: N802 - Qt's name
        """What is sought, without marks and case."""
        return [folded(path)]

    def pathFromIndex(self, index: Index) -> str:  # noqa: N802 - Qt's name
        """What is put into the field: what the choice is called."""
        return str(index.data(int(Qt.ItemDataRole.DisplayRole)))


class ChoiceEditor(QComboBox):
    """A choice among keys that are shown with their names; any key can be typed, and a part that
    fits one choice alone stands for it once the field is left."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None, *, free: bool = False) -> None:
        """``free``: the choices are proposals, and another word that begins like one is meant."""
        super().__init__(parent)
        self._free = free
        self._list = _Choices(self)
        self.setModel(self._list)
        self.setEditable(True)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(_FEWEST)
        self._finder = _Finder(self._list, self)
        self.setCompleter(self._finder)
        self._keys: dict[str, str] = {}
        self._told: dict[str, str] = {}
        self._typing = False
        line = self.lineEdit()
        assert line is not None  # it can be edited
        line.textEdited.connect(self._begin_typing)
        self.editTextChanged.connect(lambda _: self.edited.emit())

    def offer(self, choices: Mapping[str, str], *, keys_told: bool = True) -> None:
        """Offer other choices, keys and what each is called (with ``keys_told`` the key beside
        it); the text stays."""
        held, typing = self.text(), self._typing
        told = {key: _called(key, name, keys_told) for key, name in choices.items()}
        if told == self._told:
            return
        self._told, self._keys = told, {name: key for key, name in told.items()}
        blocked = self.blockSignals(True)
        self._list.setStringList(["", *told.values()])
        self.set_text(held)
        self.blockSignals(blocked)
        self._typing = typing

    def text(self) -> str:
        """The key that is chosen, or what was typed."""
        typed = self.currentText().strip()
        return self._keys.get(typed, typed)

    def set_text(self, text: str) -> None:
        """Choose a key."""
        self._typing = False
        told = self._told.get(text, text)
        at = self.findText(told, Qt.MatchFlag.MatchExactly | Qt.MatchFlag.MatchCaseSensitive)
        if at >= 0:
            self.setCurrentIndex(at)  # so that the arrow keys go on from here
        self.setEditText(told)
        line = self.lineEdit()
        if line is not None and not self.hasFocus():
            line.setCursorPosition(0)  # the beginning says most where there is no room for all

    def choosing(self) -> bool:
        """Whether somebody is still typing a part of a choice: no fault as yet."""
        sought = folded(self.currentText().strip())
        return (
            self._typing
            and not self._free
            and self.text() not in self._told
            and any(sought in folded(told) for told in self._told.values())
        )

    def settle(self) -> None:
        """Typing has ended: a part that fits one choice alone becomes it."""
        popup = self._finder.popup() if self._typing else None  # asking for it would make one
        if popup is not None:
            popup.hide()
        self._typing = False
        key = self.text()
        if key in self._told:
            self.set_text(key)  # called by its name, also where only the key was typed
        else:
            key = meant(self.currentText(), self._told)
            if key and (not self._free or folded(key) == folded(self.text())):
                self.set_text(key)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """Left for another field: what was typed is settled."""
        if is_left(event):
            self.settle()
        super().focusOutEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Turning the wheel goes on through the form and changes nothing on the way."""
        event.ignore()

    def _begin_typing(self) -> None:
        self._typing = True


def is_left(event: QEvent) -> bool:
    """Whether the focus goes for good: not to a list of choices, nor to another program."""
    passing = (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason)
    if not isinstance(event, QFocusEvent) or event.type() != QEvent.Type.FocusOut:
        return False
    return event.reason() not in passing


def settle_focused() -> None:
    """Settle the chooser in which somebody is typing, before a form is saved."""
    focused = QApplication.focusWidget()
    if isinstance(focused, ChoiceEditor):
        focused.settle()


def _called(key: str, name: str, key_told: bool) -> str:
    return f"{name}{_PARTS}{key}" if key_told and name not in ("", key) else name or key
