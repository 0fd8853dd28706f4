"""The crew: a chooser for each seat."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from crewtrack.desk.choice_editor import ChoiceEditor, is_left
from crewtrack.desk.fields import Field
from crewtrack.desk.sortie_fields import show_beginning
from crewtrack.screens.language import say
from crewtrack.screens.sortie_draft import CrewLine
from crewtrack.screens.sortie_form import crew_place


class CrewTable(QWidget):
    """``seated``: a seat and who is in it now, once that is somebody the record knows, or the
    chooser was left with something else in it. ``built``: there are other seats now."""

    seated = Signal(str, str)
    built = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.grid = QGridLayout(self)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.grid.setColumnStretch(1, 1)
        self.grid.setColumnStretch(4, 1)
        self._people: Mapping[str, str] = {}
        self._shown: dict[str, str] = {}
        self.fields: dict[str, Field] = {}

    def show_crew(self, crew: tuple[CrewLine, ...], people: Mapping[str, str]) -> None:
        """Show who sits where."""
        self._people = people
        if [line.seat for line in crew] != list(self.fields):
            self._build([line.seat for line in crew])
        for line in crew:
            self._show(line)

    def offer(self, people: Mapping[str, str]) -> None:
        """Offer other people; whatever is typed stays."""
        self._people = people
        for field in self.fields.values():
            if isinstance(field.editor, ChoiceEditor):
                blocked = field.editor.blockSignals(True)
                field.editor.offer(people)
                field.editor.blockSignals(blocked)

    def show_faults(self, found: Mapping[str, str]) -> None:
        """Say beneath each seat what is wrong with it."""
        for seat, field in self.fields.items():
            told = found.get(crew_place(seat), "")
            if told != field.fault.text():
                field.show_fault(told)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """A chooser that is left is taken as it stands."""
        if is_left(event) and watched.objectName() in self.fields:
            self._left(watched.objectName())
        return super().eventFilter(watched, event)

    def _show(self, line: CrewLine) -> None:
        editor = self.fields[line.seat].editor
        self._shown[line.seat] = line.person
        blocked = editor.blockSignals(True)
        if isinstance(editor, ChoiceEditor):
            editor.offer(self._people)
        if editor.text() != line.person:
            editor.set_text(line.person)
            show_beginning(editor)
        editor.blockSignals(blocked)

    def _edited(self, seat: str) -> None:
        person = self.fields[seat].editor.text()
        if person in self._people and person != self._shown[seat]:
            self._shown[seat] = person
            self.seated.emit(seat, person)

    def _left(self, seat: str) -> None:
        editor = self.fields[seat].editor
        if isinstance(editor, ChoiceEditor):
            editor.settle()
        person = editor.text()
        if person != self._shown[seat]:
            self._shown[seat] = person
            self.seated.emit(seat, person)

    def _build(self, seats: list[str]) -> None:
        for field in self.fields.values():
            for widget in (field.label, field.editor, field.unit, field.fault):
                self.grid.removeWidget(widget)
                widget.deleteLater()
        self.fields, self._shown = {}, {}
        for number, seat in enumerate(seats):
            field = Field(_seat_told(seat), ChoiceEditor())
            field.editor.setObjectName(seat)
            field.add_to(self.grid, 2 * (number // 2), 3 * (number % 2))
            field.editor.edited.connect(lambda of=seat: self._edited(of))
            field.editor.installEventFilter(self)
            self.fields[seat], self._shown[seat] = field, ""
        self.built.emit()


def _seat_told(seat: str) -> str:
    told = say(seat).replace("-", " ")
    return told[:1].upper() + told[1:]
