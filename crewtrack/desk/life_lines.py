"""Life lines on the screen: ticks are chosen by keys or mouse, and opened."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QToolTip, QWidget

from crewtrack.desk.life_lines_layout import Layout
from crewtrack.desk.life_lines_painting import LifeLinesPainting
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import say
from crewtrack.screens.life_lines import LifeLine, Tick, line_spoken, tick_spoken
from crewtrack.screens.strip_days import StripDays, around


class LifeLines(QWidget):
    """``evidence_opened`` tells the kind of a tick (``performance``, ``sign-off``,
    ``certificate``) and its key, the sortie's for a performance."""

    evidence_opened = Signal(str, str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._lines: Sequence[LifeLine] = ()
        self._on = date(2000, 1, 1)
        self._days = around(self._on)
        self._line, self._tick = 0, -1
        self._layout: Layout | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(say("Life lines"))

    def show_lines(self, lines: Sequence[LifeLine], days: StripDays, on: date) -> None:
        """Show lines along some days, as of a day."""
        held = self.chosen_tick()
        self._lines, self._days, self._on = lines, days, on
        self._line = min(self._line, max(0, len(lines) - 1))
        ticks = lines[self._line].ticks if lines else ()
        self._tick = next((n for n, tick in enumerate(ticks) if _same(tick, held)), -1)
        self._relay()

    def show_days(self, days: StripDays) -> None:
        """Draw the same lines along other days."""
        self._days = days
        self._relay()

    def chosen_tick(self) -> Tick | None:
        """The tick that the keys are on."""
        if not self._lines or self._tick < 0:
            return None
        ticks = self._lines[self._line].ticks
        return ticks[self._tick] if self._tick < len(ticks) else None

    def laid_out(self) -> Layout:
        """Where the lines lie."""
        if self._layout is None:
            self._layout = Layout(self._theme, self._lines, self._days, float(self.width()))
        return self._layout

    def tick_room(self, line: int, tick: int) -> QRectF:
        """Where a tick lies."""
        row = self.laid_out().rows[line]
        return self._painting().tick_room(row, row.line.ticks[tick])

    def _painting(self) -> LifeLinesPainting:
        return LifeLinesPainting(self._theme, self.laid_out(), self._on)

    def _relay(self) -> None:
        self._layout = None
        self.setMinimumHeight(int(self.laid_out().height) + 1)
        self._describe()
        self.updateGeometry()
        self.update()

    def _describe(self) -> None:
        tick = self.chosen_tick()
        line = line_spoken(self._lines[self._line]) if self._lines else ""
        self.setAccessibleDescription(f"{line}. {tick_spoken(tick)}" if tick else line)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Wide enough for rules, days and states."""
        return QSize(self._theme.line() * 36, int(self.laid_out().height) + 1)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Lay the lines out anew where the width has changed."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._relay()

    def paintEvent(self, _: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The lines, and a frame around the chosen tick."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colour(self._theme.shades.panel))
        if self._lines:
            self._painting().paint(painter)
        if self.hasFocus() and self._lines:
            self._paint_choice(painter)
        painter.end()

    def _paint_choice(self, painter: QPainter) -> None:
        painter.setPen(QPen(self._theme.colour(self._theme.shades.accent), 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        row = self.laid_out().rows[self._line]
        painter.drawRect(row.room.adjusted(1, 1, -1, -1))
        tick = self.chosen_tick()
        if tick is not None and tick.day in self._days:
            reach = self._theme.line() * 0.2
            room = self._painting().tick_room(row, tick)
            painter.drawRect(room.adjusted(-reach, -reach, reach, reach))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Up and Down choose a line, Left and Right a tick on it, Enter opens it."""
        match event.key():
            case Qt.Key.Key_Up | Qt.Key.Key_Down if self._lines:
                step = -1 if event.key() == Qt.Key.Key_Up else 1
                self._choose(min(max(self._line + step, 0), len(self._lines) - 1), None)
            case Qt.Key.Key_Left | Qt.Key.Key_Right if self._lines:
                step = -1 if event.key() == Qt.Key.Key_Left else 1
                ticks = self._lines[self._line].ticks
                self._choose(self._line, min(max(self._tick + step, 0), len(ticks) - 1))
            case Qt.Key.Key_Return | Qt.Key.Key_Enter if self.chosen_tick() is not None:
                self._open()
            case _:
                super().keyPressEvent(event)

    def _choose(self, line: int, tick: int | None) -> None:
        """Choose a tick on a line; where none is told, the last one up to the day."""
        ticks = self._lines[line].ticks
        if tick is None:
            tick = sum(1 for each in ticks if each.day <= self._on) - 1
        self._line, self._tick = line, tick
        self._describe()
        self._bring_into_view()
        self.update()

    def _bring_into_view(self) -> None:
        parent = self.parentWidget()
        area = parent.parentWidget() if parent is not None else None
        if isinstance(area, QScrollArea):
            room, bar = self.laid_out().rows[self._line].room, area.verticalScrollBar()
            if room.bottom() > bar.value() + area.viewport().height():
                bar.setValue(int(min(room.top(), room.bottom() - area.viewport().height())))
            elif room.top() < bar.value():
                bar.setValue(int(room.top()) if self._line else 0)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """A click on a tick chooses and opens it; one beside it chooses the line."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        found = self.laid_out().tick_at(event.position())
        line = self.laid_out().row_at(event.position().y())
        if found is not None:
            self._choose(*found)
            self._open()
        elif line is not None:
            self._choose(line, None)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Show that a tick can be opened."""
        over = self.laid_out().tick_at(event.position()) is not None
        self.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """Show where the keys are."""
        super().focusInEvent(event)
        self.update()

    def event(self, event: QEvent) -> bool:
        """Tell in a tool tip what lies under the mouse."""
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self._told_at(event.pos()), self)
            return True
        return super().event(event)

    def _told_at(self, where: QPoint) -> str:
        found = self.laid_out().tick_at(where.toPointF())
        if found is not None:
            return tick_spoken(self.laid_out().rows[found[0]].line.ticks[found[1]])
        line = self.laid_out().row_at(float(where.y()))
        return "" if line is None else line_spoken(self.laid_out().rows[line].line)

    def _open(self) -> None:
        tick = self.chosen_tick()
        if tick is not None:
            self.evidence_opened.emit(tick.kind, tick.key)


def _same(tick: Tick, other: Tick | None) -> bool:
    return other is not None and (tick.kind, tick.key) == (other.kind, other.key)
