"""Entries of the day line: a day, and the instant that the record is asked about."""

from collections.abc import Callable
from datetime import date, datetime

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QWidget

from crewtrack.bad_cell import BadCell
from crewtrack.desk.look import set_property
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import CrewtrackError, Refused
from crewtrack.moments import read_day
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.language import say


def _told(bad: BadCell) -> str:
    return sentence(bad.problem, bad.cure)


class FaultyLine(QLineEdit):
    """A line that says what is wrong with it: ``fault`` tells a sentence, empty for nothing."""

    fault = Signal(str)

    def __init__(self, name: str, hint: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setToolTip(hint)

    def tell(self, fault: str) -> None:
        """Tell a fault, or that there is none."""
        set_property(self, "faulty", "true" if fault else "false")
        self.setAccessibleDescription(fault)
        self.fault.emit(fault)


class DayEntry(FaultyLine):
    """A day, typed. ``chosen`` tells it when it is entered; its faults are told as it is typed."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__(say("Day"), say("The day that is shown, such as 2026-11-25"))
        self._shown = date.min
        self.textEdited.connect(lambda _: self._read())
        self.editingFinished.connect(self._finished)

    def show_day(self, day: date) -> None:
        """Show a day, where none is being typed."""
        self._shown = day
        if not self.isModified():
            self.setText(day.isoformat())

    def put_day(self, day: date) -> None:
        """Show a day in place of whatever is being typed."""
        self._shown = day
        self.setText(day.isoformat())
        self.tell("")

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape takes back what was typed."""
        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.put_day(self._shown)
        else:
            super().keyPressEvent(event)

    def _read(self) -> date | None:
        try:
            day = read_day(self.text().strip())
        except BadCell as bad:
            self.tell(_told(bad))
            return None
        self.tell("")
        return day

    def _finished(self) -> None:
        if not self.isModified():
            return
        day = self._read()
        if day is not None:
            self.setModified(False)
            self.chosen.emit(day)


class KnownAtEntry(QWidget):
    """Whether to ask about an earlier instant, and which. ``chosen`` tells the instant, None for
    all that is recorded. ``allow`` raises an error of the program for an instant of which the
    record can tell nothing."""

    chosen = Signal(object)

    def __init__(self, read: Callable[[str], datetime], allow: Callable[[datetime], None]) -> None:
        super().__init__()
        self._read_text, self._allow = read, allow
        self.asked = QCheckBox(say("As &known at"))
        self.asked.setAccessibleName(say("As known at an earlier instant"))
        hint = say("A day, or a day and a time, such as 2026-11-25T06:40")
        self.line = FaultyLine(say("Known at"), hint)
        self.line.setPlaceholderText(say("a day, or a day and a time"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.asked)
        layout.addWidget(self.line, 1)
        self.line.setEnabled(False)
        self.asked.toggled.connect(self._toggled)
        self.line.editingFinished.connect(self._finished)

    def show_known(self, told: str) -> None:
        """Show the instant that is asked about, empty for none; what is being typed stays."""
        if self.line.isModified():
            return
        with QSignalBlocker(self.asked):
            if told or not self.line.hasFocus():
                self.asked.setChecked(bool(told))
        self.line.setEnabled(self.asked.isChecked())
        self.line.setText(told)

    def _toggled(self, asked: bool) -> None:
        self.line.setEnabled(asked)
        if asked:
            self.line.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self.line.clear()
        self.line.tell("")
        self.chosen.emit(None)

    def _finished(self) -> None:
        if not self.line.isModified():
            return
        try:
            instant = self._read_text(self.line.text().strip())
            self._allow(instant)
        except BadCell as bad:
            self.line.tell(_told(bad))
        except Refused as refused:
            fault = refused.faults[0]
            self.line.tell(_told(BadCell(fault.problem, fault.cure)))
        except CrewtrackError as error:
            self.line.tell(trouble_told(error))
        else:
            self.line.setModified(False)
            self.line.tell("")
            self.chosen.emit(instant)
