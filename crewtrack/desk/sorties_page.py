"""Sorties: the log, the form for one, and what saving it changed."""

from collections.abc import Callable

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from crewtrack.desk.action_button import button_for
from crewtrack.desk.asking import agreed
from crewtrack.desk.deck_page import DeckDialog
from crewtrack.desk.log_view import LogView
from crewtrack.desk.page import Page
from crewtrack.desk.said_acts import SaidActs
from crewtrack.desk.sortie_missing import add_missing
from crewtrack.desk.sortie_page import DRAFT, SortiePage
from crewtrack.desk.sortie_saving import Saved, performance_key
from crewtrack.desk.sortie_sides import SavedPanel
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.office import flying
from crewtrack.office.disputes import Disputed
from crewtrack.screens.dispute_words import strip_told
from crewtrack.screens.language import say
from crewtrack.screens.sortie_book import SortieBook
from crewtrack.screens.sortie_deck import options_of
from crewtrack.screens.sortie_log import SortieLog
from crewtrack.screens.sortie_saved import saved_told


class SortiesPage(Page):
    """The log is in front until a sortie is opened or begun."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self._drafts = state.drafts
        self.said = SaidActs(state, self)
        self._said_told = False
        self._book = SortieBook(state.snapshot)
        self._saved: Saved | None = None
        self.log = LogView()
        self.form = SortiePage(state, theme, self._drafts)
        self.after = SavedPanel(theme)
        self.stack = QStackedWidget()
        for part in (self.log, self.form, self.after):
            self.stack.addWidget(part)
        layout = QVBoxLayout(self)
        gap = theme.line() // 2
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.addWidget(self.stack)
        self._log_actions, self._form_actions = self._actions()
        self._said_actions = self._for_said()
        for place, action in enumerate(self._form_actions):
            self.form.buttons.insertWidget(place, button_for(action))
        for action in (*self._log_actions, *self._said_actions):
            self.log.buttons.addWidget(button_for(action))
        self._connect()
        self._offer()
        self._front(self.log)

    def title(self) -> str:
        """The page's name."""
        return say("Sorties")

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here."""
        return (*self._log_actions, *self._said_actions, *self._form_actions)

    def unsaved(self) -> str:
        """Whether a sortie is being typed."""
        if self.stack.currentWidget() is self.form and self.form.unsaved():
            self.form.keep()
            return say("A sortie that you are typing is not saved.")
        return self.said.unsaved()

    def show_state(self) -> None:
        """Show the record as it is now; what is typed stays."""
        if self.state.snapshot is not self._book.snapshot:
            self._book = SortieBook(self.state.snapshot)
        self.log.show_log(SortieLog(self.state.snapshot), self._book.choices())
        if self.stack.currentWidget() is self.form:
            self.form.show_state(self._book)
        self._show_disputes()
        if not self._said_told and self.said.waiting():
            self.state.told.emit(self.said.waiting())
        self._said_told = True

    def show_sortie(self, key: str) -> None:
        """Open a recorded sortie, to look at it or to correct it."""
        flown = flying.flown(self.state.office, key)
        if flown is None:
            self.state.told.emit(say("Sortie {key} is not in the record any more.", key=key))
        elif self._may_leave():
            if self.state.known_at is not None:
                told = say("This is the sortie as it stands now; its revisions say what was known.")
                self.state.told.emit(told)
            self.form.correct(self._book, flown)
            self._front(self.form)
            self.form.first.go_to("vessel")

    def new(self) -> None:
        """Begin an empty sortie on the day that is shown."""
        if self.state.may_change() and self._may_leave():
            self.form.start(self._book, self._book.fresh(self.state.day))
            self._front(self.form)
            self.form.first.go_to("vessel")

    def again(self) -> None:
        """Begin the next sortie from the last one."""
        if not self.state.may_change() or not self._may_leave():
            return
        day, key = self.state.day, self._book.last_key(self.state.day)
        if self._saved is not None:
            day, key = self._saved.day, self._saved.key
        flown = flying.flown(self.state.office, key) if key else None
        if flown is None:
            self.new()
            return
        self._saved = None
        self.form.start(self._book, self._book.again(flown, day))
        self._front(self.form)
        self.form.first.go_to("time")

    def close_form(self) -> None:
        """Back to the log; asks where something was typed."""
        if self._may_leave():
            self._saved = None
            self._front(self.log)
            self.log.table.setFocus()

    def plan_deck(self) -> None:
        """Open the deck by itself, with what the form says where one is open."""
        preset = options_of(self.form.draft) if self.stack.currentWidget() is self.form else None
        dialog = DeckDialog(self.theme, preset, self)
        dialog.exec()
        dialog.deleteLater()

    def _connect(self) -> None:
        self.log.opened.connect(self.show_sortie)
        self.log.offer.taken.connect(self._resume)
        self.log.offer.dropped.connect(self._drop)
        self.form.saved.connect(self._after)
        self.after.again.connect(self.again)
        self.after.sign_off.connect(self._sign_off)
        self.after.closed.connect(self.close_form)

    def _actions(self) -> tuple[tuple[QAction, ...], tuple[QAction, ...]]:
        log = (
            self.action(say("New sortie"), "Ctrl+N", say("Begin an empty sortie."), self.new),
            self.action(
                say("Same again"), "Ctrl+Shift+N",
                say("Begin the next sortie from the last one of the day."), self.again,
            ),
            self.action(
                say("Deck…"), "Ctrl+Shift+D",
                say("Work out the wind over the deck without a sortie."), self.plan_deck,
            ),
        )  # fmt: skip
        form = (
            self.action(
                say("Save"), "Ctrl+S", say("Put the sortie into the record."),
                self._now(self.form.save),
            ),
            self.action(
                say("Usual tasks"), "Ctrl+Shift+T",
                say("Add the usual tasks of everybody seated."), self.form.add_usual,
            ),
            self.action(
                say("Add missing…"), "Ctrl+Shift+E",
                say("Add the boat, aircraft or person that the field with the focus lacks."),
                self._now(lambda: add_missing(self.form, self.state)),
            ),
            self.action(
                say("Strike out"), "Ctrl+Shift+X",
                say("Strike the sortie out, with a reason."),
                self._now(self.form.strike),
            ),
            self.action(say("Close"), "Esc", say("Back to the log."), self.close_form),
        )  # fmt: skip
        return log, form

    def _for_said(self) -> tuple[QAction, ...]:
        return (
            self.action(
                say("Report an occurrence…"), "Ctrl+Shift+O",
                say("Report what happened, on the chosen sortie or on none, with a name or"
                    " without."),
                lambda: self.said.report(self._sortie()),
            ),
            self.action(
                say("Dispute…"), "Ctrl+Shift+Y",
                say("Say what is wrong with the chosen sortie, or with what was done on it."),
                lambda: self.said.dispute(self._entries()),
            ),
        )  # fmt: skip

    def _sortie(self) -> str:
        """The sortie that is open, was just saved, or is chosen in the log; empty for none."""
        front = self.stack.currentWidget()
        if front is self.form:
            return self._corrected()
        if front is self.after and self._saved is not None:
            return self._saved.key
        return self.log.chosen_sortie()

    def _corrected(self) -> str:
        """The sortie that is open in the form; empty for none, or a new one."""
        return self.form.draft.text("sortie") if self.form.correcting else ""

    def _entries(self) -> tuple[Disputed, ...]:
        """That sortie, and what was performed on it."""
        sortie = self._sortie()
        flown = flying.flown(self.state.office, sortie) if sortie else None
        if flown is None:
            return ()
        done = ((PERFORMANCES.name, performance_key(held.row)) for held in flown.performances)
        return (SORTIES.name, (sortie,)), *done

    def _show_disputes(self) -> None:
        """Say above the form what is disputed of the sortie that is open in it."""
        self.form.show_disputes(strip_told(self.log.disputes(self._corrected())))

    def _front(self, part: QWidget) -> None:
        """Bring the log, the form or what was saved to the front."""
        self.stack.setCurrentWidget(part)
        self._show_disputes()
        fronts = {self.form: self.form.first.fields["vessel"].editor, self.after: self.after.same}
        log = self.log.table if self.log.offer.isHidden() else self.log.offer.take
        self.front = fronts.get(part, log)
        for action in self._form_actions[:-1]:
            action.setEnabled(part is self.form)
        self._form_actions[-2].setEnabled(part is self.form and self.form.correcting)
        self._form_actions[-1].setEnabled(part is not self.log)

    def _after(self, saved: Saved) -> None:
        self._saved = saved
        self._book = SortieBook(self.state.snapshot)  # its keys are those of this moment
        lines = saved_told(saved.key, saved.changes)
        self._front(self.after)
        self.after.show_saved(lines)
        self.after.sign.setEnabled(not saved.changes.struck)
        self.state.told.emit(lines[0])

    def _sign_off(self) -> None:
        if self._saved is not None:
            lines = [line for line in self._saved.draft.tasks if line.supervisor]
            person, task = (lines[0].person, lines[0].task) if lines else ("", "")
            self.sign_off.emit(person, task, self._saved.key)

    def has_draft(self) -> bool:
        """Whether a sortie was being typed when the program last ended."""
        return self._drafts.load(DRAFT) is not None

    def _offer(self) -> None:
        self.log.offer.setVisible(self.has_draft())

    def _resume(self) -> None:
        self.log.offer.hide()
        if self.form.resume(self._book, self.state.day):
            self._front(self.form)
            self.form.first.go_to("time")
        else:
            self._drafts.drop(DRAFT)
            self.state.told.emit(say("The draft can't be read any more."))

    def _drop(self) -> None:
        self._drafts.drop(DRAFT)
        self.log.offer.hide()
        self._front(self.log)
        self.log.table.setFocus()

    def _now(self, act: Callable[[], None]) -> Callable[[], None]:
        """The same, as long as the pages show the record as it is now."""

        def acted() -> None:
            if self.state.may_change():
                act()

        return acted

    def _may_leave(self) -> bool:
        """Ask once before what is typed is given up."""
        if self.stack.currentWidget() is not self.form or not self.form.unsaved():
            return True
        question = say("The sortie is not saved. Give up what you typed?")
        left = agreed(self, question, say("Give it up"), say("Keep typing"))
        if left:
            self.form.let_go()
        return left
