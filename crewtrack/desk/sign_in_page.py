"""Who is there: somebody who can sign in, and the passphrase."""

from datetime import timedelta

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.passphrase_ask import PassphraseAsk
from crewtrack.desk.theme import Theme
from crewtrack.office import access
from crewtrack.office.office import Office
from crewtrack.screens.language import say


class SignInPage(QWidget):
    """``signed_in`` comes when the office knows who is there; ``leaving`` when somebody would
    rather close the window. ``last`` is the person who is chosen to begin with."""

    signed_in = Signal()
    leaving = Signal()

    def __init__(self, office: Office, theme: Theme, last: str, told: str) -> None:
        super().__init__()
        self._office = office
        self._theme = theme
        heading = QLabel(say("Sign in"))
        heading.setFont(theme.font(1.6))
        self.told = QLabel(told)
        self.told.setProperty("tone", "quiet")
        self.told.setWordWrap(True)
        self.people = QComboBox()
        self.people.setAccessibleName(say("Who you are"))
        self.ask = PassphraseAsk(say("Sign in"), self._attempt, self._wait, self.signed_in.emit)
        self.close_button = QPushButton(say("Close the window"))
        self.close_button.setAccessibleName(self.close_button.text())
        self.close_button.clicked.connect(lambda: self.leaving.emit())
        self._lay_out(heading)
        self._offer(last)
        self.people.currentIndexChanged.connect(lambda _: self._another())
        self.ask.look_again()
        self.setFocusProxy(self.ask)

    def person(self) -> str:
        """The key of whoever is chosen; empty where nobody can be."""
        return str(self.people.currentData() or "")

    def _offer(self, last: str) -> None:
        for person, name in sorted(access.able_people(self._office), key=_by_name):
            self.people.addItem(f"{name} ({person})", person)
        self.people.setCurrentIndex(max(0, self.people.findData(last)))

    def _attempt(self, passphrase: str) -> None:
        access.sign_in(self._office, self.person(), passphrase)

    def _wait(self) -> timedelta:
        return access.wait_left(self._office, self.person())

    def _another(self) -> None:
        self.ask.forget()
        self.ask.look_again()

    def _lay_out(self, heading: QLabel) -> None:
        line = self._theme.line()
        column = QVBoxLayout()
        column.addWidget(heading)
        column.addWidget(self.told)
        column.addSpacing(line)
        who = QLabel(say("Who you are"))
        who.setBuddy(self.people)
        for part in (who, self.people, self.ask):
            column.addWidget(part)
        column.addSpacing(line // 2)
        buttons = QHBoxLayout()
        buttons.addWidget(self.ask.button)
        buttons.addStretch(1)
        buttons.addWidget(self.close_button)
        column.addLayout(buttons)
        inner = QWidget()
        inner.setLayout(column)
        inner.setFixedWidth(30 * line)
        across = QHBoxLayout()
        across.addStretch(1)
        across.addWidget(inner)
        across.addStretch(1)
        outer = QVBoxLayout(self)
        outer.addStretch(2)
        outer.addLayout(across)
        outer.addStretch(3)


def _by_name(one: tuple[str, str]) -> tuple[str, str]:
    return one[1].casefold(), one[0]
