"""The sections of one person's books on the screen."""

from collections.abc import Hashable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QScrollArea, QSplitter, QVBoxLayout, QWidget

from crewtrack.desk.life_lines import LifeLines
from crewtrack.desk.look import hidden_words
from crewtrack.desk.reasons_panel import ReasonsPanel
from crewtrack.desk.span_delegate import SpanDelegate
from crewtrack.desk.standing_delegate import StandingDelegate
from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.office.disputes import open_disputes
from crewtrack.screens import person_books
from crewtrack.screens.life_lines import life_lines
from crewtrack.screens.person_books import Asked
from crewtrack.screens.person_standings import StandingLine
from crewtrack.screens.reasons_words import reasons
from crewtrack.screens.strip_days import StripDays, around


class BookSection(QWidget):
    """A table, or a sentence where it has no rows. ``name`` as in ``person_books.SECTIONS``;
    ``evidence_opened``: a kind of evidence and its key."""

    evidence_opened = Signal(str, str)

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.theme = theme
        self._person = ""
        self.table = TableView(person_books.title(name))
        self.note = hidden_words("quiet")
        self.note.setMargin(theme.line() // 4)
        self.nothing = QLabel(person_books.nothing(name))
        self.nothing.setWordWrap(True)
        self.nothing.setProperty("tone", "quiet")
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.nothing.setMargin(theme.line() // 2)
        self.nothing.setAccessibleName(self.nothing.text())
        self.nothing.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # else the keys would go astray
        self.nothing.setStyleSheet(f"QLabel:focus {{ border: 2px solid {theme.shades.accent}; }}")
        self._keys: frozenset[Hashable] | None = None
        self.lay_out()

    def lay_out(self) -> None:
        """The table alone."""
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.note)
        layout.addWidget(self.nothing, 1)
        layout.addWidget(self.table, 1)

    def show_books(self, asked: Asked) -> None:
        """Show a person's books, as of a day; another person's in columns as wide as they ask."""
        shown = person_books.table(self.name, asked)
        held = self.window().focusWidget() in (self.table, self.nothing)
        self.table.show_table(shown)
        keys = frozenset(map(shown.key, shown.rows))
        if asked.person != self._person:
            self._person, self._keys = asked.person, None
            self.table.fit()
        self.table.setVisible(bool(shown.rows))
        self.nothing.setVisible(not shown.rows)
        self._say(asked)
        self._choose_new(keys)
        if held:
            self.take_focus()

    def _say(self, asked: Asked) -> None:
        """What stands above the rows, or in their place."""
        told, nothing = person_books.note(self.name, asked), person_books.nothing(self.name, asked)
        self.note.setText(told)
        self.note.setVisible(bool(told))
        self.nothing.setText(nothing)
        self.nothing.setAccessibleName(nothing)

    def _choose_new(self, keys: frozenset[Hashable]) -> None:
        """What was just added is chosen."""
        added = keys - self._keys if self._keys is not None else ()
        self._keys = keys
        if len(added) == 1:
            self.table.choose(next(iter(added)))

    def take_focus(self) -> None:
        """Put the keys into the table, on its first row where none is chosen; where it has none,
        on the sentence that says so."""
        if not self.table.rows.rowCount():
            self.nothing.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        if self.table.chosen() is None and self.table.rows.rowCount():
            self.table.setCurrentIndex(self.table.rows.index(0, 0))
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)


class StandingsSection(BookSection):
    """All qualifications with their days as bars; below, the chosen one opened down to its
    evidence."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        self.lines = LifeLines(theme)
        self.reasons = ReasonsPanel(theme)
        super().__init__(person_books.STANDINGS, theme, parent)
        self._asked: Asked | None = None
        self._days: StripDays | None = None
        self._opened: tuple[str, str, date, int] | None = None
        self._spans = SpanDelegate(theme, self.table)
        self.table.setItemDelegate(StandingDelegate(theme, self.table))
        self.table.moved_to.connect(self._open)
        for panel in (self.lines, self.reasons):
            panel.evidence_opened.connect(self.evidence_opened)

    def lay_out(self) -> None:
        """The table above, life lines and reasons side by side below."""
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(self.lines)
        below = QSplitter()
        below.addWidget(scroll)
        below.addWidget(self.reasons)
        below.setSizes([400, 200])
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.table)
        split.addWidget(below)
        split.setSizes([12 * self.theme.line(), 24 * self.theme.line()])
        split.setStretchFactor(1, 1)
        self.table.setMinimumHeight(2 * self.theme.line())  # large text on a low screen
        below.setMinimumHeight(self.theme.line())
        self.nothing.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.nothing)
        layout.addWidget(split, 1)

    def show_books(self, asked: Asked) -> None:
        """Show all of it; the first qualification is opened where none is."""
        self._asked = asked
        self._spans.day, self._spans.days = asked.on, self._along(asked.on)
        super().show_books(asked)
        self.table.setItemDelegateForColumn(self.table.rows.columnCount() - 1, self._spans)
        if self.table.rows.rowCount() and self.table.chosen() is None:
            self.table.setCurrentIndex(self.table.rows.index(0, 0))
        self._open(self.table.chosen())

    def show_days(self, days: StripDays) -> None:
        """Draw along other days from now on."""
        self._days = self._spans.days = days
        self.lines.show_days(days)
        self.table.viewport().update()

    def _along(self, on: date) -> StripDays:
        return self._days or around(on)

    def _open(self, line: StandingLine | None) -> None:
        asked = self._asked
        if asked is None or line is None:
            self._opened = None
            self.reasons.show_reasons("", None, ())
            self.lines.show_lines((), around(date(2000, 1, 1)), date(2000, 1, 1))
            return
        opened = (asked.person, line.qualification, asked.on, asked.snapshot.head.seq)
        if opened == self._opened:
            return
        self._opened = opened
        told = asked.snapshot.explain(asked.person, line.qualification, asked.on)
        drawn = life_lines(asked.snapshot.reckoning, told, asked.on)
        self.lines.show_lines(drawn, self._along(asked.on), asked.on)
        marks = open_disputes(asked.snapshot)
        self.reasons.show_reasons(line.title, told.standing.word, reasons(told, marks))
