"""Painting life lines: spans as bars, evidence as ticks, the day through all of them."""

from datetime import date
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from crewtrack.desk.curve_painting import paint_months
from crewtrack.desk.life_lines_layout import Layout, Row
from crewtrack.desk.shape_painter import paint_shape
from crewtrack.desk.theme import Theme
from crewtrack.screens.language import say
from crewtrack.screens.life_lines import Tick, TickKind, state_told
from crewtrack.screens.shades import AHEAD, PAST, blended

_BAR: Final = 0.42
"""Height of a bar, in lines of text."""


class LifeLinesPainting:
    """Paints a layout as of a day."""

    def __init__(self, theme: Theme, layout: Layout, on: date) -> None:
        self.theme, self.layout, self.on = theme, layout, on

    def paint(self, painter: QPainter) -> None:
        """All but the chosen tick."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_months(painter, self.theme, self.layout.days, self.layout.plot, above=True)
        for row in self.layout.rows:
            self._paint_row(painter, row)
        if self.on in self.layout.days:
            x = self.layout.x(self.on)
            painter.setPen(QPen(QColor(self.theme.shades.accent), max(1.5, self.theme.line() / 10)))
            painter.drawLine(QLineF(x, self.layout.top * 0.8, x, self.layout.foot))
        self._paint_legend(painter)

    def tick_room(self, row: Row, tick: Tick) -> QRectF:
        """The square around a tick."""
        size = self.theme.line() * 0.6
        return QRectF(
            self.layout.x(tick.day) - size / 2, row.plot.center().y() - size / 2, size, size
        )

    def _paint_row(self, painter: QPainter, row: Row) -> None:
        shades = self.theme.shades
        painter.setPen(QColor(shades.rule))
        painter.drawLine(QLineF(row.room.bottomLeft(), row.room.bottomRight()))
        painter.setFont(self.theme.font(bold=row.line.word is not None))
        painter.setPen(QColor(shades.text))
        flags = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignVCenter
        painter.setClipRect(row.rule)
        painter.drawText(row.rule, flags, row.line.rule)
        painter.setClipping(False)
        self._paint_state(painter, row)
        for span in row.line.spans:
            self._paint_span(painter, row, span.first, span.last or date.max)
        for tick in row.line.ticks:
            if tick.day in self.layout.days:
                self._paint_tick(painter, tick, self.tick_room(row, tick))

    def _paint_state(self, painter: QPainter, row: Row) -> None:
        shades, word = self.theme.shades, row.line.word
        ink = shades.text if row.line.met else shades.fault
        if word is not None:
            ink = shades.standing[word]
            size = self.theme.line() * 0.6
            paint_shape(
                painter,
                word,
                QRectF(
                    row.state.left() - size * 0.2, row.state.center().y() - size / 2, size, size
                ),
                QColor(ink),
            )
        painter.setPen(QColor(ink))
        indent = self.theme.line() * 0.75 if word is not None else 0.0
        painter.drawText(
            row.state.adjusted(indent, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, state_told(row.line)
        )

    def _paint_span(self, painter: QPainter, row: Row, first: date, last: date) -> None:
        """A bar, lighter after the day; its rim stands out from all that it lies on."""
        edges = self.layout.edges(first, last)
        if edges is None:
            return
        shades, (left, right) = self.theme.shades, edges
        border = (
            self.layout.plot.left() + self.layout.days.share(self.on) * self.layout.plot.width()
        )
        border = min(max(border, left), right)
        high = self.theme.line() * (_BAR if row.line.word is None else _BAR * 1.5)
        top = row.plot.center().y() - high / 2
        ink = shades.standing["current"]
        for start, end, share in ((left, border, PAST), (border, right, AHEAD)):
            ground = QColor(blended(ink, shades.panel, share))
            painter.fillRect(QRectF(start, top, end - start, high), ground)
        painter.setPen(QPen(QColor(ink), 1))
        painter.drawLine(QLineF(left, top, right, top))
        painter.drawLine(QLineF(left, top + high, right, top + high))
        if last <= self.layout.days.last:
            painter.drawLine(QLineF(right, top, right, top + high))

    def _paint_tick(self, painter: QPainter, tick: Tick, room: QRectF) -> None:
        shades = self.theme.shades
        ink = QColor(shades.text if tick.counts else shades.quiet)
        paint_tick(painter, tick.kind, room, ink, tick.counts)
        if tick.failed:
            painter.setPen(QPen(QColor(shades.fault), max(1.5, self.theme.line() / 10)))
            painter.drawLine(QLineF(room.bottomLeft(), room.topRight()))

    def _paint_legend(self, painter: QPainter) -> None:
        painter.setFont(self.theme.font(0.85))
        metrics, size = QFontMetricsF(painter.font()), self.theme.line() * 0.55
        ink = QColor(self.theme.shades.quiet)
        x, base = self.layout.plot.left(), self.layout.foot + self.theme.line() * 1.15
        kinds: tuple[tuple[TickKind, str], ...] = (
            ("performance", say("sortie")),
            ("sign-off", say("sign-off")),
            ("certificate", say("certificate")),
        )
        for kind, told in kinds:
            paint_tick(painter, kind, QRectF(x, base - size, size, size), ink, True)
            painter.setPen(ink)
            painter.drawText(QPointF(x + size * 1.4, base), told)
            x += size * 1.4 + metrics.horizontalAdvance(told + "    ")
        painter.drawText(QPointF(x, base), say("filled or bold: counts on the day"))


def paint_tick(painter: QPainter, kind: TickKind, room: QRectF, ink: QColor, counts: bool) -> None:
    """One tick: an upright for a sortie, a wedge for a sign-off, a square for a certificate;
    filled, or bold, where it counts."""
    thin = max(1.0, room.width() / 9)
    painter.setPen(QPen(ink, thin * (2.4 if counts and kind == "performance" else 1.0)))
    painter.setBrush(QBrush(ink) if counts else Qt.BrushStyle.NoBrush)
    middle = room.center()
    match kind:
        case "performance":
            painter.drawLine(QLineF(middle.x(), room.top(), middle.x(), room.bottom()))
        case "sign-off":
            painter.drawPolygon(
                QPolygonF([room.topLeft(), room.topRight(), QPointF(middle.x(), room.bottom())])
            )
        case "certificate":
            inset = room.width() * 0.12
            painter.drawRect(room.adjusted(inset, inset, -inset, -inset))
