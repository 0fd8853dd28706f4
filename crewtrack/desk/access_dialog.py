"""A panel with everybody in the record: who signs in, and giving and ending that."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QPushButton, QVBoxLayout, QWidget

from crewtrack.desk.dialog_buttons import button_row, dialog_button
from crewtrack.desk.key_dialog import KeyDialog
from crewtrack.desk.key_dialogs import EndDialog, GiveDialog
from crewtrack.desk.look import take_room
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import RecordUnusable
from crewtrack.office.who_signs_in import Access, access_of
from crewtrack.screens.access_table import access_table
from crewtrack.screens.language import say


class AccessDialog(QDialog):
    """``panel`` is what is open over it, None for nothing."""

    def __init__(self, state: State, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.panel: KeyDialog | None = None
        self.setWindowTitle(say("Who signs in"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = TableView(say("People and whether they sign in"))
        self.give = self._button(say("Give access…"), lambda one: GiveDialog(state, one, self))
        self.renew = self._button(say("New key…"), lambda one: GiveDialog(state, one, self))
        self.end = self._button(say("End access…"), lambda one: EndDialog(state, one, self))
        layout = QVBoxLayout(self)
        layout.addWidget(self.table, 1)
        layout.addWidget(button_row(self, (self.give, self.renew, self.end), say("Close")))
        self.table.moved_to.connect(lambda _: self._enable())
        self.table.opened.connect(self._opened)
        state.moved.connect(self.show_people)
        self.show_people()
        line = self.fontMetrics().lineSpacing()
        take_room(self, 48 * line, 26 * line)

    def show_people(self) -> None:
        """Show everybody anew."""
        try:
            people = access_of(self._state.office)
        except (RecordUnusable, OSError) as error:
            self._state.told.emit(trouble_told(error))
            return
        self.table.show_table(access_table(people))
        if self.table.chosen() is None and people:
            self.table.setCurrentIndex(self.table.rows.index(0, 0))
        self._enable()

    def _opened(self, one: Access) -> None:
        (self.give if one.key is None else self.renew).click()

    def _enable(self) -> None:
        one: Access | None = self.table.chosen()
        self.give.setEnabled(one is not None and one.key is None)
        self.renew.setEnabled(one is not None and one.key is not None)
        self.end.setEnabled(one is not None and one.key is not None)

    def _button(self, told: str, panel: Callable[[Access], KeyDialog]) -> QPushButton:
        button = dialog_button(told)
        button.clicked.connect(lambda: self._open(panel))
        return button

    def _open(self, made: Callable[[Access], KeyDialog]) -> None:
        one: Access | None = self.table.chosen()
        if one is not None and self._state.may_change():
            self.panel = made(one)
            self.panel.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            self.panel.finished.connect(lambda _: self._closed())
            self.panel.open()

    def _closed(self) -> None:
        self.panel = None
        self.show_people()
