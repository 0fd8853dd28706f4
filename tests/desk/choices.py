"""Leaving a list of choices that typing has opened, as a person does: by Tab."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QWidget
from pytestqt.qtbot import QtBot


def leave_choices(qtbot: QtBot, editor: QWidget) -> None:
    """Close the list; what was typed stays."""
    completer = editor.completer() if isinstance(editor, QComboBox) else None
    popup = completer.popup() if completer is not None else None
    if popup is not None and popup.isVisible():
        qtbot.keyClick(popup, Qt.Key.Key_Tab)
        editor.setFocus()
