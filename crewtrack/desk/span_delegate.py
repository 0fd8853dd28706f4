"""A cell that shows spans of days as bars, along the same days as the day line."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QWidget

from crewtrack.desk.rows_model import ROLE_ROW, Index
from crewtrack.desk.standing_delegate import paint_ground
from crewtrack.desk.theme import Theme
from crewtrack.engine.spans import Span
from crewtrack.screens.strip_days import around

_WIDE: Final = 16
"""The width asked for, in lines of text."""
_BAR: Final = 0.4
"""A bar's height in the cell's."""


class SpanDelegate(QStyledItemDelegate):
    """Paints the ``spans`` of a row along ``days``, with a marker at ``day``."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self.day = date(2000, 1, 1)
        self.days = around(self.day)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802
        """Wide enough to tell months apart."""
        hint = super().sizeHint(option, index)
        return QSize(_WIDE * option.fontMetrics.lineSpacing(), hint.height())

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """The months as thin rules, the bars, then the marker."""
        paint_ground(painter, option)
        box, days, shades = QRectF(option.rect), self.days, self._theme.shades
        painter.save()
        painter.setClipRect(option.rect)
        painter.setPen(QPen(self._theme.colour(shades.rule), 1))
        for month in days.months():
            _upright(painter, box, days.share(month))
        self._bars(painter, box, index.data(ROLE_ROW).spans)
        painter.setPen(QPen(self._theme.colour(shades.accent), 2))
        _upright(painter, box, days.middle(self.day))
        painter.restore()

    def _bars(self, painter: QPainter, box: QRectF, spans: Sequence[Span]) -> None:
        """In full as far as the day, lighter after it."""
        days = self.days
        now = days.share(self.day)
        ink = self._theme.colour(self._theme.shades.standing["current"])
        for span in spans:
            end = 1.0 if span.last is None else days.share(span.last) + 1 / len(days)
            left, right = (min(max(at, 0.0), 1.0) for at in (days.share(span.first), end))
            for start, until, strength in (
                (left, min(right, now), 0.5),
                (max(left, now), right, 0.2),
            ):
                ink.setAlphaF(strength)
                painter.fillRect(_bar(box, start, until), ink)


def _bar(box: QRectF, start: float, until: float) -> QRectF:
    high, wide = box.height() * _BAR, max(0.0, until - start) * box.width()
    return QRectF(box.left() + start * box.width(), box.center().y() - high / 2, wide, high)


def _upright(painter: QPainter, box: QRectF, share: float) -> None:
    at = round(box.left() + share * box.width())
    painter.drawLine(at, round(box.top()), at, round(box.bottom()))
