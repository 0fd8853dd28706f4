"""What a style sheet can't say: check boxes, frames and bars in the theme's colours and size."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QProxyStyle, QPushButton, QStyle, QStyleOption, QWidget

from crewtrack.screens.shades import Shades

_TICK = ((0.2, 0.52), (0.42, 0.74), (0.8, 0.28))


class PlainStyle(QProxyStyle):
    """Fusion, with check boxes that can be seen in every theme, and parts that grow with the text;
    ``line`` is the height of a line of it in pixels."""

    def __init__(self, shades: Shades, line: int) -> None:
        super().__init__("Fusion")
        self._shades, self._line = shades, line

    def pixelMetric(  # noqa: N802 - Qt's name
        self,
        metric: QStyle.PixelMetric,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
    ) -> int:
        """How large a part of a control is."""
        match metric:
            case QStyle.PixelMetric.PM_IndicatorWidth | QStyle.PixelMetric.PM_IndicatorHeight:
                return self._line * 4 // 5
            case QStyle.PixelMetric.PM_CheckBoxLabelSpacing:
                return self._line // 3
            case QStyle.PixelMetric.PM_ScrollBarExtent:
                return self._line * 3 // 4
            case _:
                return super().pixelMetric(metric, option, widget)

    def drawPrimitive(  # noqa: N802 - Qt's name
        self,
        element: QStyle.PrimitiveElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        """Draw one part of a control."""
        if element == QStyle.PrimitiveElement.PE_IndicatorCheckBox:
            self._box(option, painter, _square(QRectF(option.rect)))
        elif element == QStyle.PrimitiveElement.PE_FrameFocusRect:
            if not isinstance(widget, QPushButton):  # whose rim the style sheet thickens
                self._frame(option, painter)
        else:
            super().drawPrimitive(element, option, painter, widget)

    def _frame(self, option: QStyleOption, painter: QPainter) -> None:
        """Where the keys are: a plain frame, without a ground of its own."""
        wide = max(1, self._line // 12)
        painter.save()
        painter.setPen(QPen(QColor(self._shades.accent), wide))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(option.rect).adjusted(wide / 2, wide / 2, -wide / 2, -wide / 2))
        painter.restore()

    def _box(self, option: QStyleOption, painter: QPainter, square: QRectF) -> None:
        focused = bool(option.state & QStyle.StateFlag.State_HasFocus)
        rim = self._shades.accent if focused else self._shades.strong_rule
        painter.save()
        painter.setPen(QPen(QColor(rim), 2 if focused else 1))
        painter.setBrush(QColor(self._shades.field))
        painter.drawRect(square.adjusted(1, 1, -1, -1))
        painter.restore()
        if option.state & QStyle.StateFlag.State_On:
            _line(painter, square, _TICK, self._shades.text)


def _square(rect: QRectF) -> QRectF:
    """The largest square in the middle of a rectangle."""
    side = min(rect.width(), rect.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(rect.center())
    return square


def _line(
    painter: QPainter, square: QRectF, points: tuple[tuple[float, float], ...], ink: str
) -> None:
    corners = [
        QPointF(square.left() + x * square.width(), square.top() + y * square.height())
        for x, y in points
    ]
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(QColor(ink), max(1.5, square.width() / 9))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    painter.drawPolyline(QPolygonF(corners))
    painter.restore()
