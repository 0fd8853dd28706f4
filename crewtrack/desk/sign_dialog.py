"""What is signed, and the passphrase for it: asked at the act itself, for the length of it."""

from collections.abc import Callable
from contextlib import ExitStack
from typing import TypeVar

from PySide6.QtWidgets import QApplication, QDialog, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.dialog_buttons import button_row
from crewtrack.desk.passphrase_ask import PassphraseAsk
from crewtrack.office import access
from crewtrack.office.office import Office, Session
from crewtrack.office.rights import Unsigned
from crewtrack.screens.language import say, told

Returned = TypeVar("Returned")


class SignDialog(QDialog):
    """Asks whoever is signed in for the passphrase; ``hand`` then holds the key, to be used and
    let go of at once (``with dialog.hand:``)."""

    def __init__(
        self, office: Office, session: Session, what: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._office = office
        self.hand = ExitStack()
        self.setWindowTitle(say("Sign with your passphrase"))
        self.what = QLabel(say("Sign with your passphrase: {what}", what=what))
        self.what.setProperty("tone", "title")
        self.what.setWordWrap(True)
        who = QLabel(f"{session.name} ({session.person})")
        who.setProperty("tone", "quiet")
        self.ask = PassphraseAsk(
            say("Sign"),
            self._attempt,
            lambda: access.wait_left(office, session.person),
            self.accept,
        )
        self.setAccessibleDescription(what)
        layout = QVBoxLayout(self)
        for part in (self.what, who, self.ask):
            layout.addWidget(part)
        layout.addStretch()
        layout.addWidget(button_row(self, (self.ask.button,), say("Cancel")))
        self.setMinimumWidth(56 * self.fontMetrics().averageCharWidth())
        self.ask.look_again()
        self.ask.setFocus()

    def veiled(self) -> None:
        """The window was locked: nobody is to find what was typed here."""
        self.ask.forget()

    def _attempt(self, passphrase: str) -> None:
        self.hand.enter_context(access.signing(self._office, passphrase))


def signed(
    office: Office,
    run: Callable[[], Returned],
    tried: Callable[[], object],
    parent: QWidget | None = None,
) -> tuple[Returned] | None:
    """What ``run`` returns. Where the office refuses it for want of a signature alone, the
    passphrase is asked for, and it runs again, signed; None where that is called off. ``tried``
    is called after wrong passphrases, which are in the journal."""
    try:
        return (run(),)
    except Unsigned as unsigned:
        session = office.session
        if session is None:
            raise
        what = told(unsigned.what)
    over = QApplication.activeModalWidget() or QApplication.activeWindow() or parent
    dialog = SignDialog(office, session, what, over)
    agreed = dialog.exec() == QDialog.DialogCode.Accepted
    dialog.deleteLater()
    if dialog.ask.tries:
        tried()
    with dialog.hand:
        return (run(),) if agreed else None
