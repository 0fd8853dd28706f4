"""Actions: what can be done, by which key, and one plain sentence on it."""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

Slot = Callable[[], object]


def made(owner: QObject, text: str, key: str, tip: str, slot: Slot) -> QAction:
    """An action that belongs to ``owner``."""
    action = QAction(text, owner)
    action.setShortcut(QKeySequence(key))
    action.setToolTip(tip)
    action.setStatusTip(tip)
    action.triggered.connect(lambda: slot())
    return action


def add(menu: QMenu, text: str, key: str, tip: str, slot: Slot) -> QAction:
    """An action at the end of a menu."""
    action = made(menu, text, key, tip, slot)
    menu.addAction(action)
    return action
