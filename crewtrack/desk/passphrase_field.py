"""A field for a passphrase: hidden, unless whoever types wants to see it for a moment."""

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QWidget

from crewtrack.desk.look import set_property
from crewtrack.screens.language import say

_HINTS: Final = (
    Qt.InputMethodHint.ImhSensitiveData
    | Qt.InputMethodHint.ImhNoPredictiveText
    | Qt.InputMethodHint.ImhNoAutoUppercase
)
_LONGEST: Final = 1000
"""Beyond what the office takes: what is too long is told, not cut off."""


class PassphraseField(QWidget):
    """A line, with a box beside it that shows what stands there."""

    def __init__(self, told: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = QLineEdit()
        self.line.setMaxLength(_LONGEST)
        self.line.setAccessibleName(told)
        self.shown = QCheckBox(say("Show"))
        self.shown.setAccessibleName(say("Show: {what}", what=told))
        self.shown.toggled.connect(self._show)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.line, 1)
        layout.addWidget(self.shown)
        self.setFocusProxy(self.line)
        self._show(False)

    def text(self) -> str:
        """What stands in it."""
        return self.line.text()

    def hide_again(self) -> None:
        """From now on nobody reads it off the screen; the next key replaces it."""
        self.shown.setChecked(False)
        self.line.selectAll()

    def clear(self) -> None:
        """Forget it; no undoing brings it back, as it would after ``QLineEdit.clear``."""
        self.shown.setChecked(False)
        self.line.setText("")

    def say_wrong(self, told: str) -> None:
        """Mark it as wrong, and have the reason read aloud with it; empty for right."""
        self.line.setAccessibleDescription(told)
        set_property(self.line, "faulty", bool(told))

    def _show(self, shown: bool) -> None:
        modes = QLineEdit.EchoMode
        self.line.setEchoMode(modes.Normal if shown else modes.Password)
        self.line.setInputMethodHints(
            _HINTS if shown else _HINTS | Qt.InputMethodHint.ImhHiddenText
        )
