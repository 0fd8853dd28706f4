"""The buttons of dialogs and of the tables in them."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QPushButton

from crewtrack.desk.table_view import TableView
from crewtrack.facts import Kind
from crewtrack.screens import fields
from crewtrack.screens.language import say


def dialog_button(told: str) -> QPushButton:
    """A button that Enter presses only where it has the keys or is made the default."""
    button = QPushButton(told)
    button.setAutoDefault(False)
    button.setAccessibleName(told.replace("&", ""))
    return button


def button_row(dialog: QDialog, acting: Iterable[QPushButton], leave: str) -> QDialogButtonBox:
    """Buttons that do something, and behind them one that leaves the dialog."""
    box = QDialogButtonBox()
    for button in acting:
        box.addButton(button, QDialogButtonBox.ButtonRole.ActionRole)
    box.addButton(dialog_button(leave), QDialogButtonBox.ButtonRole.RejectRole)
    box.rejected.connect(dialog.reject)
    return box


def closing_row(dialog: QDialog) -> QDialogButtonBox:
    """The button that closes a dialog in which there is nothing to take back."""
    box = QDialogButtonBox()
    close = QPushButton(say("Close"))
    close.setAccessibleName(close.text())
    close.clicked.connect(dialog.accept)
    box.addButton(close, QDialogButtonBox.ButtonRole.AcceptRole)
    return box


def table_button(
    table: TableView, kind: Kind, told: str, key: str, slot: Callable[[], object]
) -> QPushButton:
    """A button below the table of a kind of fact; its key works in the table."""
    button = dialog_button(told)
    button.setAccessibleName(f"{fields.one_told(kind.name)}: {told}")
    button.clicked.connect(lambda: slot())
    shortcut = QShortcut(QKeySequence(key), table)
    shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
    shortcut.activated.connect(slot)
    return button
