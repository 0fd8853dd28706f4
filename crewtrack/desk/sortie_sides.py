"""What stands beside a sortie that is being corrected: why, what stood before, and what somebody
else made of it meanwhile."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from crewtrack.desk.fields import Field, LinesEditor
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import say


class CorrectionSide(QWidget):
    """The reason, and the revisions, the newest first."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.reason = Field(say("Reason for the change"), LinesEditor())
        self.reason.editor.setObjectName("reason")
        self.head = QLabel()
        self.head.setProperty("tone", "title")
        self.past = QPlainTextEdit()
        self.past.setReadOnly(True)
        self.past.setTabChangesFocus(True)
        self.past.setAccessibleName(say("What stood before"))
        self.past.setFixedHeight(theme.line() * 5)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.head)
        layout.addWidget(self.reason.label)
        layout.addWidget(self.reason.editor)
        layout.addWidget(self.reason.fault)
        layout.addWidget(QLabel(say("What stood before, the newest first")))
        layout.addWidget(self.past)

    def show_past(self, key: str, lines: tuple[str, ...]) -> None:
        """Show which sortie it is, and its revisions."""
        self.head.setText(say("Correcting sortie {key}", key=key))
        self.past.setPlainText("\n".join(lines))


class MeanwhileStrip(QWidget):
    """Their revision beside yours; ``mine`` and ``theirs`` tell what was decided."""

    mine = Signal()
    theirs = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.told.setProperty("tone", "warning")
        self.keep = _button(say("Keep mine"), self)
        self.keep.clicked.connect(self.mine)
        self.take = _button(say("Take theirs"), self)
        self.take.clicked.connect(self.theirs)
        buttons = QHBoxLayout()
        buttons.addWidget(self.keep)
        buttons.addWidget(self.take)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.told)
        layout.addLayout(buttons)
        self.hide()

    def show_differences(self, head: str, lines: tuple[str, ...]) -> None:
        """Show where the two differ."""
        self.told.setText("\n".join((head, *lines)))
        self.show()


class OfferStrip(QWidget):
    """A draft that was left behind; ``taken`` and ``dropped`` tell what was decided."""

    taken = Signal()
    dropped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.told = QLabel(say("A sortie was being typed here and was not saved."))
        self.told.setProperty("tone", "warning")
        self.take = _button(say("Go on typing it"), self)
        self.take.clicked.connect(self.taken)
        self.drop = _button(say("Let it go"), self)
        self.drop.clicked.connect(self.dropped)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.told)
        layout.addWidget(self.take)
        layout.addWidget(self.drop)
        layout.addStretch(1)
        self.hide()


class SavedPanel(QWidget):
    """What saving changed, and what can come next."""

    again = Signal()
    sign_off = Signal()
    closed = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.head = QLabel()
        self.head.setFont(theme.font(1.3, bold=True))
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.told.setAccessibleName(say("What was saved"))
        self.same = _button(say("Same again"), self)
        self.same.clicked.connect(self.again)
        self.sign = _button(say("Sign off…"), self)
        self.sign.clicked.connect(self.sign_off)
        self.close_it = _button(say("Back to the log"), self)
        self.close_it.clicked.connect(self.closed)
        buttons = QHBoxLayout()
        for button in (self.same, self.sign, self.close_it):
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        gap = theme.line()
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(gap)
        layout.addWidget(self.head)
        layout.addWidget(self.told)
        layout.addLayout(buttons)
        layout.addStretch(1)

    def show_saved(self, lines: tuple[str, ...]) -> None:
        """Say what was done; the next sortie is one key away."""
        self.head.setText(lines[0])
        self.told.setText("\n".join(lines[1:]))
        self.told.setVisible(len(lines) > 1)
        self.same.setFocus()


def _button(told: str, parent: QWidget) -> QPushButton:
    button = QPushButton(told, parent)
    button.setAccessibleName(told)
    button.setAutoDefault(True)
    return button
