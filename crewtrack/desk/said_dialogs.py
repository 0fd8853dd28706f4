"""Panels in which an entry is disputed, and in which an officer answers."""

from collections.abc import Mapping, Sequence
from typing import Final

from PySide6.QtWidgets import QPlainTextEdit, QVBoxLayout, QWidget

from crewtrack.desk.choice_editor import ChoiceEditor, settle_focused
from crewtrack.desk.fields import Field, LinesEditor
from crewtrack.desk.look import hidden_words
from crewtrack.desk.reason_dialog import ReasonDialog
from crewtrack.desk.said_drafts import KeptTexts
from crewtrack.desk.state import State
from crewtrack.facts import DISPUTES, OCCURRENCES, OUTCOMES, RECORDED, Kind, Row
from crewtrack.office import disputes, occurrences
from crewtrack.office.answering import Answer
from crewtrack.office.changes import Changes
from crewtrack.office.disputes import Disputed, Objection, dispute_of
from crewtrack.office.entries import Order
from crewtrack.office.fact_text import fact_text
from crewtrack.screens import dispute_words, fact_form, fields
from crewtrack.screens.fact_words import fact_lines
from crewtrack.screens.language import say

_KINDS: Final[Mapping[str, Kind]] = {kind.name: kind for kind in RECORDED}
_LINES: Final = 7


class SaidDialog(ReasonDialog):
    """What it is about in words that can be read and copied, then what is to be filled in; all
    that is typed is kept on disk. ``person_field`` asks who, where nobody is identified."""

    def __init__(
        self, state: State, title: str, confirm: str, about: str, parent: QWidget | None
    ) -> None:
        super().__init__(state, title, confirm, parent)
        self.told = QPlainTextEdit()
        self.told.setReadOnly(True)
        self.told.setTabChangesFocus(True)
        self.told.setAccessibleName(say("What it is about"))
        self.told.setFixedHeight(_LINES * self.fontMetrics().lineSpacing())
        self.resumed = hidden_words("warning")
        layout = self.layout()
        assert isinstance(layout, QVBoxLayout)  # as it was made
        layout.insertWidget(0, self.told)
        layout.insertWidget(1, self.resumed)
        self.kept = KeptTexts(state.drafts, about, self._typed, self)

    def ask_person(self, name: str, label: str) -> None:
        """Ask who this is, where the record does not know; whoever works here is proposed."""
        if not self.state.snapshot.identified:
            editor = ChoiceEditor()
            people = fact_form.known_of(self.state.snapshot).names["people"]
            editor.offer(people)
            self.add_field(name, Field(label, editor))
            editor.set_text(self.state.author if self.state.author in people else "")

    def person(self, name: str) -> str:
        """Who this is."""
        return self.text(name) if name in self.fields else self.state.author

    def start(self, first: str) -> None:
        """Fill in what was kept, and begin at a field."""
        kept = self.kept.found()
        for name, field in self.fields.items():
            if name in kept:
                field.editor.set_text(kept[name])
            field.editor.edited.connect(self.kept.edited)
        self.resumed.setText(say("You were writing this when the program ended."))
        self.resumed.setVisible(bool(kept))
        self.fields[first].editor.setFocus()

    def unsaved(self) -> bool:
        """Whether anything was written."""
        return self._typed() is not None

    def confirm(self) -> None:
        """Do it, or say what is wrong; a choice that is still being typed is taken."""
        settle_focused()
        super().confirm()

    def faults(self) -> Mapping[str, str]:
        """All fields are needed."""
        return {name: say("this is needed") for name in self.fields if not self.text(name)}

    def done(self, result: int) -> None:
        """Saved or given up: nothing is to be kept any more."""
        self.kept.drop()
        super().done(result)

    def _typed(self) -> Mapping[str, str] | None:
        texts = {name: self.text(name) for name in self.fields}
        lines = (n for n, field in self.fields.items() if isinstance(field.editor, LinesEditor))
        return texts if any(texts[name] for name in lines) else None


class DisputeDialog(SaidDialog):
    """Disputes one of some entries: a sortie, and what was performed on it."""

    def __init__(
        self, state: State, entries: Sequence[Disputed], parent: QWidget | None = None
    ) -> None:
        self._entries = {f"{kind} {fact_text(key)}": (kind, key) for kind, key in entries}
        first = next(iter(self._entries))
        super().__init__(state, say("Dispute an entry"), say("Dispute"), f"dispute {first}", parent)
        meaning = say("It counts as it stands until an officer answers, and is marked as disputed.")
        self.about.setText(meaning)
        if len(entries) > 1:
            editor = ChoiceEditor()
            told = {name: _entry_told(one) for name, one in self._entries.items()}
            editor.offer(told, keys_told=False)
            self.add_field("entry", Field(say("Entry"), editor))
            editor.set_text(first)
            editor.edited.connect(self._tell)
        self.ask_person("by", fields.label(DISPUTES, "by"))
        self.add_field("words", Field(fields.label(DISPUTES, "words"), LinesEditor()))
        self.start("words")
        self._tell()

    def faults(self) -> Mapping[str, str]:
        """An entry, who, and what is wrong with it."""
        found = dict(super().faults())
        if "entry" in self.fields and self.text("entry") not in self._entries:
            found["entry"] = say("choose one from the list")
        return found

    def act(self) -> Changes | None:
        """Dispute it."""
        kind, key = self._chosen()
        by = self.person("by")
        objection = Objection(_KINDS[kind], key, self.text("words"), by)
        return self.state.act(disputes.raise_dispute, objection, Order(self.state.author))

    def _chosen(self) -> Disputed:
        first = next(iter(self._entries))
        chosen = self.text("entry") if "entry" in self.fields else first
        return self._entries.get(chosen, self._entries[first])

    def _tell(self) -> None:
        name, key = self._chosen()
        kind, snapshot = _KINDS[name], self.state.snapshot
        row = snapshot.rows_of(kind, [key]).get(key)
        known = fact_form.known_of(snapshot)
        lines = fact_lines(kind, row, known) if row else ()
        open_now = disputes.open_disputes(snapshot).get((name, key), ())
        told = dispute_words.strip_told(open_now)
        self.told.setPlainText("\n".join((_entry_told((name, key)), *lines, told)).strip())


class AnswerDialog(SaidDialog):
    """Answers an occurrence or a dispute; ``row`` as it stands."""

    def __init__(self, state: State, kind: Kind, row: Row, parent: QWidget | None = None) -> None:
        title = say("Answer: {what}", what=fields.one_told(kind.name))
        about = f"answer {kind.name} {row[0]}"
        super().__init__(state, title, say("Answer"), about, parent)
        self._kind = kind
        self._key = str(row[0])
        self._seen = state.snapshot.revisions(kind, (row[0],))[-1].number
        self.told.setPlainText(_said(state, kind, row))
        self.about.setText(_meaning(kind))
        if kind is DISPUTES:
            editor = ChoiceEditor()
            editor.offer({one: fields.choice_told(one) for one in OUTCOMES}, keys_told=False)
            self.add_field("outcome", Field(fields.label(kind, "outcome"), editor))
        self.ask_person("answered_by", fields.label(kind, "answered_by"))
        self.add_field("answer", Field(fields.label(kind, "answer"), LinesEditor()))
        self.start(next(iter(self.fields)) if kind is DISPUTES else "answer")

    def faults(self) -> Mapping[str, str]:
        """All that is asked for, and an outcome that there is."""
        found = dict(super().faults())
        if "outcome" in self.fields and self.text("outcome") not in OUTCOMES:
            found["outcome"] = say("choose one from the list")
        return found

    def act(self) -> Changes | None:
        """Put the answer on the record."""
        outcome = self.text("outcome") if "outcome" in self.fields else None
        by = self.person("answered_by")
        given = Answer(self._key, self._seen, self.text("answer"), by, outcome)
        answering = disputes.answer if self._kind is DISPUTES else occurrences.answer
        return self.state.act(answering, given, Order(self.state.author))


def _entry_told(entry: Disputed) -> str:
    return dispute_words.entry_told(_KINDS[entry[0]], entry[1])


def _meaning(kind: Kind) -> str:
    if kind is OCCURRENCES:
        return say("The answer is read by those who may read the report.")
    return say(
        "Correct the entry first where it is wrong, then answer that it is corrected; or refuse"
        " with a reason. Everybody reads the answer."
    )


def _said(state: State, kind: Kind, row: Row) -> str:
    """What was reported; or what was disputed, with the entry as it stands now."""
    known = fact_form.known_of(state.snapshot)
    dispute = dispute_of(row) if kind is DISPUTES else None
    if dispute is None:
        return "\n".join(fact_lines(kind, row, known))
    entry = state.snapshot.rows_of(dispute.kind, [dispute.fact]).get(dispute.fact)
    lines = fact_lines(dispute.kind, entry, known) if entry else (say("struck out meanwhile"),)
    return "\n".join((dispute_words.strip_told([dispute]), "", *lines))
