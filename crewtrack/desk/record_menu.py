"""The menu of records: open, make, try, and who is here."""

from pathlib import Path

from PySide6.QtWidgets import QInputDialog, QMenu

from crewtrack.desk.actions import add
from crewtrack.desk.choosing import demonstration, new_record, open_record
from crewtrack.desk.key_dialogs import change_passphrase
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.facts import PEOPLE
from crewtrack.screens.language import say


def fill_record_menu(menu: QMenu, window: Shell, state: State) -> None:
    """Fill the first menu of a window."""
    add(menu, say("Open a record…"), "Ctrl+O", say("Open another record in a window of its own."),
        lambda: _another(window, open_record(window)))  # fmt: skip
    recent = menu.addMenu(say("Open again"))
    for name in window.settings.recent:
        action = recent.addAction(name)
        action.setToolTip(say("Open this record in a window of its own."))
        action.triggered.connect(lambda _=False, name=name: window.another(Path(name)))
    add(menu, say("New record…"), "Ctrl+Alt+N", say("Make an empty record with a standard."),
        lambda: _another(window, new_record(window)))  # fmt: skip
    add(menu, say("Demonstration…"), "Ctrl+Alt+D",
        say("Make a unit that does not exist, with three years of records, to look around in."),
        lambda: _another(window, demonstration(window)))  # fmt: skip
    add(menu, say("Second window"), "Ctrl+Alt+W", say("Open this record in one more window."),
        lambda: window.another(state.office.record.path))  # fmt: skip
    menu.addSeparator()
    if state.office.session is None:
        add(menu, say("Who acts here…"), "Ctrl+Alt+A",
            say("Say who answers for what is recorded at this desk."),
            lambda: _who(window, state))  # fmt: skip
    else:
        _fill_signed_in(menu, window, state)
    add(menu, say("Read the record again"), "F5", say("Show the record as it is now."),
        state.refresh)  # fmt: skip
    menu.addSeparator()
    add(menu, say("Close the window"), "Ctrl+W", say("Close this window."), window.close)


def _fill_signed_in(menu: QMenu, window: Shell, state: State) -> None:
    add(menu, say("Lock now"), "Ctrl+L",
        say("Cover the window until you sign in again; what you type stays."),
        window.locking.emit)  # fmt: skip
    add(menu, say("Sign out"), "Ctrl+Shift+Q", say("Leave the record to whoever signs in next."),
        window.signing_out.emit)  # fmt: skip
    add(menu, say("Change passphrase…"), "Ctrl+Shift+K",
        say("Take another passphrase; your key, and what it signed, stay the same."),
        lambda: change_passphrase(window, state))  # fmt: skip


def _another(window: Shell, record: Path | None) -> None:
    if record is not None:
        window.another(record)


def _who(window: Shell, state: State) -> None:
    names = [str(row[PEOPLE.index("name")]) for row in state.snapshot.rows(PEOPLE)]
    choices = sorted({state.author, *names}, key=str.casefold)
    who, taken = QInputDialog.getItem(
        window,
        say("Who acts here"),
        say("The journal names this person for everything recorded here:"),
        choices,
        choices.index(state.author),
        editable=True,
    )
    if taken and who.strip():
        state.author = window.settings.author = who.strip()
        state.moved.emit()
