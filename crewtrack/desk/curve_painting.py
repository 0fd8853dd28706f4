"""Painting the day line's curve: the steps, the minimum, and the days below it."""

from datetime import date, timedelta
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from crewtrack.desk.theme import Theme
from crewtrack.screens.day_curve import Curve, Step
from crewtrack.screens.month_words import month_told
from crewtrack.screens.shades import FILL
from crewtrack.screens.strip_days import StripDays

HEADROOM: Final = 0.35
"""Of a line of text, above the highest step."""


class CurvePainting:
    """One curve on one rectangle: where a day and a count lie on it."""

    def __init__(self, theme: Theme, curve: Curve, days: StripDays, plot: QRectF) -> None:
        self.theme, self.curve, self.days, self.plot = theme, curve, days, plot
        self._step = (plot.height() - HEADROOM * theme.line()) / curve.top

    def x(self, day: date) -> float:
        """Where a day starts."""
        return self.plot.left() + self.days.share(day) * self.plot.width()

    def y(self, count: int) -> float:
        """How high a count stands."""
        return self.plot.bottom() - count * self._step

    def paint(self, painter: QPainter, today: date) -> None:
        """All but the marker."""
        paint_months(painter, self.theme, self.days, self.plot)
        self._paint_future(painter, today)
        for step in self.curve.steps():
            if step.low:
                self._paint_low(painter, step)
        self._paint_steps(painter)
        self._paint_least(painter)
        self._paint_counts(painter)

    def _span(self, step: Step) -> tuple[float, float]:
        first = self.curve.first_day + timedelta(days=step.at)
        return self.x(first), self.x(first) + step.days * self.plot.width() / len(self.days)

    def _paint_future(self, painter: QPainter, today: date) -> None:
        """A rule on the border between what was and what will be."""
        if today in self.days:
            x = self.x(today)
            painter.setPen(QPen(QColor(self.theme.shades.quiet), 1, Qt.PenStyle.DotLine))
            painter.drawLine(QLineF(x, self.plot.top(), x, self.plot.bottom()))

    def _paint_low(self, painter: QPainter, step: Step) -> None:
        """What is lacking below the minimum: tinted and hatched, so that it shows without
        colour."""
        left, right = self._span(step)
        room = QRectF(left, self.plot.top(), max(right - left, 1.0), self.plot.height())
        shades = self.theme.shades
        painter.fillRect(room, QColor(shades.tint["lapsed"]))
        lacking = QRectF(
            left, self.y(step.least), room.width(), self.y(step.count) - self.y(step.least)
        )
        painter.fillRect(
            lacking, QBrush(QColor(shades.standing["lapsed"]), Qt.BrushStyle.BDiagPattern)
        )

    def _paint_steps(self, painter: QPainter) -> None:
        shades = self.theme.shades
        corners = QPolygonF()
        for step in self.curve.steps():
            left, right = self._span(step)
            corners.append(QPointF(left, self.y(step.count)))
            corners.append(QPointF(right, self.y(step.count)))
        floor = QPolygonF(corners)
        floor.append(QPointF(self.plot.right(), self.plot.bottom()))
        floor.prepend(QPointF(self.plot.left(), self.plot.bottom()))
        fill = QColor(shades.standing["current"])
        fill.setAlphaF(FILL)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(fill)
        painter.drawPolygon(floor)
        painter.setPen(QPen(QColor(shades.standing["current"]), self._thick()))
        painter.drawPolyline(corners)

    def _paint_least(self, painter: QPainter) -> None:
        pen = QPen(QColor(self.theme.shades.text), 1, Qt.PenStyle.DashLine)
        painter.setPen(pen)
        for step in self.curve.steps():
            if step.least:
                left, right = self._span(step)
                painter.drawLine(QLineF(left, self.y(step.least), right, self.y(step.least)))

    def _paint_counts(self, painter: QPainter) -> None:
        """The scale at the left: none, the minimum, the most."""
        painter.setFont(self.theme.font(0.85))
        painter.setPen(QColor(self.theme.shades.quiet))
        metrics = QFontMetricsF(painter.font())
        least = max(self.curve.least, default=0)
        taken: list[float] = []
        for count in (least, self.curve.top, 0):
            y = self.y(count)
            if all(abs(y - other) >= metrics.height() * 0.9 for other in taken):
                taken.append(y)
                width = metrics.horizontalAdvance(str(count))
                room = QPointF(
                    self.plot.left() - width - metrics.averageCharWidth(),
                    y + metrics.ascent() / 2.6,
                )
                painter.drawText(room, str(count))

    def _thick(self) -> float:
        return max(1.5, self.theme.line() / 10)


def paint_months(
    painter: QPainter, theme: Theme, days: StripDays, plot: QRectF, above: bool = False
) -> None:
    """A thin rule where each month begins, and its name below it, or ``above``."""
    shades = theme.shades
    painter.setFont(theme.font(0.85))
    metrics = QFontMetricsF(painter.font())
    base = plot.top() - metrics.descent() if above else plot.bottom() + metrics.ascent() * 1.1
    taken: list[tuple[float, float]] = []
    for month in sorted(days.months(), key=lambda first: first.month != 1):
        x = plot.left() + days.share(month) * plot.width()
        painter.setPen(QColor(shades.strong_rule if month.month == 1 else shades.rule))
        painter.drawLine(QLineF(x, plot.top(), x, plot.bottom()))
        end = x + metrics.horizontalAdvance(month_told(month) + "   ")
        if end <= plot.right() and all(end <= left or right <= x for left, right in taken):
            painter.setPen(QColor(shades.text if month.month == 1 else shades.quiet))
            painter.drawText(QPointF(x, base), month_told(month))
            taken.append((x, end))
    painter.setPen(QColor(shades.strong_rule))
    painter.drawLine(QLineF(plot.left(), plot.bottom(), plot.right(), plot.bottom()))


def paint_marker(painter: QPainter, theme: Theme, x: float, plot: QRectF) -> None:
    """The day's marker: an upright through the plot with a head above it."""
    shade, size = QColor(theme.shades.accent), theme.line() * 0.3
    painter.setPen(QPen(shade, max(1.5, theme.line() / 10)))
    painter.drawLine(QLineF(x, plot.top() - size, x, plot.bottom()))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(shade)
    top = plot.top() - size
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(x - size, top - size),
                QPointF(x + size, top - size),
                QPointF(x, top + size * 0.6),
            ]
        )
    )
