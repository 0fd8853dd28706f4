"""Which rows of the board are shown: a part of a name, a duty, a standing."""

from typing import get_args

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QLineEdit, QWidget

from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import Word
from crewtrack.facts import DUTIES
from crewtrack.screens.board_table import BoardFilter, duty_told, words
from crewtrack.screens.language import say
from crewtrack.screens.standing_words import SHAPES, word_told


class BoardFilterBar(QWidget):
    """``changed`` tells that other rows are to be shown."""

    changed = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.text = QLineEdit()
        self.text.setPlaceholderText(say("name or key"))
        self.text.setAccessibleName(say("Name or key holds"))
        self.text.setClearButtonEnabled(True)
        self.duty = QComboBox()
        self.duty.setAccessibleName(say("Duty"))
        self.duty.addItem(say("any duty"), "")
        for duty in DUTIES:
            self.duty.addItem(duty_told(duty), duty)
        self.word = QComboBox()
        self.word.setAccessibleName(say("Standing"))
        self.word.addItem(say("any standing"), "")
        for word in words():
            self.word.addItem(f"{SHAPES[word]} {word_told(word)}", word)
        self._count = QLabel()
        self._count.setProperty("tone", "quiet")
        self._lay_out(theme)
        self.text.textChanged.connect(lambda _: self.changed.emit())
        self.duty.currentIndexChanged.connect(lambda _: self.changed.emit())
        self.word.currentIndexChanged.connect(lambda _: self.changed.emit())

    def _lay_out(self, theme: Theme) -> None:
        layout, gap = QHBoxLayout(self), theme.line() // 3
        layout.setContentsMargins(2 * gap, gap, 2 * gap, gap)
        layout.setSpacing(2 * gap)
        label = QLabel(say("&Filter"))
        label.setBuddy(self.text)
        layout.addWidget(label)
        layout.addWidget(self.text)
        layout.addWidget(self.duty)
        layout.addWidget(self.word)
        layout.addWidget(self._count)
        layout.addStretch(1)
        self.text.setFixedWidth(theme.line() * 12)

    def shown(self) -> BoardFilter:
        """The rows that are asked for."""
        held = self.word.currentData()
        word = next((each for each in get_args(Word) if each == held), None)
        return BoardFilter(self.text.text(), str(self.duty.currentData()), word)

    def tell_count(self, told: str) -> None:
        """Tell how many rows are shown."""
        self._count.setText(told)

    def clear(self) -> None:
        """Show all rows."""
        self.text.clear()
        self.duty.setCurrentIndex(0)
        self.word.setCurrentIndex(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape shows all rows."""
        if event.key() == Qt.Key.Key_Escape:
            self.clear()
        else:
            super().keyPressEvent(event)
