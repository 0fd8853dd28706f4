"""The strip of the day line: the curve, and the marker on its day."""

from datetime import date

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from crewtrack.desk.curve_painting import CurvePainting, paint_marker
from crewtrack.desk.theme import Theme
from crewtrack.screens.day_curve import Curve, summary, told
from crewtrack.screens.language import say
from crewtrack.screens.strip_days import StripDays, around, days_from, months_from


class DayStrip(QWidget):
    """The curve is painted once and kept; only the marker is painted anew when it moves.

    ``day_chosen`` tells the day that the marker was moved to, by mouse or key; ``released`` that a
    drag has ended.
    """

    day_chosen = Signal(object)
    released = Signal()

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._curve: Curve | None = None
        self._day = self._today = date(2000, 1, 1)
        self._days = around(self._day)
        self._kept: QPixmap | None = None
        self.dragging = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(say("Day line"))

    @property
    def days(self) -> StripDays:
        """The days that the strip shows."""
        return self._days

    @property
    def day(self) -> date:
        """The marker's day."""
        return self._day

    def show_curve(self, curve: Curve, days: StripDays, today: date) -> None:
        """Show another curve, or the same along other days."""
        if (curve, days, today) == (self._curve, self._days, self._today):
            return
        self._curve, self._days, self._today = curve, days, today
        self._forget()

    def mark(self, day: date) -> None:
        """Put the marker on a day."""
        before, self._day = self._day, day
        self._describe()
        for moved in (before, day):
            self.update(self._around_marker(moved).toAlignedRect())

    def _forget(self) -> None:
        self._kept = None
        self._describe()
        self.update()

    def _describe(self) -> None:
        if self._curve is not None:
            self.setAccessibleDescription(f"{told(self._curve, self._day)}. {summary(self._curve)}")

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as four lines of text."""
        return QSize(self._theme.line() * 30, self._theme.line() * 4)

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as three lines of text."""
        return QSize(self._theme.line() * 8, self._theme.line() * 3)

    def plot(self) -> QRectF:
        """Where the curve lies: room for the counts is at the left, for the months below."""
        metrics = QFontMetricsF(self._theme.font(0.85))
        side = metrics.horizontalAdvance("000") + metrics.averageCharWidth()
        top, foot = self._theme.line() * 0.65, metrics.height() * 1.15
        room = QRectF(self.rect())
        return room.adjusted(side, top, -self._theme.line() * 0.5, -foot)

    def x_of(self, day: date) -> float:
        """Where the marker stands on a day."""
        plot = self.plot()
        return plot.left() + self._days.middle(day) * plot.width()

    def _around_marker(self, day: date) -> QRectF:
        x, reach = self.x_of(day), float(self._theme.line())
        return QRectF(x - reach, 0, 2 * reach, self.height())

    def paintEvent(self, _: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The kept curve, and the marker upon it."""
        painter = QPainter(self)
        if self._curve is not None:
            if self._kept is None:
                self._kept = self._painted(self._curve)
            painter.drawPixmap(0, 0, self._kept)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._day in self._days:
            paint_marker(painter, self._theme, self.x_of(self._day), self.plot())
        if self.hasFocus():
            painter.setPen(QPen(self._theme.colour(self._theme.shades.accent), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _painted(self, curve: Curve) -> QPixmap:
        ratio = self.devicePixelRatioF()
        kept = QPixmap((self.size().toSizeF() * ratio).toSize())
        kept.setDevicePixelRatio(ratio)
        kept.fill(self._theme.colour(self._theme.shades.panel))
        painter = QPainter(kept)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        CurvePainting(self._theme, curve, self._days, self.plot()).paint(painter, self._today)
        painter.end()
        return kept

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Another size is another picture."""
        self._kept = None
        super().resizeEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Bring the marker here."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.dragging = True
            self._choose(self._day_under(event.position()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Drag the marker along."""
        if event.buttons() & Qt.MouseButton.LeftButton:
            self._choose(self._day_under(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Let the marker go."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.dragging = False
            self.released.emit()

    def _day_under(self, where: QPointF) -> date:
        plot = self.plot()
        return self._days.day_at((where.x() - plot.left()) / max(plot.width(), 1.0))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Left and Right go by a day, with Shift by a week, Page keys by a month, Home to today."""
        week = 7 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
        match event.key():
            case Qt.Key.Key_Left:
                self._choose(days_from(self._day, -week))
            case Qt.Key.Key_Right:
                self._choose(days_from(self._day, week))
            case Qt.Key.Key_PageUp:
                self._choose(months_from(self._day, -1))
            case Qt.Key.Key_PageDown:
                self._choose(months_from(self._day, 1))
            case Qt.Key.Key_Home:
                self._choose(self._today)
            case _:
                super().keyPressEvent(event)

    def _choose(self, day: date) -> None:
        if day != self._day:
            self.mark(day)
            self.day_chosen.emit(day)
