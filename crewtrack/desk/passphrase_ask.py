"""Asking for a passphrase: what is wrong with it is said beneath, and the button waits as long as
the next try has to."""

from collections.abc import Callable
from datetime import timedelta
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from crewtrack.desk.look import hidden_words
from crewtrack.desk.passphrase_field import PassphraseField
from crewtrack.desk.single_shot import single_shot
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import RecordUnusable, Refused
from crewtrack.screens.language import count_of, say

_TICK_MS: Final = 1000


class PassphraseAsk(QWidget):
    """``attempt`` does something with what was typed, and raises Refused where it is wrong;
    ``wait`` is how long to wait before the next try; ``done`` is called after a right one.
    ``button`` is to be laid out by whoever asks."""

    def __init__(
        self,
        confirm: str,
        attempt: Callable[[str], object],
        wait: Callable[[], timedelta],
        done: Callable[[], object],
    ) -> None:
        super().__init__()
        self._confirm, self._attempt, self._wait, self._done = confirm, attempt, wait, done
        self.tries = 0
        label = QLabel(say("Passphrase"))
        self.field = PassphraseField(label.text())
        label.setBuddy(self.field.line)
        self.fault = hidden_words("fault")
        self.button = QPushButton(confirm)
        self.button.setAccessibleName(confirm)
        self.button.setDefault(True)
        self.button.clicked.connect(lambda: self.try_it())
        self._timer = single_shot(self, _TICK_MS, self.look_again)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for part in (label, self.field, self.fault):
            layout.addWidget(part)
        self.setFocusProxy(self.field)

    def try_it(self) -> None:
        """Try what was typed; nothing while the next try has to wait."""
        if not self.button.isEnabled():
            return
        if not self.field.text():
            self._say(say("this is needed"))
            return
        QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)  # made to take a moment
        try:
            self._attempt(self.field.text())
        except (Refused, RecordUnusable, OSError) as error:
            self.tries += 1
            self.field.hide_again()
            self._say(trouble_told(error))
            self.look_again()
        else:
            self.forget()
            self._done()
        finally:
            QGuiApplication.restoreOverrideCursor()

    def forget(self) -> None:
        """As if nothing had been typed."""
        self.field.clear()
        self._say("")

    def look_again(self) -> None:
        """Have the button say how long to wait still, or what it does."""
        seconds = -(-self._wait() // timedelta(seconds=1))
        self.button.setEnabled(seconds <= 0)
        waits = count_of(seconds, "Wait {count} second", "Wait {count} seconds")
        told = waits if seconds > 0 else self._confirm
        self.button.setText(told)
        self.button.setAccessibleName(told)
        if seconds > 0:
            self._timer.start()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter tries it, once, whether or not this is in a dialog."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.try_it()
        else:
            super().keyPressEvent(event)

    def _say(self, told: str) -> None:
        self.fault.setText(told)
        self.fault.setVisible(bool(told))
        self.field.say_wrong(told)
