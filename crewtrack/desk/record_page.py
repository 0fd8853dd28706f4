"""The record: what it holds, how it is taken in, written out and kept safe, and its journal."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any, Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QFormLayout,
    QGridLayout,
    QLabel,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk import record_acts
from crewtrack.desk.access_dialog import AccessDialog
from crewtrack.desk.action_button import button_for
from crewtrack.desk.backups_dialog import BackupsDialog
from crewtrack.desk.journal_view import JournalView
from crewtrack.desk.key_dialogs import IdentifyDialog
from crewtrack.desk.lines_panel import LinesPanel
from crewtrack.desk.look import set_property
from crewtrack.desk.page import Page
from crewtrack.desk.said_board import SaidBoard
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.troubles import trouble_told
from crewtrack.errors import RecordUnusable, Refused
from crewtrack.office.looking_back import JournalAct, act_detail
from crewtrack.office.record_told import record_told
from crewtrack.office.retention import RetentionTold, retention_told
from crewtrack.office.safekeeping import safe_kept
from crewtrack.office.who_signs_in import access_of
from crewtrack.screens import sign_in_words
from crewtrack.screens.backup_words import last_backup_told
from crewtrack.screens.import_words import record_lines
from crewtrack.screens.journal_table import act_lines, nobody_identified
from crewtrack.screens.language import say
from crewtrack.screens.retention_words import page_line
from crewtrack.screens.standard_page_lines import Line

_IN_A_ROW: Final = 5


class RecordPage(Page):
    """What is known of the record on top, the journal below, the chosen act beside it."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(state, theme, parent)
        self._past: tuple[tuple[int, date], RetentionTold] | None = None
        self.facts = QFormLayout()
        self.journal = JournalView(state)
        self.journal.chosen.connect(self._show_act)
        self.detail = LinesPanel(say("What the chosen act recorded"), theme)
        self._actions = tuple(self._make_actions())
        self._lay_out()

    def title(self) -> str:
        """The page's name."""
        return say("Record")

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here."""
        return self._actions

    def show_state(self) -> None:
        """Show the record and its journal anew."""
        able = 0
        try:
            office = self.state.office
            able = sum(one.key is not None for one in access_of(office))
            lines = (
                *record_lines(record_told(office)),
                (say("Who signs in"), sign_in_words.told_of(able)),
                page_line(self._retention()),
            )
        except (RecordUnusable, OSError) as error:
            lines = ((say("Record"), trouble_told(error)),)
        lines = (*lines, (say("Last good backup"), self._last_backup()))
        self._signing_in.setText(say("Access…") if able else say("Identify people…"))
        self._plainly.setVisible(not able)
        while self.facts.rowCount():
            self.facts.removeRow(0)
        for name, value in lines:
            self.facts.addRow(_quiet(name), _value(name, value))
        self.journal.show_state()

    def _retention(self) -> RetentionTold:
        """What is past retention; it takes long to find out, so once for an act and a day."""
        office = self.state.office
        at = (office.newest(), office.today())
        if self._past is None or self._past[0] != at:
            self._past = at, retention_told(office)
        return self._past[1]

    def set_backups(self) -> None:
        """Ask where backups go and how many are kept."""
        dialog = BackupsDialog(self.state.office.record.path, self)
        if dialog.exec():
            self.show_state()
        dialog.deleteLater()

    def _last_backup(self) -> str:
        try:
            return last_backup_told(safe_kept(self.state.office), self.state.zone)
        except (Refused, RecordUnusable, OSError) as error:
            return trouble_told(error)

    def import_files(self, paths: Sequence[Path]) -> None:
        """Look through files, and take them in where that is wanted."""
        record_acts.import_files(self, self.state, self.theme, paths)

    def verify(self) -> None:
        """Check the whole record against its journal, and say what was found."""
        lines = record_acts.verify(self, self.state)
        if lines is not None:
            self.detail.show_lines(lines)

    def said(self) -> None:
        """Show all occurrences and disputes."""
        SaidBoard(self.state, self).open()

    def sign_in(self) -> None:
        """Who signs in, to give access and to end it; or the first who does."""
        if self.state.office.session is not None:
            AccessDialog(self.state, self).open()
        elif self.state.may_change():
            dialog = IdentifyDialog(self.state, self)
            if dialog.exec():
                self.state.know_session()
            dialog.deleteLater()

    def _make_actions(self) -> list[QAction]:
        told: tuple[tuple[str, str, str, Callable[[], object]], ...] = (
            (say("Import files…"), "Ctrl+I", say("Look through files, and take them in."),
             lambda: self._import(record_acts.choose_files(self))),
            (say("Import a folder…"), "Ctrl+Shift+I",
             say("Look through a folder of files, and take them in."),
             lambda: self._import(record_acts.choose_folder(self))),
            (say("Export…"), "Ctrl+E", say("Write the whole record into a folder as files."),
             lambda: record_acts.export(self, self.state)),
            (say("Back up…"), "Ctrl+B", say("Write a checked copy of the record."),
             lambda: record_acts.back_up(self, self.state)),
            (say("Restore…"), "Ctrl+Shift+B",
             say("Put a backup in the record's place, and keep what was there."),
             lambda: record_acts.restore(self, self.state)),
            (say("Verify"), "Ctrl+Shift+V",
             say("Check every fact and every act against the journal's chain."), self.verify),
            (say("Backups…"), "Ctrl+Alt+B", say("Say where backups go and how many are kept."),
             self.set_backups),
            (say("Occurrences and disputes…"), "Ctrl+Shift+O",
             say("See what was reported and what is disputed, and answer it."), self.said),
            (say("Retention…"), "Ctrl+Shift+R",
             say("See what is past the unit's retention period, and seal it."),
             lambda: record_acts.show_retention(self, self.state, self.theme)),
            (say("Find in the journal"), "Ctrl+F", say("Filter the journal by a text."),
             self.journal.text.setFocus),
        )  # fmt: skip
        self._signing_in = self.action(
            say("Identify people…"), "Ctrl+Shift+U",
            say("Say who signs in to this record, and with which key."), self.sign_in,
        )  # fmt: skip
        made = [self.action(*one) for one in told]
        return [*made[:-1], self._signing_in, made[-1]]

    def _import(self, paths: Sequence[Path]) -> None:
        if paths:
            self.import_files(paths)

    def _lay_out(self) -> None:
        buttons = QGridLayout()  # in two rows, since at a large size of text one is too wide
        for number, action in enumerate(self._actions[:-1]):
            buttons.addWidget(button_for(action), *divmod(number, _IN_A_ROW))
        buttons.setColumnStretch(_IN_A_ROW, 1)
        self._plainly = plainly = QLabel(nobody_identified())
        plainly.setWordWrap(True)
        set_property(plainly, "tone", "quiet")
        halves = QSplitter(Qt.Orientation.Horizontal)
        halves.addWidget(self.journal)
        halves.addWidget(self.detail)
        halves.setStretchFactor(0, 3)
        halves.setStretchFactor(1, 2)
        halves.setChildrenCollapsible(False)
        halves.setSizes([600, 400])
        halves.setMinimumHeight(self.theme.line() * 12)
        whole = QWidget()
        layout = QVBoxLayout(whole)
        self.facts.setLabelAlignment(Qt.AlignmentFlag.AlignTop)
        layout.addLayout(self.facts)
        layout.addLayout(buttons)
        layout.addWidget(plainly)
        layout.addWidget(halves, 1)
        area = QScrollArea()  # in a low window at a large size of text, all of it must be in reach
        area.setWidget(whole)
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(area)
        self.front = self.journal.table

    def _show_act(self, act: Any) -> None:
        if not isinstance(act, JournalAct):
            self.detail.show_lines(())
            return
        try:
            self.detail.show_lines(act_lines(act, act_detail(self.state.office, act.seq)))
        except (RecordUnusable, OSError) as error:
            self.detail.show_lines((Line("said", trouble_told(error)),))


def _quiet(name: str) -> QLabel:
    label = QLabel(name)
    set_property(label, "tone", "quiet")
    return label


def _value(name: str, value: str) -> QLabel:
    label = QLabel(value)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setAccessibleName(say("{name}: {value}", name=name, value=value))
    label.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    return label
