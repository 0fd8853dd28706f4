"""Painting a cell of the board: shape and word in the standing's ink, the date below them."""

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QFontMetricsF, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from crewtrack.desk.rows_model import ROLE_ROW, Index
from crewtrack.desk.shape_painter import paint_shape
from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import Word
from crewtrack.screens.board_table import BoardRow, cell_of, two_lines
from crewtrack.screens.language import say

_SMALL: Final = 0.9
"""The size of the lower line."""
_MOST_CELLS: Final = 4096


@dataclass(frozen=True, slots=True)
class _Look:
    """All that a cell's picture hangs on, but its size."""

    word: Word | None
    lines: tuple[str, str]
    selected: bool


class BoardDelegate(QStyledItemDelegate):
    """Paints the two lines of each cell."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self._large, self._small = theme.font(), theme.font(_SMALL)
        self._wide, self._narrow = QFontMetricsF(self._large), QFontMetricsF(self._small)
        self._cells: dict[tuple[_Look, int, int, float], QPixmap] = {}
        self._air = max(4, theme.line() // 2)
        self._shape = theme.line() * 0.95
        heights = (QFontMetrics(self._large).height(), QFontMetrics(self._small).height())
        self.row_height = sum(heights) + self._air * 2 // 3
        self._widest_date = self._narrow.horizontalAdvance(say("since {day}", day="0000-00-00"))

    def sizeHint(self, _: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802 - Qt's name
        """As wide as the wider line; a standing's column has room for its date on every day."""
        row: BoardRow = index.data(ROLE_ROW)
        upper, lower = two_lines(row, index.column())
        standing = cell_of(row, index.column()) is not None
        shape, least = (self._shape, self._widest_date) if standing else (0.0, 0.0)
        wide = max(
            self._wide.horizontalAdvance(upper), self._narrow.horizontalAdvance(lower), least
        )
        return QSize(int(shape + wide) + 2 * self._air + 1, self.row_height)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """A cell as it was painted when its like was first seen, and a frame around the one that
        the keys are on."""
        row: BoardRow = index.data(ROLE_ROW)
        cell = cell_of(row, index.column())
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        room = QRect(option.rect)
        ratio = painter.device().devicePixelRatioF()
        look = _Look(
            None if cell is None else cell.standing.word, two_lines(row, index.column()), selected
        )
        asked = (look, room.width(), room.height(), ratio)
        made = self._cells.get(asked)
        if made is None:
            if len(self._cells) > _MOST_CELLS:
                self._cells.clear()
            made = self._cells[asked] = self._made(look, room, ratio)
        painter.drawPixmap(room.topLeft(), made)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.save()
            self._paint_frame(painter, room)
            painter.restore()

    def _made(self, look: _Look, room: QRect, ratio: float) -> QPixmap:
        """A cell's picture, without a frame."""
        made = QPixmap(round(room.width() * ratio), round(room.height() * ratio))
        made.setDevicePixelRatio(ratio)
        made.fill(self._theme.colour(self._theme.shades.panel))
        here = QRect(0, 0, room.width(), room.height())
        painter = QPainter(made)
        self._paint_ground(painter, here, look)
        inner = QRectF(here).adjusted(self._air, 0, -self._air / 2, 0)
        inner.setTop(inner.top() + self._air / 3)
        if look.word not in (None, "none"):
            self._paint_shape(painter, inner, look)
            inner.setLeft(inner.left() + self._shape)
        self._paint_lines(painter, inner, look)
        painter.end()
        return made

    def _paint_ground(self, painter: QPainter, room: QRect, look: _Look) -> None:
        shades = self._theme.shades
        if look.selected:
            painter.fillRect(room, self._theme.colour(shades.selected))
        elif look.word is not None and look.word in shades.tint:
            painter.fillRect(room, self._theme.colour(shades.tint[look.word]))
        painter.setPen(self._theme.colour(shades.rule))
        painter.drawLine(room.bottomLeft(), room.bottomRight())

    def _paint_shape(self, painter: QPainter, inner: QRectF, look: _Look) -> None:
        shades, size = self._theme.shades, self._theme.line() * 0.6
        top = inner.top() + (self._wide.height() - size) / 2
        if look.word is not None:
            ink = shades.on_selected if look.selected else shades.standing[look.word]
            place = QRectF(inner.left(), top, size, size)
            paint_shape(painter, look.word, place, self._theme.colour(ink))

    def _paint_lines(self, painter: QPainter, inner: QRectF, look: _Look) -> None:
        shades, base = self._theme.shades, inner.top() + self._wide.ascent()
        inks = (shades.on_selected,) * 2 if look.selected else (shades.text, shades.quiet)
        below = inner.top() + self._wide.height() + self._narrow.ascent()
        set_in = ((self._large, self._wide, base), (self._small, self._narrow, below))
        for text, ink, (font, metrics, y) in zip(look.lines, inks, set_in, strict=True):
            painter.setFont(font)
            painter.setPen(self._theme.colour(ink))
            fits = metrics.elidedText(text, Qt.TextElideMode.ElideRight, inner.width())
            painter.drawText(QPointF(inner.left(), y), fits)

    def _paint_frame(self, painter: QPainter, room: QRect) -> None:
        wide = max(2, self._theme.line() // 9)
        painter.setPen(QPen(self._theme.colour(self._theme.shades.accent), wide))
        half = wide // 2
        painter.drawRect(room.adjusted(half, half, -half - 1, -half - 1))
