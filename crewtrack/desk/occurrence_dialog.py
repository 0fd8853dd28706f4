"""A panel in which an occurrence is reported, with or without a name."""

from collections.abc import Mapping, Sequence
from typing import Final

from PySide6.QtWidgets import QCheckBox, QLabel, QWidget

from crewtrack.cells import cell_text
from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.look import hidden_words, quiet_words, take_room
from crewtrack.desk.said_drafts import KeptTexts
from crewtrack.desk.state import State
from crewtrack.facts import OCCURRENCES, SORTIES, Kind, Row
from crewtrack.office import occurrences
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.screens.fact_form import FactDraft
from crewtrack.screens.language import say
from crewtrack.screens.occurrence_table import harmless_told, readers_told

_FIELDS: Final = ("happened", "sortie", "what", "harm", "way", "sea", "reported_by")
_NAMELESS: Final = "anonymous"
_ABOUT: Final = "report"


class OccurrenceDialog(FactDialog):
    """Reports what happened; a sortie fills in what it says of the boat. Where people sign in, a
    report with a name has that of whoever is signed in, else somebody is chosen."""

    def __init__(self, state: State, sortie: str = "", parent: QWidget | None = None) -> None:
        self._identified = state.snapshot.identified
        self.nameless = QCheckBox(say("Report it without a name"))
        preset = {**_of_sortie(state, sortie), **_reporter(state, self._identified)}
        super().__init__(state, OCCURRENCES, None, preset, parent)
        self.setWindowTitle(say("Report an occurrence"))
        self.resumed = hidden_words("warning")
        self._add_words()
        self.kept = KeptTexts(state.drafts, _ABOUT, self._typed, self)
        self._go_on(self.kept.found())
        self.nameless.toggled.connect(self._named)
        self.fields.edited.connect(self.kept.edited)
        self._named()
        self.fields.fields["what" if self._text("happened") else "happened"].editor.setFocus()

    def shown(self, kind: Kind, row: Row | None) -> tuple[str, ...]:
        """What whoever reports can say."""
        return _FIELDS[:-1] if self._identified else _FIELDS

    def found(self) -> dict[str, str]:
        """What is wrong; somebody reports it, or it is without a name."""
        found = super().found()
        if self.nameless.isChecked():
            found.pop("reported_by", None)
        elif not self._identified and not self._text("reported_by"):
            found.setdefault("reported_by", say("this is needed"))
        return found

    def recorded(self, given: Sequence[Entry | Strike], order: Order) -> Changes | None:
        """Report it; the office gives it the next key."""
        (entry,) = given
        assert isinstance(entry, Entry)  # nothing is struck out here
        row = (None, *entry.row[1:])
        return self._state.act(occurrences.report, row, order, self.nameless.isChecked())

    def unsaved(self) -> bool:
        """Whether anything was typed or ticked."""
        return super().unsaved() or self.nameless.isChecked()

    def done(self, result: int) -> None:
        """Saved or given up: nothing is to be kept any more."""
        self.kept.drop()
        super().done(result)

    def _add_words(self) -> None:
        told = QLabel(f"{harmless_told()} {readers_told(self._identified)}")
        told.setWordWrap(True)
        self.column.insertWidget(0, told)
        self.column.insertWidget(1, self.resumed)
        self.nameless.setAccessibleName(self.nameless.text())
        beneath = quiet_words(say("Then neither the report nor the journal says whose it is."))
        self.column.insertWidget(3, self.nameless)
        self.column.insertWidget(4, beneath)
        line = self.fontMetrics().lineSpacing()
        take_room(self, self.width(), self.height() + 6 * line)

    def _named(self) -> None:
        """Without a name, nobody is to be chosen."""
        if "reported_by" in self.fields.fields:
            field = self.fields.fields["reported_by"]
            field.editor.setEnabled(not self.nameless.isChecked())
        self._judge()
        self.kept.edited()

    def _text(self, name: str) -> str:
        return self.fields.draft().text(name)

    def _typed(self) -> Mapping[str, str] | None:
        """What is to be kept: of a report without a name, no name."""
        if not self.unsaved():
            return None
        texts = {name: self._text(name) for name in _FIELDS}
        if self.nameless.isChecked():
            texts.pop("reported_by")
            texts[_NAMELESS] = "yes"
        return texts

    def _go_on(self, kept: Mapping[str, str]) -> None:
        if not kept:
            return
        draft = self.fields.draft()
        texts = {name: kept.get(name, "") for name in _FIELDS}
        self.fields.set_draft(FactDraft(OCCURRENCES, {**draft.texts, **texts}))
        self.nameless.setChecked(_NAMELESS in kept)
        self.resumed.setText(say("You were writing this when the program ended."))
        self.resumed.show()


def _of_sortie(state: State, sortie: str) -> Mapping[str, str]:
    """What a sortie says of when it was and of the boat."""
    row = state.snapshot.rows_of(SORTIES, [(sortie,)]).get((sortie,)) if sortie else None
    if row is None:
        return {}
    told = {name: cell_text(row[SORTIES.index(name)]) for name in ("launched", "way", "sea")}
    return {"sortie": sortie, "happened": told.pop("launched"), **told}


def _reporter(state: State, identified: bool) -> Mapping[str, str]:
    """Whoever works here proposes himself or herself, where on the books."""
    known = state.author in state.snapshot.reckoning.evidence.books
    return {"reported_by": state.author} if known and not identified else {}
