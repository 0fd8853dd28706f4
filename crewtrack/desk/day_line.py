"""The day line, on top of every page: which day is shown, and as known at which instant."""

from collections.abc import Callable, Sequence
from datetime import date, datetime
from itertools import pairwise

from PySide6.QtCore import QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from crewtrack.desk import actions
from crewtrack.desk.day_entry import DayEntry, KnownAtEntry
from crewtrack.desk.day_strip import DayStrip
from crewtrack.desk.look import set_property
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import HistoryRow
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.day_curve import Curve, curve_choices, people_curve, told
from crewtrack.screens.known_entry import known_at_told, read_known_at
from crewtrack.screens.language import say
from crewtrack.screens.strip_days import StripDays, around, days_from, months_from


class DayLine(QWidget):
    """Moves the state to another day or instant, and shows where it is. ``days_shown`` tells the
    days of the strip whenever they change, so that life lines can be drawn along the same ones."""

    days_shown = Signal(object)

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state, self._theme = state, theme
        self._days = around(state.day)
        self._history: tuple[Snapshot, Sequence[HistoryRow]] | None = None
        self._curve: Curve | None = None
        self._going = QTimer(self, singleShot=True, interval=0)
        self.strip = DayStrip(theme)
        self.day_entry = DayEntry()
        self.known_entry = KnownAtEntry(self._read_known, self._allow_known)
        self.chooser = QComboBox()
        self.chooser.setAccessibleName(say("What the day line counts"))
        self.today_button = QPushButton(say("Today"))
        self.today_button.setAccessibleName(say("Go to today"))
        self._told = QLabel()
        self._told.setWordWrap(True)  # a long sentence must not make the window wider
        self._told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        for text, key, tip, slot in self._offers():
            self.addAction(actions.made(self, text, key, tip, slot))
        self._lay_out()
        self._connect()
        self.show_state()

    @property
    def days(self) -> StripDays:
        """The days of the strip."""
        return self._days

    @property
    def told(self) -> str:
        """What the day line says: the count at the marker, or what is wrong with an entry."""
        return self._told.text()

    def show_state(self) -> None:
        """Show the state as it is."""
        state = self._state
        self._show_choices()
        self.day_entry.show_day(state.day)
        known = state.known_at
        self.known_entry.show_known("" if known is None else known_at_told(known, state.zone))
        self.strip.mark(state.day)
        self._follow()
        self._show_curve()

    def enter_day(self) -> None:
        """Put the cursor into the entry of the day."""
        self.day_entry.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.day_entry.selectAll()

    def go_to_today(self) -> None:
        """Show today."""
        self.day_entry.put_day(self._state.today)
        self._state.go_to(self._state.today)

    def ask_known(self) -> None:
        """Put the cursor into the entry of the instant that is asked about."""
        known = self.known_entry
        known.asked.setChecked(True)
        known.line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        known.line.selectAll()

    def step(self, days: int, months: int = 0) -> None:
        """Show a day so many days or months away; a day that is being typed is dropped."""
        day = months_from(days_from(self._state.day, days), months)
        self.day_entry.put_day(day)
        self._state.go_to(day)

    def _offers(self) -> tuple[tuple[str, str, str, Callable[[], None]], ...]:
        return (
            (say("Go to a day…"), "Ctrl+D", say("Type the day to show."), self.enter_day),
            (say("Go to today"), "Ctrl+T", say("Show today."), self.go_to_today),
            (say("Day before"), "F7", say("Show the day before."), lambda: self.step(-1)),
            (say("Day after"), "F8", say("Show the day after."), lambda: self.step(1)),
            (say("Month before"), "Shift+F7", say("Show the same day of the month before."),
             lambda: self.step(0, -1)),
            (say("Month after"), "Shift+F8", say("Show the same day of the month after."),
             lambda: self.step(0, 1)),
            (say("As known at…"), "Ctrl+K",
             say("Show what the record said at an earlier instant."), self.ask_known),
        )  # fmt: skip

    def _lay_out(self) -> None:
        grid, gap = QGridLayout(), self._theme.line() // 4
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(gap)
        grid.addWidget(_label(say("Da&y"), self.day_entry), 0, 0)
        grid.addWidget(self.day_entry, 0, 1)
        grid.addWidget(self.today_button, 0, 2)
        grid.addWidget(self.known_entry, 1, 0, 1, 3)
        grid.addWidget(_label(say("Co&unt"), self.chooser), 2, 0)
        grid.addWidget(self.chooser, 2, 1, 1, 2)
        right = QVBoxLayout()
        right.setSpacing(gap // 2)
        right.addWidget(self._told)
        right.addWidget(self.strip, 1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(2 * gap, gap, 2 * gap, gap)
        layout.setSpacing(4 * gap)
        layout.addLayout(grid)
        layout.addLayout(right, 1)
        known = self.known_entry
        order = (self.day_entry, self.today_button, known.asked, known.line, self.chooser)
        for before, after in pairwise((*order, self.strip)):
            self.setTabOrder(before, after)
        self.known_entry.setMinimumWidth(self.fontMetrics().averageCharWidth() * 38)

    def _connect(self) -> None:
        state = self._state
        state.moved.connect(self.show_state)
        self._going.timeout.connect(lambda: state.go_to(self.strip.day))
        self.strip.day_chosen.connect(self._dragged)
        self.strip.released.connect(self._released)
        self.day_entry.chosen.connect(state.go_to)
        self.day_entry.fault.connect(self._tell)
        self.known_entry.chosen.connect(self._know_at)
        self.known_entry.line.fault.connect(self._tell)
        self.today_button.clicked.connect(lambda: self.go_to_today())
        self.chooser.currentIndexChanged.connect(lambda _: self._show_curve())

    def _read_known(self, text: str) -> datetime:
        return read_known_at(text, self._state.zone, self._state.office.clock())

    def _allow_known(self, instant: datetime) -> None:
        with self._state.office.view(instant):
            return

    def _know_at(self, instant: datetime | None) -> None:
        if instant != self._state.known_at:
            self._state.know_at(instant)

    def _dragged(self, day: date) -> None:
        """The marker has moved: say so at once, and move all else once in this turn of events,
        however often the mouse has moved."""
        self.day_entry.put_day(day)
        self._going.start()

    def _released(self) -> None:
        self._follow()
        self._show_curve()

    def _follow(self) -> None:
        """Bring the marker's day well into the strip; not while it is being dragged, when the
        strip would run away under the mouse."""
        day = self.strip.day
        if not (self.strip.dragging and day in self._days):
            self._days = self._days.keeping(day)

    def _show_choices(self) -> None:
        choices = list(curve_choices(self._state.snapshot.editions))
        box = self.chooser
        if [(box.itemData(n), box.itemText(n)) for n in range(box.count())] == choices:
            return
        chosen = box.currentData()
        with QSignalBlocker(box):
            box.clear()
            for key, title in choices:
                box.addItem(title, key)
            box.setCurrentIndex(max(0, box.findData(chosen)))

    def _show_curve(self) -> None:
        snapshot, before = self._state.snapshot, self.strip.days
        if self._history is None or self._history[0] is not snapshot:
            self._history = (snapshot, snapshot.history())
        chosen = str(self.chooser.currentData())
        self._curve = people_curve(self._history[1], snapshot.editions, chosen, self._days)
        self.strip.show_curve(self._curve, self._days, self._state.today)
        self._tell("")
        if before != self._days:
            self.days_shown.emit(self._days)

    def _tell(self, fault: str) -> None:
        """Tell a fault, else the fault that still stands, else the count at the marker."""
        standing = (self.day_entry.accessibleDescription(),
                    self.known_entry.line.accessibleDescription())  # fmt: skip
        fault = fault or next(filter(None, standing), "")
        count = told(self._curve, self.strip.day) if self._curve else ""
        self._told.setText(fault or count)
        set_property(self._told, "tone", "fault" if fault else "")


def _label(text: str, buddy: QWidget) -> QLabel:
    label = QLabel(text)
    label.setBuddy(buddy)
    return label
