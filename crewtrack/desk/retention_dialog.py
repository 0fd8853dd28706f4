"""Retention: the unit's period and its rule, what is past it and why some of it stays."""

from contextlib import ExitStack

from PySide6.QtWidgets import QDialog, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.asked_fields import AskedFields, line_editor, secret_editor
from crewtrack.desk.dialog_buttons import button_row, dialog_button
from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.look import quiet_words, take_room
from crewtrack.desk.progress_dialog import run_with_progress
from crewtrack.desk.seal_dialog import SealDialog
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.errors import Refused
from crewtrack.office import access, retention
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from crewtrack.office.retention import Past
from crewtrack.screens import retention_words
from crewtrack.screens.fact_form import by_field
from crewtrack.screens.language import say


class RetentionDialog(QDialog):
    """Shows what is past the period, names another one, and leads to sealing."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state, self._theme = state, theme
        self.past: Past | None = None
        self.setWindowTitle(say("Retention"))
        self.told = QLabel()
        self.told.setWordWrap(True)
        self.table = TableView(say("What is past retention"))
        self.fields = AskedFields(
            {
                "period": Field(say("Period"), line_editor("P5Y")),
                "rule": Field(say("Rule that it follows"), LineEditor()),
                "reason": Field(say("Why it changes"), LineEditor()),
                "passphrase": Field(say("Your passphrase"), secret_editor()),
            }
        )
        self.name_button = dialog_button(say("&Name the period"))
        self.name_button.clicked.connect(self.name_period)
        self.seal_button = dialog_button(say("&Seal…"))
        self.seal_button.clicked.connect(self.seal)
        self._lay_out()

    def look(self) -> None:
        """Find out what is past the period, and show it."""
        office = self._state.office
        held = retention.named_period(office)
        # A reason where a period is changed, a passphrase where people sign in.
        self.fields.ask("reason", held is not None)
        self.fields.ask("passphrase", office.session is not None)
        self.past = None
        if held is None:
            self.told.setText(say("The unit has named no period."))
        else:
            self.fields.set_text("period", held.period)
            self.fields.set_text("rule", held.rule)
            self.past = run_with_progress(
                self, say("Looking for what is past retention"),
                lambda progress: retention.past(office, progress=progress),
            )  # fmt: skip
            self.told.setText(
                retention_words.past_told(self.past) if self.past else say("Not looked through.")
            )
        self.table.setVisible(self.past is not None)
        if self.past is not None:
            self.table.show_table(retention_words.past_table(self.past))
        self.seal_button.setEnabled(bool(self.past and self.past.sealable))

    def name_period(self) -> None:
        """Name the period that stands in the fields, and look anew."""
        try:
            done = self._state.act(self._named)
        except Refused as refused:
            self.fields.show_faults(by_field(refused.faults))
            return
        if done is not None:
            self.fields.show_faults({})
            for name in ("reason", "passphrase"):
                self.fields.set_text(name, "")
            self._state.told.emit(say("The retention period is named."))
            self.look()

    def veiled(self) -> None:
        """The window was locked: nobody is to find the passphrase."""
        self.fields.set_text("passphrase", "")

    def seal(self) -> None:
        """Ask the two who seal, and seal what can be."""
        if self.past is None:
            return
        dialog = SealDialog(self._state, self.past, self)
        dialog.exec()
        done = dialog.sealed
        dialog.deleteLater()
        if done is not None:
            self._state.refresh()
            self._state.told.emit(retention_words.sealed_told(done))
            self.look()

    def _named(self, office: Office) -> Changes:
        session = office.session
        author = session.person if session else self._state.author
        order = Order(author, self.fields.text("reason") or None)
        with ExitStack() as stack:
            if session is not None:
                stack.enter_context(access.signing(office, self.fields.text("passphrase")))
            return retention.name_period(
                office, self.fields.text("period"), self.fields.text("rule"), order
            )

    def _lay_out(self) -> None:
        hint = quiet_words(
            say("Whole months or years, as P18M or P5Y. What the unit keeps for longer than that"
                " can be sealed, unless a standing rests on it.")
        )  # fmt: skip
        buttons = button_row(self, (self.name_button, self.seal_button), say("Close"))
        layout = QVBoxLayout(self)
        layout.addWidget(self.told)
        layout.addWidget(self.table, 1)
        layout.addWidget(hint)
        self.fields.add_to(layout)
        layout.addWidget(buttons)
        line = self._theme.line()
        take_room(self, line * 48, line * 30)
