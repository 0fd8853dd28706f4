"""A panel in which one fact is added, corrected or struck out."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk.asking import sure
from crewtrack.desk.choice_editor import settle_focused
from crewtrack.desk.fields import FactFields, Field, LinesEditor, needed_now
from crewtrack.desk.look import hidden_words, take_room
from crewtrack.desk.state import State
from crewtrack.errors import Refused
from crewtrack.facts import Kind, Row
from crewtrack.office import recording
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.numbering import next_key
from crewtrack.screens import fact_form, fields
from crewtrack.screens.fact_form import FactDraft
from crewtrack.screens.language import say
from crewtrack.screens.revision_lines import revision_lines

_PREFIXES: Final = {
    "people": "K-",
    "vessels": "B-",
    "aircraft": "A-",
    "sorties": "S-",
    "signoffs": "O-",
    "certificates": "C-",
    "waivers": "W-",
    "standdowns": "D-",
    "occurrences": "R-",
}
"""What a record's first key of a kind begins with."""


class FactDialog(QDialog):
    """Adds a fact (``row`` None; ``preset`` fills some of its fields) or corrects one, which asks
    for a reason and shows what stood before. ``changes`` is what was done, None where nothing
    was."""

    def __init__(
        self,
        state: State,
        kind: Kind,
        row: Row | None,
        preset: Mapping[str, str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._state = state
        self._kind = kind
        self._row = row
        self._visited: set[str] = set()
        self._asked = False
        self.changes: Changes | None = None
        known = fact_form.known_of(state.snapshot)
        self.fields = FactFields(kind, self.shown(kind, row), known)
        self._known = known
        revisions = () if row is None else state.snapshot.revisions(kind, _key(kind, row))
        self._seen = revisions[-1].number if revisions else None
        self._started = (
            FactDraft(kind, {**_own_key(state, kind), **preset})
            if row is None
            else fact_form.draft_of(kind, row)
        )
        self.fields.set_draft(self._started)
        self.reason = Field(say("Reason for the change"), LinesEditor())
        self.note, self._general = hidden_words("warning"), hidden_words("fault")
        self._past = QPlainTextEdit("\n".join(revision_lines(kind, revisions, state.zone)))
        self._lay_out()
        self.fields.edited.connect(self._judge)
        for name, field in self.fields.fields.items():
            field.editor.installEventFilter(self)
            field.editor.setObjectName(name)
        self._judge()
        self._start()

    def eventFilter(self, watched: Any, event: Any) -> bool:  # noqa: N802 - Qt's name
        """A field that was left is judged, also where it is still empty."""
        if event.type() == event.Type.FocusOut:
            self._visited.add(watched.objectName())
            self._judge()
        return super().eventFilter(watched, event)

    def _start(self) -> None:
        """Begin at the first field that is still to be filled, else at the first of all."""
        every = self.fields.fields
        empty = [name for name, field in every.items() if not field.editor.text()]
        first = empty[0] if empty and self._row is None else next(iter(every))
        every[first].editor.setFocus()

    def shown(self, kind: Kind, row: Row | None) -> tuple[str, ...]:
        """The fields to show: of a correction, those that may change; a fact keeps its key."""
        return tuple(name for name in kind.names if row is None or name not in kind.key)

    def found(self) -> dict[str, str]:
        """What is wrong, by field."""
        return dict(fact_form.faults(self.fields.draft(), self._known, self._state.zone))

    def recorded(self, given: Sequence[Entry | Strike], order: Order) -> Changes | None:
        """Put it into the record."""
        return self._state.act(recording.record, given, order)

    def unsaved(self) -> bool:
        """Whether anything was typed."""
        draft = self.fields.draft()
        return any(draft.text(n) != self._started.text(n) for n in self.fields.fields)

    def reject(self) -> None:
        """Close without saving; asks where something was typed."""
        if not self.unsaved() or sure(self):
            super().reject()

    def save(self) -> None:
        """Record it; where something is wrong, say what, in its place."""
        settle_focused()
        self._asked = True
        draft = self.fields.draft()
        found = self.found()
        reason = self.reason.editor.text().strip()
        unexplained = self._seen is not None and not reason
        self.reason.show_fault(say("this is needed") if unexplained else "")
        self.fields.show_faults(found)
        if found or unexplained:
            self.fields.focus_first(found)
            if not found:
                self.reason.editor.setFocus()
            return
        entry = Entry(self._kind, fact_form.row(draft, self._state.zone), self._seen)
        self._record([entry], reason, "record" if self._seen is None else "correct")

    def strike(self) -> None:
        """Strike the fact out, with a reason."""
        if self._row is None or self._seen is None:
            return
        reason = self.reason.editor.text().strip()
        self.reason.show_fault("" if reason else say("say why it is struck out"))
        if not reason:
            self.reason.editor.setFocus()
            return
        self._record(
            [Strike(self._kind, _key(self._kind, self._row), self._seen)], reason, "strike"
        )

    def _record(self, given: Sequence[Entry | Strike], reason: str, act_kind: str) -> None:
        order = Order(self._state.author, reason or None, act_kind)
        try:
            changes = self.recorded(given, order)
        except Refused as refused:
            found = fact_form.by_field(refused.faults)
            self.fields.show_faults(found)
            self.fields.focus_first(found)
            elsewhere = [told for name, told in found.items() if name not in self.fields.fields]
            self._tell("\n".join(elsewhere))
            return
        if changes is not None:
            self.changes = changes
            self.accept()

    def _judge(self) -> None:
        found = self.found()
        visited = tuple(self.fields.fields) if self._asked else tuple(self._visited)
        self.fields.show_faults(needed_now(found, visited))
        told = fact_form.notes(self.fields.draft(), self._known)
        self.note.setText(told)
        self.note.setVisible(bool(told))

    def _tell(self, told: str) -> None:
        self._general.setText(told)
        self._general.setVisible(bool(told))

    def _lay_out(self) -> None:
        one = fields.one_told(self._kind.name)
        adding = self._seen is None
        title = say("Add: {what}", what=one) if adding else say("Correct: {what}", what=one)
        self.setWindowTitle(title)
        inside = QWidget()
        column = self.column = QVBoxLayout(inside)
        column.addWidget(self.fields)
        column.addWidget(self.note)
        if not adding:
            column.addWidget(self.reason.label)
            column.addWidget(self.reason.editor)
            column.addWidget(self.reason.fault)
            column.addWidget(QLabel(say("What stood before, the newest first")))
            self._past.setReadOnly(True)
            self._past.setTabChangesFocus(True)
            self._past.setAccessibleName(say("What stood before"))
            column.addWidget(self._past)
        column.addStretch()
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(inside)
        layout = QVBoxLayout(self)
        layout.addWidget(scroll)
        layout.addWidget(self._general)
        save = QPushButton(say("Save"))
        layout.addWidget(self._buttons(save, adding))
        save.setDefault(True)  # only in the dialog: else Enter goes to the button Tab saw last
        wide = self.fontMetrics().averageCharWidth()
        bar = scroll.verticalScrollBar().sizeHint().width()
        scroll.setMinimumWidth(inside.minimumSizeHint().width() + bar)
        high = inside.sizeHint().height() + 8 * self.fontMetrics().lineSpacing()
        take_room(self, 72 * wide, high)

    def _buttons(self, save: QPushButton, adding: bool) -> QDialogButtonBox:
        box = QDialogButtonBox()
        _add(box, save, QDialogButtonBox.ButtonRole.AcceptRole, self.save)
        if not adding:
            role = QDialogButtonBox.ButtonRole.DestructiveRole
            _add(box, QPushButton(say("Strike out")), role, self.strike)
        cancel = QPushButton(say("Cancel"))
        _add(box, cancel, QDialogButtonBox.ButtonRole.RejectRole, self.reject)
        return box


def _add(
    box: QDialogButtonBox,
    button: QPushButton,
    role: QDialogButtonBox.ButtonRole,
    slot: Callable[[], None],
) -> None:
    button.setAccessibleName(button.text())
    button.clicked.connect(lambda: slot())
    box.addButton(button, role)


def _own_key(state: State, kind: Kind) -> Mapping[str, str]:
    """A proposal for a new fact's own key; it can be changed."""
    if len(kind.key) > 1:
        return {}
    return {kind.key[0]: next_key(state.snapshot, kind, _PREFIXES[kind.name])}


def _key(kind: Kind, row: Row) -> tuple[Any, ...]:
    return tuple(row[kind.index(name)] for name in kind.key)
