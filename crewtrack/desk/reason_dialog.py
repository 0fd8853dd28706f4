"""Panels that ask why before something is taken back: striking a fact out, withdrawing a
sign-off."""

from collections.abc import Callable, Mapping
from datetime import date

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from crewtrack.bad_cell import BadCell
from crewtrack.checks import row_faults
from crewtrack.desk.asked_fields import show_faults
from crewtrack.desk.asking import sure
from crewtrack.desk.fields import Field, LineEditor, LinesEditor
from crewtrack.desk.look import hidden_words
from crewtrack.desk.state import State
from crewtrack.errors import Refused
from crewtrack.facts import SIGNOFFS, Kind, Row
from crewtrack.moments import read_day
from crewtrack.office import recording, signing
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Order, Strike
from crewtrack.office.signing import Withdrawal
from crewtrack.screens import fact_form, fields, signoff_effect
from crewtrack.screens.fact_words import fact_lines
from crewtrack.screens.language import say


class ReasonDialog(QDialog):
    """A sentence on what is meant, some fields, one button that does it. ``changes`` is what was
    done, None where nothing was."""

    def __init__(self, state: State, title: str, confirm: str, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.state = state
        self.changes: Changes | None = None
        self.setWindowTitle(title)
        self.about = QLabel()
        self.about.setWordWrap(True)
        self.effect, self.general = hidden_words("warning"), hidden_words("fault")
        self.fields: dict[str, Field] = {}
        self._grid = QGridLayout()
        self._grid.setColumnStretch(1, 1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.about)
        layout.addLayout(self._grid)
        for label in (self.effect, self.general):
            layout.addWidget(label)
        layout.addStretch()
        does = _button(confirm, self.confirm)
        layout.addWidget(self._buttons(does))
        does.setDefault(True)  # only in the dialog: else Enter goes to the button Tab saw last
        self.setMinimumWidth(64 * self.fontMetrics().averageCharWidth())

    def add_field(self, name: str, field: Field) -> None:
        """Ask for something more."""
        field.add_to(self._grid, 2 * len(self.fields))
        self.fields[name] = field

    def text(self, name: str) -> str:
        """What was typed."""
        return self.fields[name].editor.text().strip()

    def day(self, name: str) -> date | BadCell:
        """What was typed, as a day; what is wrong with it where it is none."""
        try:
            return read_day(self.text(name))
        except BadCell as bad:
            return bad

    def faults(self) -> Mapping[str, str]:
        """What is wrong, by field."""
        raise NotImplementedError

    def act(self) -> Changes | None:
        """Do it. ``Refused`` is shown by field."""
        raise NotImplementedError

    def reject(self) -> None:
        """Close and do nothing; asks where a reason was typed."""
        typed = any(self.text(name) for name, field in self.fields.items() if _of_lines(field))
        if not typed or sure(self):
            super().reject()

    def confirm(self) -> None:
        """Do it, or say what is wrong."""
        found = self.faults()
        self._show(found)
        if found:
            return
        try:
            self.changes = self.act()
        except Refused as refused:
            self._show(fact_form.by_field(refused.faults))
            return
        if self.changes is not None:
            self.accept()

    def _show(self, found: Mapping[str, str]) -> None:
        show_faults(self.fields, self.general, found)

    def _buttons(self, does: QPushButton) -> QDialogButtonBox:
        box = QDialogButtonBox()
        box.addButton(does, QDialogButtonBox.ButtonRole.AcceptRole)
        cancel = _button(say("Cancel"), self.reject)
        box.addButton(cancel, QDialogButtonBox.ButtonRole.RejectRole)
        return box


class StrikeDialog(ReasonDialog):
    """Strikes one fact out of the record; its revisions stay in the journal."""

    def __init__(self, state: State, kind: Kind, row: Row, parent: QWidget | None = None) -> None:
        one = fields.one_told(kind.name)
        super().__init__(state, say("Strike out: {what}", what=one), say("Strike out"), parent)
        self._kind = kind
        self._key = tuple(row[kind.index(name)] for name in kind.key)
        self._seen = state.snapshot.revisions(kind, self._key)[-1].number
        told = say("It counts for nothing any more, as if it had never been entered.")
        self.about.setText(_told(state, kind, row, told))
        self.add_field("reason", Field(say("Reason"), LinesEditor()))
        self.fields["reason"].editor.setFocus()

    def faults(self) -> Mapping[str, str]:
        """A reason is needed."""
        return {} if self.text("reason") else {"reason": say("say why it is struck out")}

    def act(self) -> Changes | None:
        """Strike it out."""
        order = Order(self.state.author, self.text("reason"), "strike")
        strike = Strike(self._kind, self._key, self._seen)
        return self.state.act(recording.record, [strike], order)


class WithdrawDialog(ReasonDialog):
    """Withdraws a sign-off from a day on; it counts on the days before."""

    def __init__(self, state: State, row: Row, parent: QWidget | None = None) -> None:
        super().__init__(state, say("Withdraw a sign-off"), say("Withdraw"), parent)
        self._row = row
        self._seen = state.snapshot.revisions(SIGNOFFS, (row[0],))[-1].number
        told = say("It goes on counting on the days before, and stays in the record.")
        self.about.setText(_told(state, SIGNOFFS, row, told))
        for name, editor in (
            ("withdrawn", LineEditor()),
            ("withdrawn_by", LineEditor()),
            ("withdrawn_reason", LinesEditor()),
        ):
            self.add_field(name, Field(fields.label(SIGNOFFS, name), editor))
        signed = row[SIGNOFFS.index("date")]
        first = max(state.day, signed) if isinstance(signed, date) else state.day
        self.fields["withdrawn"].editor.set_text(str(first))
        self.fields["withdrawn_by"].editor.set_text(state.author)
        self.fields["withdrawn"].editor.edited.connect(self._tell)
        self._tell()
        self.fields["withdrawn_reason"].editor.setFocus()

    def faults(self) -> Mapping[str, str]:
        """A day on or after the sign-off's, who, and why."""
        day = self.day("withdrawn")
        needed = {
            "withdrawn_by": say("say who withdraws it"),
            "withdrawn_reason": say("say why it no longer counts"),
        }
        found = {name: told for name, told in needed.items() if not self.text(name)}
        if self._wrong(day):
            found["withdrawn"] = self._wrong(day)
        return found

    def act(self) -> Changes | None:
        """Withdraw it."""
        day = self.day("withdrawn")
        assert isinstance(day, date)  # judged before
        by, reason = self.text("withdrawn_by"), self.text("withdrawn_reason")
        withdrawal = Withdrawal(str(self._row[0]), self._seen, day, by, reason)
        return self.state.act(signing.withdraw, withdrawal, Order(self.state.author))

    def _wrong(self, day: date | BadCell) -> str:
        """What is wrong with the day; empty for nothing."""
        if isinstance(day, BadCell):
            return fact_form.sentence(day.problem, day.cure)
        place = SIGNOFFS.index("withdrawn")
        row = (*self._row[:place], day, *self._row[place + 1 :])
        found = {name: fact_form.sentence(p, c) for name, p, c in row_faults(SIGNOFFS, row)}
        return found.get("withdrawn", "")

    def _tell(self) -> None:
        """Say what is wrong with the day, or what it would end."""
        day = self.day("withdrawn")
        wrong = self._wrong(day)
        self.fields["withdrawn"].show_fault(wrong)
        self.effect.setVisible(not wrong)
        if isinstance(day, date) and not wrong:
            person = str(self._row[SIGNOFFS.index("person")])
            reckoning = self.state.snapshot.reckoning
            found = signoff_effect.withdrawal_effects(reckoning, person, str(self._row[0]), day)
            self.effect.setText(signoff_effect.told(found))


def _of_lines(field: Field) -> bool:
    return isinstance(field.editor, LinesEditor)


def _told(state: State, kind: Kind, row: Row, meaning: str) -> str:
    """The fact, and what it means to take it back."""
    lines = fact_lines(kind, row, fact_form.known_of(state.snapshot))
    return "\n".join((*lines, "", meaning))


def _button(told: str, slot: Callable[[], object]) -> QPushButton:
    button = QPushButton(told)
    button.setAccessibleName(told)
    button.clicked.connect(lambda: slot())
    return button
