"""Who gets a key, who loses it, and another passphrase for one's own."""

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtWidgets import QComboBox, QDialogButtonBox, QLineEdit, QWidget

from crewtrack.desk.key_dialog import KeyDialog
from crewtrack.desk.state import State
from crewtrack.errors import Refused
from crewtrack.facts import PEOPLE
from crewtrack.office import access
from crewtrack.office.access import check_first_chief
from crewtrack.office.entries import Order
from crewtrack.office.keeping import Chief
from crewtrack.office.office import Office
from crewtrack.office.passphrases import passphrase_faults
from crewtrack.office.who_signs_in import Access
from crewtrack.screens import fact_form, sign_in_words
from crewtrack.screens.language import say


class PassphraseDialog(KeyDialog):
    """Another passphrase for whoever is signed in."""

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(
            say("Change passphrase"), (sign_in_words.passphrase_advice(),), say("Change"), parent
        )
        self._state = state
        self.add_passphrase("old", say("Passphrase so far"))
        self.add_new_passphrase(say("New passphrase"))
        self.passphrases["old"].setFocus()

    def faults(self) -> Mapping[str, str]:
        """What is wrong with the new one; the office judges the old one."""
        session = self._state.office.session
        about = () if session is None else (session.person, session.name)
        found = fact_form.by_field(passphrase_faults(self.passphrase(), *about))
        return {**super().faults(), **found}

    def do(self) -> bool:
        """Change it."""
        try:
            return bool(self._state.act(_changed, self.passphrase("old"), self.passphrase()))
        except Refused as refused:
            self._state.refresh()  # a wrong one is in the journal
            raise Refused(*(replace(fault, field="old") for fault in refused.faults)) from None


class IdentifyDialog(KeyDialog):
    """The first chief of a record in which nobody is identified yet: somebody in it, or somebody
    new."""

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        about = (sign_in_words.what_changes(), sign_in_words.passphrase_advice())
        super().__init__(say("Identify people"), about, say("Make the first chief"), parent)
        self._state = state
        self.people, self.key, self.name = QComboBox(), QLineEdit(), QLineEdit()
        for row in sorted(state.snapshot.rows(PEOPLE), key=lambda row: str(row[1]).casefold()):
            self.people.addItem(f"{row[1]} ({row[0]})", row[0])
        self.people.addItem(say("Somebody who is not in the record yet"), "")
        self.people.setCurrentIndex(max(0, self.people.findData(state.author)))
        for name, told, editor in (
            ("who", say("First chief"), self.people),
            ("person", say("Key"), self.key),
            ("name", say("Name"), self.name),
        ):
            self.add(name, told, editor)
        self.add_new_passphrase(say("Passphrase"))
        self.people.currentIndexChanged.connect(lambda _: self._choose())
        self._choose()

    def do(self) -> bool:
        """Give the key, and sign in with it."""
        act, person = self._state.act, str(self.people.currentData())
        if person:
            done = act(access.give_access, person, self.passphrase(), Order(person))
        else:
            key, name = self.key.text().strip(), self.name.text().strip()
            done = act(access.first_chief, key, name, self.passphrase())
        return done is not None

    def _choose(self) -> None:
        new = not self.people.currentData()
        for editor in (self.key, self.name):
            self.show_row(editor, new)


class FirstChiefDialog(KeyDialog):
    """The first chief of a record that is about to be made; ``chief`` is None for nobody."""

    def __init__(self, parent: QWidget | None = None) -> None:
        about = (
            say("Who is the chief of the unit? Left out, nobody signs in for now."),
            sign_in_words.what_changes(),
            sign_in_words.passphrase_advice(),
        )
        super().__init__(say("New record"), about, say("Make the record with this chief"), parent)
        self.chief: Chief | None = None
        self.key, self.name = QLineEdit("K-01"), QLineEdit()
        for name, told, editor in (
            ("person", say("Key"), self.key),
            ("name", say("Name"), self.name),
        ):
            self.add(name, told, editor)
        self.add_new_passphrase(say("Passphrase"))
        later = self.add_button(
            say("Nobody signs in for now"), QDialogButtonBox.ButtonRole.ActionRole
        )
        later.clicked.connect(self.accept)
        self.name.setFocus()

    def do(self) -> bool:
        """Take it down, where it can be a chief."""
        person, name = self.key.text().strip(), self.name.text().strip()
        check_first_chief(person, name, self.passphrase())
        self.chief = Chief(person, name, self.passphrase())
        return True


class GiveDialog(KeyDialog):
    """A key for somebody, new or in place of one whose passphrase is lost."""

    def __init__(self, state: State, one: Access, parent: QWidget | None = None) -> None:
        told = f"{one.name} ({one.person})"
        about = (
            say("{person} chooses the passphrase and types it here; nobody else should see it.",
                person=told) if one.key is None else
            say("{person} gets a new key and chooses a passphrase for it. The key so far signs"
                " nothing from now on; what it signed stays signed.", person=told),
            sign_in_words.passphrase_advice(),
            say("Then you sign it, with your own passphrase."),
        )  # fmt: skip
        title = say("Give access") if one.key is None else say("New key")
        super().__init__(title, about, title, parent)
        self._state, self._one = state, one
        self.reason = QLineEdit()
        self.add_new_passphrase(say("Passphrase of {person}", person=told))
        if one.key is not None:
            self.add("reason", say("Reason"), self.reason)
        self.passphrases["passphrase"].setFocus()

    def do(self) -> bool:
        """Give it."""
        order = Order(self._state.author, self.reason.text().strip() or None)
        act = self._state.act
        return act(access.give_access, self._one.person, self.passphrase(), order) is not None


class EndDialog(KeyDialog):
    """Nobody signs in as this person any more."""

    def __init__(self, state: State, one: Access, parent: QWidget | None = None) -> None:
        about = (
            say("{person} will not sign in any more. What was signed stays signed.",
                person=f"{one.name} ({one.person})"),
        )  # fmt: skip
        super().__init__(say("End access"), about, say("End access"), parent)
        self._state, self._one = state, one
        self.reason = QLineEdit()
        self.add("reason", say("Reason"), self.reason)

    def do(self) -> bool:
        """End it."""
        order = Order(self._state.author, self.reason.text().strip() or None)
        return bool(self._state.act(_ended, self._one.person, order))


def change_passphrase(parent: QWidget, state: State) -> None:
    """Ask for another passphrase."""
    dialog = PassphraseDialog(state, parent)
    if dialog.exec():
        state.told.emit(say("The passphrase is changed."))
    dialog.deleteLater()


def _changed(office: Office, old: str, new: str) -> bool:
    access.change_passphrase(office, old, new)
    return True


def _ended(office: Office, person: str, order: Order) -> bool:
    access.end_access(office, person, order)
    return True
