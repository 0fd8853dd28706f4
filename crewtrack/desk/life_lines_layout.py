"""Where each life line lies: rules at the left, days in the middle, states at the right."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF

from crewtrack.desk.theme import Theme
from crewtrack.screens.life_lines import LifeLine, state_told
from crewtrack.screens.strip_days import StripDays

_RULE_SHARE: Final = 0.36


@dataclass(frozen=True, slots=True)
class Row:
    """One line's room: the whole of it, and its parts."""

    line: LifeLine
    room: QRectF
    rule: QRectF
    plot: QRectF
    state: QRectF


class Layout:
    """The rows of some life lines in a width, and what lies under a point."""

    def __init__(
        self, theme: Theme, lines: Sequence[LifeLine], days: StripDays, width: float
    ) -> None:
        self.theme, self.days = theme, days
        self._metrics = QFontMetricsF(theme.font())
        self._bold = QFontMetricsF(theme.font(bold=True))
        unit = theme.line()
        self._margin = unit * 0.5
        state = max(
            (self._metrics.horizontalAdvance(state_told(each)) for each in lines), default=0
        )
        self._rule_wide = max(width * _RULE_SHARE, unit * 8.0)
        left = self._margin + self._rule_wide + unit * 0.5
        self.top = unit * 1.25
        self.plot = QRectF(left, self.top, max(width - left - state - unit, unit * 4.0), 0)
        self.rows = self._placed(lines, width)
        self.plot.setBottom(self.rows[-1].room.bottom() if self.rows else self.top)

    @property
    def foot(self) -> float:
        """Where the lines end."""
        return self.plot.bottom()

    @property
    def height(self) -> float:
        """The height of all, with the legend."""
        return self.foot + self.theme.line() * 1.6

    def x(self, day: date) -> float:
        """Where the middle of a day lies."""
        return self.plot.left() + self.days.middle(day) * self.plot.width()

    def edges(self, first: date, last: date) -> tuple[float, float] | None:
        """Where a span begins and ends on the strip; None where none of it is on the strip."""
        if last < self.days.first or first > self.days.last:
            return None
        wide, left = self.plot.width(), self.plot.left()
        start = self.days.share(max(first, self.days.first))
        end = self.days.share(min(last, self.days.last)) + 1 / len(self.days)
        return left + start * wide, left + end * wide

    def row_at(self, y: float) -> int | None:
        """The line at a height."""
        found = (n for n, row in enumerate(self.rows) if row.room.top() <= y < row.room.bottom())
        return next(found, None)

    def tick_at(self, where: QPointF) -> tuple[int, int] | None:
        """The line and the tick nearest to a point, within reach of a finger."""
        number = self.row_at(where.y())
        if number is None:
            return None
        ticks = self.rows[number].line.ticks
        near = [
            (abs(self.x(tick.day) - where.x()), -place)
            for place, tick in enumerate(ticks)
            if tick.day in self.days
        ]
        away, place = min(near, default=(float("inf"), 0))
        return (number, -place) if away <= self.theme.line() * 0.5 else None

    def _placed(self, lines: Sequence[LifeLine], width: float) -> list[Row]:
        rows, top, air = [], self.top, self.theme.line() * 0.55
        for line in lines:
            indent = line.depth * self.theme.line() * 1.0
            metrics = self._bold if line.word else self._metrics
            asked = metrics.boundingRect(
                QRectF(0, 0, self._rule_wide - indent, 10_000), Qt.TextFlag.TextWordWrap, line.rule
            )
            high = asked.height() + air
            rows.append(
                Row(
                    line,
                    QRectF(0, top, width, high),
                    QRectF(
                        self._margin + indent, top + air / 2, self._rule_wide - indent, high - air
                    ),
                    QRectF(self.plot.left(), top, self.plot.width(), high),
                    QRectF(self.plot.right() + self.theme.line() * 0.5, top, width, high),
                )
            )
            top += high
        return rows
