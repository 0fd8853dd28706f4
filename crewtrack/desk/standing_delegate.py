"""Cells that bear a standing: its shape and its ink, on its tint."""

from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from crewtrack.desk.rows_model import ROLE_WORD, Index
from crewtrack.desk.shape_painter import paint_shape
from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import Word

_SIDE: Final = 0.75
_ROOM: Final = 1.5
"""The side of a shape and the room it takes, in heights of a capital letter's line."""


class StandingDelegate(QStyledItemDelegate):
    """Paints the shape before the word; cells without a standing as they always are."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802
        """Room for the shape, too."""
        hint = super().sizeHint(option, index)
        if index.data(ROLE_WORD) is None:
            return hint
        return QSize(hint.width() + round(option.fontMetrics.ascent() * _ROOM), hint.height())

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """The ground, the shape, then the word in its ink."""
        word: Word | None = index.data(ROLE_WORD)
        if word is None:
            super().paint(painter, option, index)
            return
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        shades = self._theme.shades
        if not chosen and word in shades.tint:
            painter.fillRect(option.rect, self._theme.colour(shades.tint[word]))
        paint_ground(painter, option)
        ink = self._theme.colour(shades.on_selected if chosen else shades.standing[word])
        ascent, box = option.fontMetrics.ascent(), QRectF(option.rect)
        side = ascent * _SIDE
        shape = QRectF(box.left() + ascent * 0.5, box.center().y() - side / 2, side, side)
        paint_shape(painter, word, shape, ink)
        painter.save()
        painter.setPen(ink)
        text = box.adjusted(ascent * _ROOM, 0, 0, 0)
        painter.drawText(text, Qt.AlignmentFlag.AlignVCenter, str(index.data()))
        painter.restore()


def paint_ground(painter: QPainter, option: QStyleOptionViewItem) -> None:
    """What lies under a cell's text: the selection, where it is selected."""
    panel = QStyle.PrimitiveElement.PE_PanelItemViewItem
    option.widget.style().drawPrimitive(panel, option, painter, option.widget)
