"""A panel in which a sign-off gets its second signature."""

from collections.abc import Mapping
from datetime import date

from PySide6.QtWidgets import QWidget

from crewtrack.bad_cell import BadCell
from crewtrack.desk.fields import Field, LineEditor, LinesEditor
from crewtrack.desk.reason_dialog import ReasonDialog
from crewtrack.desk.state import State
from crewtrack.facts import CERTIFICATIONS, SIGNOFFS, Row
from crewtrack.office import signing
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Order
from crewtrack.office.signing import Certification
from crewtrack.screens import fact_form, fields
from crewtrack.screens.fact_words import fact_lines
from crewtrack.screens.language import say


class CertifyDialog(ReasonDialog):
    """Certifies a sign-off, in the name of whoever acts."""

    def __init__(self, state: State, row: Row, parent: QWidget | None = None) -> None:
        super().__init__(state, say("Certify a sign-off"), say("Certify"), parent)
        self._key = str(row[0])
        told = say("It counts from the day on which it is certified, as if it always had.")
        lines = fact_lines(SIGNOFFS, row, fact_form.known_of(state.snapshot))
        self.about.setText("\n".join((*lines, "", told)))
        for name, editor in (("date", LineEditor()), ("remarks", LinesEditor())):
            self.add_field(name, Field(fields.label(CERTIFICATIONS, name), editor))
        self.fields["date"].editor.set_text(str(state.today))
        self.fields["remarks"].editor.setFocus()

    def faults(self) -> Mapping[str, str]:
        """A day."""
        day = self.day("date")
        if isinstance(day, BadCell):
            return {"date": fact_form.sentence(day.problem, day.cure)}
        return {}

    def act(self) -> Changes | None:
        """Certify it."""
        day, by = self.day("date"), self.state.author
        assert isinstance(day, date)  # judged before
        given = Certification(self._key, day, by, self.text("remarks"))
        return self.state.act(signing.certify, given, Order(by))
