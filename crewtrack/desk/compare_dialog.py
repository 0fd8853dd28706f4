"""Two editions side by side: what was added, dropped and changed."""

from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.look import take_room
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import say
from crewtrack.screens.standard_compare import change_lines, changes


class CompareDialog(QDialog):
    """Pick two editions; the older one is what was, the other one what is."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Compare two editions"))
        self._standards = state.snapshot.editions.standards
        self.old, self.new = QComboBox(), QComboBox()
        names = [one.edition for one in self._standards]
        now = names.index(state.snapshot.standard(state.day).edition)
        for box, name, at in (
            (self.old, say("From"), max(0, now - 1)),
            (self.new, say("To"), max(now, min(1, len(names) - 1))),
        ):
            box.addItems(names)
            box.setCurrentIndex(at)
            box.setAccessibleName(name)
            box.currentIndexChanged.connect(self._show)
        self.words = LinesPanel(say("What differs"), theme)
        top = QHBoxLayout()
        for told, box in ((say("&From"), self.old), (say("&To"), self.new)):
            label = QLabel(told)
            label.setBuddy(box)
            top.addWidget(label)
            top.addWidget(box)
        top.addStretch(1)
        buttons = QDialogButtonBox()
        close = buttons.addButton(say("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setAccessibleName(say("Close"))
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(top)
        layout.addWidget(self.words, 1)
        layout.addWidget(buttons)
        line = theme.line()
        take_room(self, line * 48, line * 34)
        self._show()

    def _show(self) -> None:
        old, new = (self._standards[box.currentIndex()] for box in (self.old, self.new))
        self.words.show_lines(change_lines(changes(old, new)))
