"""A button for an action: for the hand that looks before it knows the key."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QPushButton


def button_for(action: QAction) -> QPushButton:
    """A button that does what the action does under its name, and can be pressed when that can be
    done. A click leaves the keys where they are: the action may ask which field or row has them."""
    button = QPushButton()
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    button.setToolTip(f"{action.toolTip()} ({action.shortcut().toString()})")
    button.clicked.connect(action.trigger)
    action.changed.connect(lambda: _follow(button, action))
    _follow(button, action)
    return button


def _follow(button: QPushButton, action: QAction) -> None:
    button.setText(action.text())
    button.setAccessibleName(action.text())
    button.setEnabled(action.isEnabled())
