"""The page of people: a list on the left, the books of the one chosen on the right."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QSignalBlocker
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QVBoxLayout, QWidget

from crewtrack.desk.action_button import button_for
from crewtrack.desk.craft_dialog import CraftDialog
from crewtrack.desk.page import Page
from crewtrack.desk.people_layout import left_side, side_by_side
from crewtrack.desk.person_acts import PersonActs
from crewtrack.desk.person_panel import PersonPanel
from crewtrack.desk.said_acts import SaidActs
from crewtrack.desk.state import State
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.facts import OCCURRENCES, PEOPLE, Kind, Row
from crewtrack.screens import people_table, person_books
from crewtrack.screens.language import say
from crewtrack.screens.person_books import FLOWN, HAPPENED, SIGNED, STANDINGS, TASKS, Asked
from crewtrack.screens.strip_days import StripDays


class PeoplePage(Page):
    """People and their books."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self.sought = QLineEdit()
        self.sought.setPlaceholderText(say("Name, key or duty"))
        self.sought.setAccessibleName(say("Find people"))
        self.sought.setClearButtonEnabled(True)
        self.everybody = QCheckBox(say("Everybody, also those not on the books"))
        self.everybody.setAccessibleName(self.everybody.text())
        self.people = TableView(say("People"))
        self.count = QLabel()
        self.count.setProperty("tone", "quiet")
        self.panel = PersonPanel(theme)
        self.acts = PersonActs(state, self)
        self.said = SaidActs(state, self)
        self._awaited = ""
        self._offered = False
        self._made = self._actions()
        self._lay_out()
        self.front = self.people
        self.sought.textChanged.connect(lambda _: self._list())
        self.sought.returnPressed.connect(self._to_books)
        self.everybody.toggled.connect(lambda _: self._list())
        self.people.moved_to.connect(lambda _: self._show_chosen())
        self.people.opened.connect(lambda _: self._to_books())
        self.panel.opened.connect(self._opened)
        self.panel.evidence_opened.connect(self.show_evidence)
        self.panel.section_changed.connect(self._enable)
        self.acts.done.connect(self._done)

    def title(self) -> str:
        """The page's name."""
        return say("People")

    def show_state(self) -> None:
        """Show the list and the books anew."""
        self._list()
        if not self._offered and self.acts.kept():
            self.panel.say_changed(
                say("A sign-off was being filled in when the program ended; Ctrl+Shift+G goes on.")
            )
        self._offered = True
        if self._awaited in self.state.snapshot.reckoning.evidence.books:
            person, self._awaited = self._awaited, ""
            self.show_person(person)

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here."""
        return self._made

    def unsaved(self) -> str:
        """What is being filled in."""
        unsaved = getattr(self.acts.panel, "unsaved", None)
        form = say("A form on the page of people is not saved.")
        return form if unsaved and unsaved() else self.said.unsaved()

    def show_days(self, days: StripDays) -> None:
        """Draw along the days of the day line."""
        self.panel.show_days(days)

    def show_person(self, person: str, qualification: str = "") -> None:
        """Open a person's books, at a qualification where one is named."""
        if not self.people.choose(person):
            self.sought.clear()
            if not self.people.choose(person):
                self.everybody.setChecked(True)
                self.people.choose(person)
        if qualification:
            self.panel.turn_to(STANDINGS)
            self.panel.section().table.choose(qualification)
        self.panel.section().take_focus()

    def start_sign_off(self, person: str = "", task: str = "", sortie: str = "") -> None:
        """Open the sign-off form, with what is known already."""
        self.acts.sign_off(person, task, sortie)

    def person(self) -> str:
        """The key of the person whose books are open; empty for nobody."""
        return "" if self.panel.asked is None else self.panel.asked.person

    def _list(self) -> None:
        books = self.state.snapshot.reckoning.evidence.books
        everybody, sought = self.everybody.isChecked(), self.sought.text()
        lines = people_table.people_lines(books, self.state.day, everybody, sought)
        with QSignalBlocker(self.people):
            self.people.show_table(people_table.people_table(lines))
            if self.people.chosen() is None and lines:
                self.people.choose(lines[0].key)
        self.count.setText(people_table.counted(lines, self.state.day))
        self._show_chosen()

    def _show_chosen(self) -> None:
        line = self.people.chosen()
        if line is None:
            self.panel.show_books(None)
        else:
            session = self.state.office.session
            reader = session.person if session else ""
            self.panel.show_books(Asked(self.state.snapshot, line.key, self.state.day, reader))
        self._enable()

    def _to_books(self) -> None:
        self.panel.section().take_focus()

    def _opened(self, section: str, line: Any) -> None:
        """Enter or a double click: the sortie, the task's sign-off, or the fact itself."""
        if section == FLOWN:
            self.open_sortie.emit(line.key)
        elif section == TASKS:
            self.acts.sign_off(self.person(), line.task if line.known else "", "")
        elif section == HAPPENED:
            self.said.answer(OCCURRENCES, line.key)
        elif section != STANDINGS:
            self._of_chosen(self.acts.correct)

    def show_evidence(self, kind: str, key: str) -> None:
        """What a standing rests on, in its section; a sortie on its own page."""
        name, at = person_books.place_of(kind, key)
        if kind == "performance":
            self.open_sortie.emit(key)
        elif name:
            self.panel.turn_to(name)
            self.panel.section().table.choose(at)
            self.panel.section().take_focus()

    def _done(self, told: str, person: str) -> None:
        """Say what an act changed; somebody new is shown once the record has been read anew."""
        if person not in self.state.snapshot.reckoning.evidence.books:
            self._awaited = person
        elif person != self.person():
            self.show_person(person)
        self.panel.say_changed(told)

    def _sign_off(self) -> None:
        line = self.panel.section().table.chosen()
        task = ""
        if self.panel.section().name == TASKS and line is not None and line.known:
            task = line.task
        self.acts.sign_off(self.person(), task, "")

    def _withdraw(self) -> None:
        line = self.panel.section().table.chosen()
        if self.panel.section().name == SIGNED and line is not None:
            self.acts.withdraw(line.row)

    def _certify(self) -> None:
        """The chosen sign-off, or in the task book the newest of the task that waits."""
        section, line = self.panel.section(), self.panel.section().table.chosen()
        if section.name == TASKS and line is not None and self.panel.asked is not None:
            signed = person_books.signed_lines(self.panel.asked)
            waiting = (one for one in signed if one.value("task") == line.task and one.waits)
            line = next(waiting, None)
        self.acts.certify(line)

    def _add(self) -> None:
        kind = person_books.kind_of(self.panel.section().name)
        if self.panel.section().name == HAPPENED:
            self.said.report()
        elif kind is None or self.panel.section().name == SIGNED:
            self._sign_off()
        else:
            self.acts.add(kind, self.person())

    def _of_chosen(self, act: Callable[[Kind, Row], None]) -> None:
        """Do something to the fact that is chosen."""
        kind = person_books.kind_of(self.panel.section().name)
        line = self.panel.section().table.chosen()
        if kind is not None and line is not None:
            act(kind, line.row)

    def _dispute(self) -> None:
        name, line = self.panel.section().name, self.panel.section().table.chosen()
        self.said.dispute(person_books.entries(name, self.person(), line) if line else ())

    def _enable(self) -> None:
        """Only what can be done in the section that is in sight."""
        section = self.panel.section().name
        facts = person_books.kind_of(section) is not None and bool(self.person())
        for action, possible in (
            (self._signing, bool(self.person())),
            (self._adding, section not in (STANDINGS, FLOWN) and bool(self.person())),
            (self._correcting, facts),
            (self._striking, facts),
            (self._withdrawing, section == SIGNED),
            (self._disputing, section not in (STANDINGS, TASKS, HAPPENED) and bool(self.person())),
            (self._certifying, section in (SIGNED, TASKS)),
        ):
            action.setEnabled(possible)

    def _actions(self) -> tuple[QAction, ...]:
        self._signing = self.action(
            say("Sign off…"), "Ctrl+G", say("Sign a task off for the chosen person."),
            self._sign_off,
        )  # fmt: skip
        go_on = self.action(
            say("Go on with a sign-off"), "Ctrl+Shift+G",
            say("Go on with the sign-off that was left unfinished."), self.acts.go_on,
        )  # fmt: skip
        return (self._signing, go_on, *self._section_actions(), *self._people_actions())

    def _section_actions(self) -> tuple[QAction, ...]:
        self._withdrawing = self.action(
            say("Withdraw…"), "Ctrl+Shift+W", say("Withdraw the chosen sign-off from a day on."),
            self._withdraw,
        )  # fmt: skip
        self._certifying = self.action(
            say("Certify…"), "Ctrl+Shift+R",
            say("Put the second signature to a sign-off that waits for it."), self._certify,
        )  # fmt: skip
        self._adding = self.action(
            say("Add…"), "Ins", say("Add to the section that is in sight."), self._add
        )
        self._correcting = self.action(
            say("Correct…"),
            "F4",
            say("Correct the chosen fact, with a reason."),
            lambda: self._of_chosen(self.acts.correct),
        )
        self._striking = self.action(
            say("Strike out…"), "Del", say("Strike the chosen fact out, with a reason."),
            lambda: self._of_chosen(self.acts.strike),
        )  # fmt: skip
        self._disputing = self.action(
            say("Dispute…"), "Ctrl+Shift+Y", say("Say what is wrong with the chosen entry."),
            self._dispute,
        )  # fmt: skip
        onward = self.action(
            say("Next section"), "Ctrl+PgDown", say("Go on to the next section."),
            lambda: self.panel.turn(1),
        )  # fmt: skip
        back = self.action(
            say("Section before"), "Ctrl+PgUp", say("Go back to the section before."),
            lambda: self.panel.turn(-1),
        )  # fmt: skip
        facts = (self._withdrawing, self._certifying, self._adding, self._correcting)
        return *facts, self._striking, self._disputing, onward, back

    def _people_actions(self) -> tuple[QAction, ...]:
        find = self.action(
            say("Find people"), "Ctrl+F", say("Find people by name, key or duty."),
            self.sought.setFocus,
        )  # fmt: skip
        self._taking = self.action(
            say("New person…"), "Ctrl+Shift+P", say("Take a person on the books."),
            lambda: self.acts.add(PEOPLE, ""),
        )  # fmt: skip
        correct = self.action(
            say("Correct person…"), "Shift+F4",
            say("Correct name, dates and duties of the chosen person."),
            lambda: self.acts.correct_person(self.person()),
        )  # fmt: skip
        craft = self.action(
            say("Boats and aircraft…"), "Ctrl+Shift+B",
            say("List, add and correct boats and aircraft."),
            lambda: CraftDialog(self.state, self).open(),
        )  # fmt: skip
        return find, self._taking, correct, craft

    def _lay_out(self) -> None:
        parts = (self.sought, self.everybody, self.people)
        left = left_side(self.theme, parts, self.count, self._taking)
        shown = (self._signing, self._adding, self._correcting, self._striking, self._disputing)
        for action in shown:
            self.panel.buttons.addWidget(button_for(action))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(side_by_side(self.theme, left, self.panel))
