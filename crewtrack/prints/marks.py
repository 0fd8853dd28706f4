"""The shape of each standing, told apart by its outline alone.

A shape is a set of closed polygons in a unit square, y *down*; a point inside an odd number of
them is inked.
"""

from collections.abc import Mapping
from math import cos, pi, sin
from types import MappingProxyType
from typing import Final

from crewtrack.engine.standings import Word

Point = tuple[float, float]
Polygon = tuple[Point, ...]
Shape = tuple[Polygon, ...]


def _disc(radius: float, corners: int = 24) -> Polygon:
    turns = (2 * pi * corner / corners for corner in range(corners))
    return tuple((0.5 + radius * cos(turn), 0.5 + radius * sin(turn)) for turn in turns)


def _diamond(reach: float) -> Polygon:
    return ((0.5, 0.5 - reach), (0.5 + reach, 0.5), (0.5, 0.5 + reach), (0.5 - reach, 0.5))


def _bar(left: float, top: float, right: float, bottom: float) -> Polygon:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _cross(thick: float) -> Polygon:
    """A saltire whose arms end square in the corners."""
    t = thick
    quarter = ((0.0, t), (t, 0.0), (0.5, 0.5 - t), (1 - t, 0.0), (1.0, t), (0.5 + t, 0.5))
    return (*quarter, *((1 - x, 1 - y) for x, y in quarter))


SHAPES: Final[Mapping[Word, Shape]] = MappingProxyType(
    {
        "current": (_disc(0.46),),
        "due": (((0.5, 0.02), (1.0, 0.94), (0.0, 0.94)),),
        "lapsed": (_cross(0.2),),
        "training": (_diamond(0.54), _diamond(0.3)),
        "stood-down": (_bar(0.1, 0.06, 0.38, 0.94), _bar(0.62, 0.06, 0.9, 0.94)),
        "none": (_bar(0.2, 0.43, 0.8, 0.57),),
    }
)


def inked(shape: Shape, x: float, y: float) -> bool:
    """Whether a point of the unit square is inked."""
    return sum(_inside(polygon, x, y) for polygon in shape) % 2 == 1


def _inside(polygon: Polygon, x: float, y: float) -> bool:
    """Whether a ray to the right of the point crosses the outline an odd number of times."""
    crossings = 0
    for (x1, y1), (x2, y2) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            crossings += 1
    return crossings % 2 == 1
