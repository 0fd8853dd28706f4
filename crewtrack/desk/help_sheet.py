"""The help sheet: every action with its key, made from the actions themselves."""

from collections.abc import Sequence

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QLineEdit, QVBoxLayout, QWidget

from crewtrack.desk.look import take_room
from crewtrack.desk.table_view import TableView
from crewtrack.screens.deck_words import CAUTIONS
from crewtrack.screens.help_table import HelpLine, help_table
from crewtrack.screens.language import say


def help_lines(groups: Sequence[tuple[str, Sequence[QAction]]]) -> tuple[HelpLine, ...]:
    """One line for each action."""
    native = QKeySequence.SequenceFormat.NativeText
    return tuple(
        HelpLine(title, action.text().replace("&", ""), action.shortcut().toString(native),
                 action.toolTip())
        for title, actions in groups
        for action in actions
    )  # fmt: skip


class HelpSheet(QDialog):
    """All actions in one table, with a field to find one; the cautions below."""

    def __init__(
        self, groups: Sequence[tuple[str, Sequence[QAction]]], parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Keys and what they do"))
        self._lines = help_lines(groups)
        self.sought = QLineEdit()
        self.sought.setPlaceholderText(say("Find an action"))
        self.sought.setAccessibleName(say("Find an action"))
        self.sought.textChanged.connect(self._show)
        self.table = TableView(say("Actions and their keys"))
        cautions = QLabel(" ".join(map(say, CAUTIONS)))
        cautions.setWordWrap(True)
        cautions.setProperty("tone", "quiet")
        buttons = QDialogButtonBox()
        close = buttons.addButton(say("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setAccessibleName(say("Close"))
        close.clicked.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.sought)
        layout.addWidget(self.table, 1)
        layout.addWidget(cautions)
        layout.addWidget(buttons)
        line = self.fontMetrics().lineSpacing()
        take_room(self, 48 * line, 34 * line)
        self._show("")

    def _show(self, sought: str) -> None:
        self.table.show_table(help_table(self._lines, sought))
