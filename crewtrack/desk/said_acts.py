"""What any page can do: report an occurrence, dispute an entry, answer either."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QWidget

from crewtrack.desk.occurrence_dialog import OccurrenceDialog
from crewtrack.desk.said_dialogs import AnswerDialog, DisputeDialog
from crewtrack.desk.said_drafts import NAME
from crewtrack.desk.state import State
from crewtrack.errors import Refused
from crewtrack.facts import DISPUTES, Kind
from crewtrack.office.disputes import Disputed
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.language import say

Panel = OccurrenceDialog | DisputeDialog | AnswerDialog


class SaidActs(QObject):
    """``done``: what was done, in a sentence."""

    done = Signal(str)

    def __init__(self, state: State, parent: QWidget) -> None:
        super().__init__(parent)
        self._state = state
        self._parent = parent
        self.panel: Panel | None = None

    def waiting(self) -> str:
        """What was being written when the program ended, in a sentence; empty for nothing."""
        if self._state.drafts.load(NAME) is None:
            return ""
        return say("A report, dispute or answer was being written when the program ended; open it"
                   " again to go on with it.")  # fmt: skip

    def report(self, sortie: str = "") -> None:
        """Report an occurrence, with a sortie filled in."""
        if self._state.may_change():
            panel = OccurrenceDialog(self._state, sortie, self._parent)
            self._open(panel, say("The occurrence is reported."))

    def dispute(self, entries: Sequence[Disputed]) -> None:
        """Dispute one of some entries."""
        if not entries:
            self._state.told.emit(say("Choose first what you dispute."))
        elif self._state.may_change():
            panel = DisputeDialog(self._state, entries, self._parent)
            self._open(panel, say("The entry is marked as disputed until an officer answers."))

    def answer(self, kind: Kind, key: str) -> None:
        """Answer what has a key, unless it is answered already."""
        if not self._state.may_change():
            return
        try:
            row = self._state.snapshot.by_key(kind).get((key,))
        except Refused as refused:
            fault = refused.faults[0]
            self._state.told.emit(sentence(fault.problem, fault.cure))
            return
        if row is None:
            return
        if row[kind.index("answered")] is not None:
            self._state.told.emit(say("It is answered already."))
            return
        told = say("The dispute is answered.") if kind is DISPUTES else say(
            "The occurrence is answered.")  # fmt: skip
        self._open(AnswerDialog(self._state, kind, row, self._parent), told)

    def unsaved(self) -> str:
        """What would be lost if the window closed now, in words; empty for nothing."""
        if self.panel is None or not self.panel.unsaved():
            return ""
        return say("A report, dispute or answer that you are typing is not saved.")

    def _open(self, panel: Panel, told: str) -> None:
        self.panel = panel
        panel.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        panel.finished.connect(lambda _: self._closed(panel, told))
        panel.open()

    def _closed(self, panel: Panel, told: str) -> None:
        self.panel = None
        if panel.changes is not None:
            self._state.told.emit(told)
            self.done.emit(told)
