"""Sealing what is past retention: what it does, and the two passphrases that it takes."""

from collections.abc import Mapping
from typing import Final

from PySide6.QtWidgets import QDialog, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.asked_fields import AskedFields, secret_editor
from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.dialog_buttons import button_row, dialog_button
from crewtrack.desk.fields import Field, LineEditor
from crewtrack.desk.progress_dialog import run_with_progress
from crewtrack.desk.state import State
from crewtrack.errors import Fault, Refused
from crewtrack.office import sealing
from crewtrack.office.retention import Past
from crewtrack.office.sealing import Both, Hand, Sealed
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.language import say
from crewtrack.screens.retention_words import sealing_told

_DUTIES: Final = ("officer", "chief")


class SealDialog(QDialog):
    """Seals all that can be. ``sealed`` is what came of it, None as long as nothing was."""

    def __init__(self, state: State, past: Past, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.sealed: Sealed | None = None
        self.setWindowTitle(say("Seal what is past retention"))
        self.told = QLabel("\n\n".join(sealing_told(past)))
        self.told.setWordWrap(True)
        self.fields = AskedFields(
            {
                "reason": Field(say("Reason"), LineEditor()),
                "officer person": Field(say("Officer"), ChoiceEditor()),
                "officer passphrase": Field(say("The officer's passphrase"), secret_editor()),
                "chief person": Field(say("Chief"), ChoiceEditor()),
                "chief passphrase": Field(say("The chief's passphrase"), secret_editor()),
            }
        )
        self.seal_button = dialog_button(say("&Seal for good"))
        self.seal_button.clicked.connect(self.seal)
        self._offer()
        self._lay_out()

    def seal(self) -> None:
        """Seal, or say what is wrong; the passphrases are let go of either way."""
        office, reason, both = self._state.office, self.fields.text("reason"), self._both()
        try:
            self.sealed = run_with_progress(
                self, say("Sealing"),
                lambda progress: sealing.seal(office, None, reason, both, progress),
            )  # fmt: skip
        except Refused as refused:
            self.fields.show_faults(_by_field(refused.faults))
            return
        finally:
            self.veiled()
        if self.sealed is not None:
            self.accept()

    def veiled(self) -> None:
        """Let go of the passphrases; nobody is to find them when the window was locked."""
        for duty in _DUTIES:
            self.fields.set_text(f"{duty} passphrase", "")

    def _offer(self) -> None:
        """Those who can sign; whoever is signed in first."""
        session = self._state.office.session
        for duty in _DUTIES:
            able = sealing.able_to_seal(self._state.office, duty)
            editor = self.fields.by_name[f"{duty} person"].editor
            if isinstance(editor, ChoiceEditor):
                editor.offer(able)
            if session is not None and session.person in able:
                editor.set_text(session.person)
            elif len(able) == 1:
                editor.set_text(next(iter(able)))

    def _both(self) -> Both:
        officer, chief = (
            Hand(self.fields.text(f"{duty} person"), self.fields.text(f"{duty} passphrase"))
            for duty in _DUTIES
        )
        return Both(officer, chief)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.addWidget(self.told)
        self.fields.add_to(layout)
        layout.addStretch()
        layout.addWidget(button_row(self, (self.seal_button,), say("Cancel")))
        self.setMinimumWidth(72 * self.fontMetrics().averageCharWidth())


def _by_field(faults: tuple[Fault, ...]) -> Mapping[str, str]:
    """The first fault of each field; those of one of the two by duty and field."""
    found: dict[str, str] = {}
    for fault in faults:
        place = fault.place if fault.place in _DUTIES else ""
        field = "person" if place and fault.field == "author" else fault.field
        found.setdefault(f"{place} {field}".strip(), sentence(fault.problem, fault.cure))
    return found
