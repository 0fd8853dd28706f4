"""The deck picture, painted: the boat in a ring of true directions, winds, current, and which way
an aircraft goes."""

from collections.abc import Iterator, Sequence
from typing import Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from crewtrack.desk.theme import Theme
from crewtrack.engine.deck import Picture
from crewtrack.screens.deck_scene import Arrow, Ink, Mark, Scene, Spot, at, scene
from crewtrack.screens.language import say
from crewtrack.screens.placing import Box, placed

_DASHES: Final[dict[Ink, list[float]]] = {"drift": [5, 3], "hold": [1, 2.5]}
_BOAT: Final = (
    (0.0, -0.24), (0.055, -0.13), (0.075, 0.0), (0.07, 0.2), (-0.07, 0.2), (-0.075, 0.0),
    (-0.055, -0.13),
)  # fmt: skip
_POINTS: Final = {0: "N", 90: "E", 180: "S", 270: "W"}


class DeckPicture(QWidget):
    """Shows a picture, or a sentence on what is missing for one. The bow is up, or north is."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._picture: Picture | None = None
        self._missing = ""
        self.bow_up = True
        self.setAccessibleName(say("Deck picture"))
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_picture(self, picture: Picture | None, missing: str, spoken: str) -> None:
        """Show a picture, or what is missing; ``spoken`` is read aloud in its stead."""
        self._picture, self._missing = picture, missing
        self.setAccessibleDescription(spoken or missing)
        self.update()

    def set_bow_up(self, bow_up: bool) -> None:
        """Turn the picture: the bow up, else north up."""
        self.bow_up = bow_up
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Room for the ring and the words around it."""
        side = self._theme.line() * 22
        return QSize(side, side)

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """The least at which the words do not lie on one another."""
        side = self._theme.line() * 17
        return QSize(side, side)

    def heightForWidth(self, width: int) -> int:  # noqa: N802 - Qt's name
        """As high as it is wide, up to a size at which nothing is gained any more."""
        return min(width, self._theme.line() * 26)

    def paintEvent(self, _: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._theme.font(0.9))
        if self._picture is None:
            painter.setPen(self._theme.colour(self._theme.shades.quiet))
            flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
            painter.drawText(QRectF(self.rect()), flags, self._missing)
            return
        _Painting(painter, self._theme, QRectF(self.rect())).draw(scene(self._picture, self.bow_up))


class _Painting:
    """One painting of a scene."""

    def __init__(self, painter: QPainter, theme: Theme, room: QRectF) -> None:
        self._painter = painter
        self._theme = theme
        self._room = room
        self._line = painter.fontMetrics().lineSpacing()
        self._radius = min(room.width() / 2 - 2.2 * self._line, room.height() / 2 - 2 * self._line)
        shades = theme.shades
        self._inks: dict[Ink, QColor] = {
            "wind": QColor(shades.wind),
            "deck": QColor(shades.accent),
            "water": QColor(shades.water),
            "drift": QColor(shades.text),
            "hold": QColor(shades.text),
            "back": QColor(shades.accent),
        }

    def draw(self, drawn: Scene) -> None:
        """Everything, the words last."""
        self._ring(drawn)
        self._boat(drawn)
        for arrow in drawn.arrows:
            self._arrow(arrow)
        if drawn.back is not None:
            self._back_mark(drawn.back.angle)
        self._words(drawn)

    def _point(self, spot: Spot) -> QPointF:
        centre = self._room.center()
        return QPointF(centre.x() + spot.x * self._radius, centre.y() + spot.y * self._radius)

    def _pen(self, shade: str | QColor, width: float = 1.0) -> QPen:
        return QPen(QColor(shade), max(1.0, width * self._line / 14))

    def _ring(self, drawn: Scene) -> None:
        shades, painter = self._theme.shades, self._painter
        painter.setBrush(QColor(shades.panel))
        painter.setPen(self._pen(shades.strong_rule))
        painter.drawEllipse(self._room.center(), self._radius, self._radius)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for true, angle in drawn.ticks:
            long = true % 30 == 0
            painter.setPen(self._pen(shades.quiet if long else shades.strong_rule))
            inner, outer = (self._point(at(angle, far)) for far in (1.0, 1.045 if long else 1.025))
            painter.drawLine(inner, outer)
            if long:
                told = _POINTS.get(true, f"{true:03d}")
                painter.setFont(self._theme.font(0.9, bold=true in _POINTS))
                self._centred(told, at(angle, self._out(1.05)), shades.text)
        painter.setFont(self._theme.font(0.9))

    def _out(self, far: float) -> float:
        """A little further out than the ring's ticks, whatever its size."""
        return far + 0.75 * self._line / self._radius

    def _centred(self, told: str, spot: Spot, shade: str) -> None:
        self._painter.setPen(QColor(shade))
        point = self._point(spot)
        box = QRectF(0, 0, 8 * self._line, self._line)
        box.moveCenter(point)
        self._painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), told)

    def _boat(self, drawn: Scene) -> None:
        painter, shades = self._painter, self._theme.shades
        painter.setPen(self._pen(shades.rule))
        for angle in (drawn.bow, drawn.bow + 90, drawn.bow + 180, drawn.bow + 270):
            painter.drawLine(self._point(at(angle, 0.27)), self._point(at(angle, 1.0)))
        painter.save()
        painter.translate(self._room.center())
        painter.rotate(drawn.bow)
        painter.setPen(self._pen(shades.text, 1.4))
        painter.setBrush(QColor(shades.window))
        painter.drawPath(_hull(self._radius))
        painter.restore()
        if drawn.faced is not None:
            painter.setPen(self._pen(shades.text, 2.5))
            painter.drawLine(self._point(Spot(0, 0)), self._point(at(drawn.faced, 0.2)))

    def _arrow(self, arrow: Arrow) -> None:
        ink, painter = self._inks[arrow.ink], self._painter
        pen = self._pen(ink, 3.0 if arrow.ink in ("deck", "wind", "water") else 2.0)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if arrow.ink in _DASHES:
            pen.setDashPattern(_DASHES[arrow.ink])
        start, end = self._point(arrow.start), self._point(arrow.end)
        way = end - start
        length = (way.x() ** 2 + way.y() ** 2) ** 0.5
        unit = QPointF(way.x() / length, way.y() / length)
        head = 0.7 * self._line
        painter.setPen(pen)
        painter.drawLine(start, end - unit * (0.8 * head))
        across = QPointF(-unit.y(), unit.x()) * (0.38 * head)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink if arrow.ink != "hold" else QColor(self._theme.shades.panel))
        if arrow.ink == "hold":
            painter.setPen(self._pen(ink, 1.4))
        back = end - unit * head
        painter.drawPolygon(QPolygonF([end, back + across, back - across]))
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _back_mark(self, angle: float) -> None:
        """A wedge on the ring, pointing outward: steer there."""
        painter, wide = self._painter, 0.35 * self._line / self._radius * 57
        tip = self._point(at(angle, 1.0))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._inks["back"])
        far = 1 - 0.55 * self._line / self._radius
        painter.drawPolygon(
            QPolygonF([tip, self._point(at(angle - wide, far)), self._point(at(angle + wide, far))])
        )
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _words(self, drawn: Scene) -> None:
        """The words beside the arrows, where they cover nothing."""
        quiet = QColor(self._theme.shades.quiet)
        told: list[tuple[str, QColor, tuple[Box, ...]]] = [
            (arrow.told, self._inks[arrow.ink], tuple(self._beside(arrow)))
            for arrow in drawn.arrows
        ]
        told += [(each.told, quiet, tuple(self._on_axis(each))) for each in drawn.sides]
        if drawn.back is not None:
            spot = at(drawn.back.angle, 0.86)
            boxes = tuple(self._around(drawn.back.told, (spot,)))
            told.append((drawn.back.told, self._inks["back"], boxes))
        found = placed([boxes for _, _, boxes in told], [*self._covered(drawn)], _box(self._room))
        for (words, ink, _), box in zip(told, found, strict=True):
            ground = QRectF(box.x, box.y, box.wide, box.high)
            self._painter.fillRect(ground, QColor(self._theme.shades.panel))
            self._painter.setPen(ink)
            self._painter.drawText(ground, int(Qt.AlignmentFlag.AlignCenter), words)

    def _beside(self, arrow: Arrow) -> Iterator[Box]:
        """Where the words of an arrow could stand, the nearest places first."""
        yield from self._around(arrow.told, [_along(arrow, part) for part in (0.5, 0.2, 0.8)])

    def _around(self, told: str, spots: Sequence[Spot]) -> Iterator[Box]:
        wide, high = self._size(told)
        points = [self._point(spot) for spot in spots]
        for far in (0.35, 0.7, 1.2, 2.0):
            gap = far * self._line
            for point in points:
                for x in (point.x() + gap, point.x() - gap - wide):
                    for y in (-high / 2, -high - gap / 2, gap / 2):
                        yield Box(x, point.y() + y, wide, high)
                for y in (-gap - high, gap):
                    yield Box(point.x() - wide / 2, point.y() + y, wide, high)

    def _on_axis(self, mark: Mark) -> Iterator[Box]:
        """Where a side's name could stand: on its own line, else close to it."""
        wide, high = self._size(mark.told)
        for far in (0.45, 0.6, 0.8, 0.35):
            point = self._point(at(mark.angle, far))
            yield Box(point.x() - wide / 2, point.y() - high / 2, wide, high)
        yield from self._around(mark.told, [at(mark.angle, 0.3), at(mark.angle, 0.45)])

    def _size(self, told: str) -> tuple[float, float]:
        metrics = self._painter.fontMetrics()
        return metrics.horizontalAdvance(told) + self._line * 0.4, float(self._line)

    def _covered(self, drawn: Scene) -> Iterator[Box]:
        """Small boxes along the arrows and the boat."""
        side = 0.6 * self._line
        spots = [Spot(0, 0), at(drawn.bow, 0.22)]
        for across in (at(drawn.bow + 90, 0.07), at(drawn.bow + 270, 0.07)):
            along = (at(drawn.bow, far) for far in (-0.2, -0.1, 0.0, 0.1))
            spots += [Spot(one.x + across.x, one.y + across.y) for one in along]
        for arrow in drawn.arrows:
            spots += [_along(arrow, part / 8) for part in range(9)]
        for spot in spots:
            point = self._point(spot)
            yield Box(point.x() - side / 2, point.y() - side / 2, side, side)
        if drawn.back is not None:
            point = self._point(at(drawn.back.angle, 0.97))
            yield Box(point.x() - side, point.y() - side, 2 * side, 2 * side)
        for true, angle in drawn.ticks:
            if true % 30 == 0:
                point = self._point(at(angle, self._out(1.05)))
                yield Box(
                    point.x() - self._line, point.y() - side, 2 * self._line, float(self._line)
                )


def _hull(radius: float) -> QPainterPath:
    """The boat's outline, the bow up."""
    points = [QPointF(x * radius, y * radius) for x, y in _BOAT]
    path = QPainterPath(points[0])
    path.quadTo(points[1], points[2])
    for point in points[3:6]:
        path.lineTo(point)
    path.quadTo(points[6], points[0])
    return path


def _along(arrow: Arrow, part: float) -> Spot:
    return Spot(
        arrow.start.x + part * (arrow.end.x - arrow.start.x),
        arrow.start.y + part * (arrow.end.y - arrow.start.y),
    )


def _box(room: QRectF) -> Box:
    return Box(room.x(), room.y(), room.width(), room.height())
