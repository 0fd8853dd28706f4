"""The log of all sorties, with what narrows it down."""

from collections.abc import Callable, Mapping
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.fields import AnyEditor, Field, LineEditor
from crewtrack.desk.sortie_sides import OfferStrip
from crewtrack.desk.table_view import TableView
from crewtrack.desk.troubles import trouble_told
from crewtrack.desk.work import Work
from crewtrack.office.disputes import Dispute
from crewtrack.screens.language import count_of, say
from crewtrack.screens.sortie_log import LogFilter, SortieLog, log_table

_A_ROW: Final = 40
"""Lines of text that what the log is narrowed by is wide, all side by side."""
_NARROW: Final = 1280
"""Pixels of the narrowest screen; where text is too large for it, they go in two rows."""


class LogView(QWidget):
    """``opened``: the key of a sortie."""

    opened = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._log: SortieLog | None = None
        self._work: Work | None = None
        self._choices: Mapping[str, Mapping[str, str]] = {}
        self.offer = OfferStrip()
        self.table = TableView(say("Log of sorties"))
        self.count = QLabel()
        self.count.setProperty("tone", "quiet")
        self.fields: dict[str, Field] = {}
        narrow = QGridLayout()
        wide = _A_ROW * self.fontMetrics().lineSpacing() > _NARROW
        for number, (name, told) in enumerate(_fields()):
            field = self.fields[name] = Field(told, _editor(name))
            self._add(narrow, field, *divmod(number, 3 if wide else len(_fields())))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.offer)
        layout.addLayout(narrow)
        counted = QHBoxLayout()
        counted.addWidget(self.count, 1)
        self.buttons = QHBoxLayout()
        counted.addLayout(self.buttons)
        layout.addLayout(counted)
        layout.addWidget(self.table, 1)
        self.table.opened.connect(lambda row: self.opened.emit(self._key(row)))
        self.table.rows.waiting.connect(self._prepare)

    def _add(self, grid: QGridLayout, field: Field, row: int, column: int) -> None:
        field.add_to(grid, 2 * row, 3 * column)
        stretch = 3 if isinstance(field.editor, ChoiceEditor) or row else 2
        grid.setColumnStretch(3 * column + 1, stretch)
        field.editor.edited.connect(self._show)

    def show_log(self, log: SortieLog, choices: Mapping[str, Mapping[str, str]]) -> None:
        """Show another state of the record; ``choices`` are what it can be narrowed to. What day
        is looked at changes nothing here."""
        if self._log is not None and self._log.snapshot is log.snapshot:
            return
        self._log, self._choices = log, choices
        for name, offered in choices.items():
            editor = self.fields[name].editor
            if isinstance(editor, ChoiceEditor):
                editor.offer(offered)
        self._show()

    def chosen(self) -> LogFilter:
        """What is asked for; a chooser in which something is still being typed asks nothing."""
        texts = {name: field.editor.text() for name, field in self.fields.items()}
        for name, choices in self._choices.items():
            if texts[name] not in choices:
                texts[name] = ""
        return LogFilter(**texts)

    def chosen_sortie(self) -> str:
        """The key of the sortie that is chosen; empty where there is none."""
        row = self.table.chosen()
        return "" if row is None else self._key(row)

    def disputes(self, sortie: str) -> tuple[Dispute, ...]:
        """The open disputes of a sortie and of what was done on it."""
        return () if self._log is None else self._log.disputed.get(sortie, ())

    def clear(self) -> None:
        """Show all sorties."""
        for field in self.fields.values():
            field.editor.set_text("")

    def _show(self) -> None:
        if self._log is None:
            return
        chosen = self.chosen()
        found = dict(chosen.faults())
        for name, field in self.fields.items():
            field.show_fault(found.get(name, ""))
        table = log_table(self._log, chosen)
        self.table.show_table(table)
        if self._work is None:
            self.count.setText(self._counted())

    def _prepare(self, prepare: Callable[[], object]) -> None:
        """Work out, off the screen's thread, what the rows are to be sorted by."""
        if self._work is None:
            self.count.setText(say("Sorting…"))
            self._work = Work(lambda _: prepare())
            self._work.done.connect(self._prepared)
            self._work.failed.connect(self._not_prepared)
            self._work.start()

    def _prepared(self, _: object) -> None:
        self._work = None
        self.table.rows.sort_again()
        if self._work is None:
            self.count.setText(self._counted())

    def _not_prepared(self, error: Exception) -> None:
        self._work = None
        self.count.setText(trouble_told(error))

    def _counted(self) -> str:
        shown = self.table.rows.rowCount()
        everything = len(self._log.sorties.key) if self._log else 0
        if shown == everything:
            return count_of(shown, "{count} sortie", "{count} sorties")
        return say("{shown} of {all} sorties", shown=shown, all=everything)

    def _key(self, row: int) -> str:
        return self._log.sorties.key[row] if self._log else ""


def _fields() -> tuple[tuple[str, str], ...]:
    return (
        ("person", say("Person")),
        ("vessel", say("Boat")),
        ("task", say("Task")),
        ("first", say("From")),
        ("last", say("Through")),
    )


def _editor(name: str) -> AnyEditor:
    if name in ("person", "vessel", "task"):
        return ChoiceEditor()
    line = LineEditor()
    line.setPlaceholderText("2026-11-25")
    return line
