"""The sign-off form: who, what, when; criteria one by one; the evaluator's own standing; and what
it would change, while it is filled in."""

from collections.abc import Mapping
from typing import Any, Final

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtWidgets import QDialog, QLabel, QWidget

from crewtrack.desk import signoff_layout as sides
from crewtrack.desk.asking import sure
from crewtrack.desk.choice_editor import ChoiceEditor, settle_focused
from crewtrack.desk.criteria_marks import CriteriaMarks
from crewtrack.desk.drafts import Drafts
from crewtrack.desk.fields import needed_now
from crewtrack.desk.look import hidden_words, set_property
from crewtrack.desk.state import State
from crewtrack.errors import Refused
from crewtrack.facts import SIGNOFFS, Row
from crewtrack.office import signing
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Order
from crewtrack.office.numbering import next_key
from crewtrack.screens import fact_form, signoff_form, signoff_marks
from crewtrack.screens.fact_form import FactDraft
from crewtrack.screens.language import say
from crewtrack.screens.signoff_advice import SignOffAdvice

DRAFT: Final = "signoff"
"""The name under which a form is kept."""
_MARKS: Final = "marks"
_PREFIX: Final = "E-"
_KEEP_MS: Final = 1000


class SignOffDialog(QDialog):
    """Signs one task off. ``changes`` is what was done, None where nothing was."""

    def __init__(
        self, state: State, person: str, task: str, sortie: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._state = state
        self._known = fact_form.known_of(state.snapshot)
        self._advice = SignOffAdvice(state.snapshot, state.day)
        self._visited: set[str] = set()
        self._busy = False
        self._proposed = ""
        self.changes: Changes | None = None
        self.fields = {name: sides.field(name) for name in signoff_form.FIELDS}
        self.marks = CriteriaMarks()
        self.standing, self.warning, self.effect, self.notices, self.general = (
            hidden_words(tone) for tone in ("quiet", "warning", "quiet", "warning", "fault")
        )
        self.setWindowTitle(say("Sign off a task"))
        said = (self.standing, self.warning, self.notices, self.effect, self.general)
        sides.lay_out(self, self.fields, self.marks, said, self.save)
        self._drafts: Drafts | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._keep)
        started = signoff_form.new_draft(person, task, sortie, self._day_of(sortie))
        self._started = started.with_text("evaluator", self._own_key(person))
        self._fill(self._started)
        for name, field in self.fields.items():
            field.editor.setObjectName(name)
            field.editor.installEventFilter(self)
            field.editor.edited.connect(self._edited)
        self.marks.edited.connect(self._edited)
        self._edited()
        self._start()

    def draft(self) -> FactDraft:
        """What stands in the form; the remarks without the marks."""
        return FactDraft(SIGNOFFS, {name: f.editor.text() for name, f in self.fields.items()})

    def unsaved(self) -> bool:
        """Whether anything was typed or marked."""
        typed = self.draft()
        left = [name for name in signoff_form.FIELDS if name != "sortie"]
        changed = any(typed.text(name) != self._started.text(name) for name in left)
        return changed or any(mark != "not-seen" for mark in self.marks.marks())

    def keep_in(self, drafts: Drafts) -> None:
        """From now on keep what is typed on disk, so that a crash takes none of it."""
        self._drafts = drafts

    def go_on(self, kept: Mapping[str, Any]) -> None:
        """Fill in what was kept."""
        texts = {name: str(kept.get(name, "")) for name in signoff_form.FIELDS}
        self._fill(FactDraft(SIGNOFFS, texts))
        self._edited()
        self.marks.set_marks(signoff_marks.marks_in(self.marks.criteria, str(kept.get(_MARKS, ""))))
        self._edited()

    def veiled(self) -> None:
        """The window was locked: what was typed is kept, whatever comes."""
        self._keep()

    def let_be(self) -> None:
        """Close, though nobody gave up what was typed: it waits as a draft."""
        self._timer.stop()
        QDialog.done(self, QDialog.DialogCode.Rejected)

    def done(self, result: int) -> None:
        """Saved or given up: nothing is to be kept any more."""
        self._timer.stop()
        if self._drafts is not None:
            self._drafts.drop(DRAFT)
        super().done(result)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """A field that was left is judged, also where it is still empty."""
        if event.type() == QEvent.Type.FocusOut:
            self._visited.add(watched.objectName())
            self._edited()
        return super().eventFilter(watched, event)

    def reject(self) -> None:
        """Close without saving; asks where something was typed."""
        if not self.unsaved() or sure(self):
            super().reject()

    def save(self) -> None:
        """Record it; where something is wrong, say what, in its place."""
        settle_focused()
        self._visited.update(self.fields)
        found = self._faults(self.draft())
        self._show(found)
        if found:
            return
        order = Order(self._state.author)
        try:
            self.changes = self._state.act(signing.sign_off, self._row(), order)
        except Refused as refused:
            self._show(fact_form.by_field(refused.faults))
            return
        if self.changes is not None:
            self.accept()

    def _keep(self) -> None:
        if self._drafts is not None and self.unsaved():
            marks = signoff_marks.remarks(self.marks.criteria, self.marks.marks(), "")
            self._drafts.save(DRAFT, {**self.draft().texts, _MARKS: marks})

    def _row(self) -> Row:
        draft = self.draft()
        words = draft.text("remarks")
        told = signoff_marks.remarks(self.marks.criteria, self.marks.marks(), words)
        key = next_key(self._state.snapshot, SIGNOFFS, _PREFIX)
        draft = draft.with_text("signoff", key).with_text("remarks", told)
        return fact_form.row(draft, self._state.zone)

    def _faults(self, draft: FactDraft) -> Mapping[str, str]:
        return signoff_form.faults(draft, self._known, self._state.zone)

    def _show(self, found: Mapping[str, str]) -> None:
        """Say what is wrong, and go to the first field that it is in."""
        self._show_faults(found)
        elsewhere = [told for name, told in found.items() if name not in self.fields]
        _say_in(self.general, "\n".join(elsewhere))
        first = next((name for name in self.fields if name in found), "")
        if first:
            self.fields[first].editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_faults(self, found: Mapping[str, str]) -> None:
        for name, field in self.fields.items():
            field.show_fault(found.get(name, ""))

    def _edited(self) -> None:
        """Follow what was typed: choices, criteria, faults, and what it would mean."""
        if self._busy:
            return
        self._busy = True
        try:
            self._offer(self.draft())
            draft = self.draft()
            asked = signoff_form.criteria(draft, self._state.snapshot.reckoning)
            self.marks.offer(asked, draft.text("task") in self._known.tasks)
            self._show_faults(needed_now(self._faults(draft), tuple(self._visited)))
            self._advise(draft)
        finally:
            self._busy = False
        if self._drafts is not None and not self._timer.isActive():
            self._timer.start(_KEEP_MS)

    def _offer(self, draft: FactDraft) -> None:
        """Offer people, tasks, that day's sorties, evaluators; propose the one sortie."""
        offers = self._advice.choices(draft, self._known)
        for name, choices in offers.items():
            editor = self.fields[name].editor
            assert isinstance(editor, ChoiceEditor)
            editor.offer(choices)
        if draft.text("sortie") in ("", self._proposed):
            self._proposed = self._advice.sortie(draft)
            self.fields["sortie"].editor.set_text(self._proposed)

    def _advise(self, draft: FactDraft) -> None:
        told = self._advice.told(draft, self.marks.marks())
        _say_in(self.standing, told.standing)
        _say_in(self.warning, told.warning)
        _say_in(self.effect, told.effect)
        _say_in(self.notices, "\n".join(told.notices))
        set_property(self.effect, "tone", "fault" if told.ends else "quiet")

    def _fill(self, draft: FactDraft) -> None:
        self._offer(draft)
        for name, field in self.fields.items():
            field.editor.set_text(draft.text(name))

    def _start(self) -> None:
        """Begin at the first field that is still to be filled."""
        draft = self.draft()
        first = next((name for name in ("person", "task") if not draft.text(name)), "")
        if first:
            self.fields[first].editor.setFocus()
        elif self.marks.buttons:
            self.marks.buttons[0].setFocus()

    def _day_of(self, sortie: str) -> Any:
        return self._advice.day_of(sortie) or self._state.day

    def _own_key(self, person: str) -> str:
        """Whoever works here proposes himself or herself as evaluator, where on the books."""
        author = self._state.author
        known = author in self._state.snapshot.reckoning.evidence.books
        return author if known and author != person else ""


def _say_in(label: QLabel, told: str) -> None:
    label.setText(told)
    label.setVisible(bool(told))
