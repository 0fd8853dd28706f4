"""What the People page does to the record: each opens a panel, and says afterwards what changed."""

from typing import Protocol

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QDialog, QWidget

from crewtrack.desk.certify_dialog import CertifyDialog
from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.reason_dialog import ReasonDialog, StrikeDialog, WithdrawDialog
from crewtrack.desk.signoff_dialog import DRAFT, SignOffDialog
from crewtrack.desk.state import State
from crewtrack.facts import PEOPLE, SIGNOFFS, Kind, Row
from crewtrack.office.changes import Changes
from crewtrack.screens.language import say
from crewtrack.screens.signoff_lines import SignOffLine
from crewtrack.screens.standing_changes import changed


class Panel(Protocol):
    """A panel that may have changed the record."""

    changes: Changes | None


class PersonActs(QObject):
    """``done``: what an act changed, in sentences, and the key of a person to show (may be
    empty)."""

    done = Signal(str, str)

    def __init__(self, state: State, parent: QWidget) -> None:
        super().__init__(parent)
        self._state = state
        self._parent = parent
        self.panel: QDialog | None = None
        self._waiting: tuple[str, str, str] | None = None
        state.moved.connect(self._moved)
        self.drafts = state.drafts

    def sign_off(self, person: str, task: str, sortie: str) -> None:
        """Open the sign-off form; for a sortie just logged, once that has been read."""
        if not self._state.may_change():
            return
        if sortie and sortie not in self._state.snapshot.reckoning.evidence.sorties.key:
            self._waiting = (person, task, sortie)
        else:
            panel = SignOffDialog(self._state, person, task, sortie, self._parent)
            panel.keep_in(self.drafts)
            self._open(panel)

    def _moved(self) -> None:
        if self._waiting is not None:
            (person, task, sortie), self._waiting = self._waiting, None
            read = sortie in self._state.snapshot.reckoning.evidence.sorties.key
            self.sign_off(person, task, sortie if read else "")

    def kept(self) -> bool:
        """Whether a sign-off was being filled in when the program ended."""
        return self.panel is None and self.drafts.load(DRAFT) is not None

    def go_on(self) -> None:
        """Open the sign-off form with what was kept."""
        kept = self.drafts.load(DRAFT)
        if kept is None:
            self._state.told.emit(say("No sign-off is left unfinished."))
        elif self._state.may_change():
            panel = SignOffDialog(self._state, "", "", "", self._parent)
            panel.go_on(kept)
            panel.keep_in(self.drafts)
            self._open(panel)

    def withdraw(self, row: Row) -> None:
        """Withdraw a sign-off, unless it is withdrawn already."""
        if row[SIGNOFFS.index("withdrawn")] is not None:
            self._state.told.emit(say("It is withdrawn already; correct it where that is wrong."))
        elif self._state.may_change():
            self._open(WithdrawDialog(self._state, row, self._parent))

    def certify(self, line: SignOffLine | None) -> None:
        """Put the second signature to a sign-off that waits for it."""
        if line is None or not line.waits or line.withdrawn:
            self._state.told.emit(say("No sign-off waits for certification here."))
        elif self._state.may_change():
            self._open(CertifyDialog(self._state, line.row, self._parent))

    def add(self, kind: Kind, person: str) -> None:
        """Add a fact, of a person where it is one's, and by whoever is signed in."""
        if self._state.may_change():
            of_one = "person" in kind.names and kind is not PEOPLE
            preset = {"person": person} if of_one else {}
            if "by" in kind.names and self._state.office.session is not None:
                preset["by"] = self._state.author
            self._open(FactDialog(self._state, kind, None, preset, self._parent))

    def correct(self, kind: Kind, row: Row) -> None:
        """Correct a fact."""
        if self._state.may_change():
            self._open(FactDialog(self._state, kind, row, {}, self._parent))

    def correct_person(self, person: str) -> None:
        """Correct what is recorded of a person."""
        row = self._state.snapshot.by_key(PEOPLE).get((person,))
        if row is not None:
            self.correct(PEOPLE, row)

    def strike(self, kind: Kind, row: Row) -> None:
        """Strike a fact out."""
        if self._state.may_change():
            self._open(StrikeDialog(self._state, kind, row, self._parent))

    def _open(self, panel: FactDialog | SignOffDialog | ReasonDialog) -> None:
        self.panel = panel
        panel.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        panel.finished.connect(lambda _: self._closed(panel))
        panel.open()

    def _closed(self, panel: Panel) -> None:
        self.panel = None
        if panel.changes is None:
            return
        told = "\n".join(changed(panel.changes))
        self._state.told.emit(told.replace("\n", "; "))
        touched = panel.changes.touched
        self.done.emit(told, touched[0] if len(touched) == 1 else "")
