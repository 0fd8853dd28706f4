"""The shapes of the standings on the screen: the same outlines as on paper."""

from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPolygonF, QTransform

from crewtrack.engine.standings import Word
from crewtrack.prints.marks import SHAPES


@lru_cache(maxsize=16)
def outline(word: Word) -> QPainterPath:
    """A standing's shape in the unit square, y down."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for polygon in SHAPES[word]:
        path.addPolygon(QPolygonF([QPointF(x, y) for x, y in polygon]))
        path.closeSubpath()
    return path


def paint_shape(painter: QPainter, word: Word, rect: QRectF, colour: QColor) -> None:
    """Paint a standing's shape into a square."""
    fit = QTransform.fromTranslate(rect.left(), rect.top()).scale(rect.width(), rect.height())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillPath(fit.map(outline(word)), colour)
    painter.restore()
