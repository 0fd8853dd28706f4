"""Where words can stand beside what they name without lying on one another."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

_FURTHER: Final = 0.012
"""How much of a box may rather be covered than that the words stand one place further away."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle: its left upper corner, how wide and how high it is."""

    x: float
    y: float
    wide: float
    high: float

    def overlap(self, other: "Box") -> float:
        """The area that two have in common."""
        across = min(self.x + self.wide, other.x + other.wide) - max(self.x, other.x)
        down = min(self.y + self.high, other.y + other.high) - max(self.y, other.y)
        return max(0.0, across) * max(0.0, down)

    def outside(self, bounds: "Box") -> float:
        """The area of it that lies outside of another."""
        return self.wide * self.high - self.overlap(bounds)


def placed(wanted: Sequence[Sequence[Box]], taken: Iterable[Box], bounds: Box) -> tuple[Box, ...]:
    """For each word the best of its boxes, which are given nearest first: free, within the bounds,
    and near. ``taken`` are boxes where nothing else may stand."""
    filled = list(taken)
    found: list[Box] = []
    for boxes in wanted:
        costs = (
            _cost(box, filled, bounds) + _FURTHER * place * box.wide * box.high
            for place, box in enumerate(boxes)
        )
        best = min(zip(costs, boxes, strict=True), key=lambda each: each[0])[1]
        filled.append(best)
        found.append(best)
    return tuple(found)


def _cost(box: Box, filled: Iterable[Box], bounds: Box) -> float:
    return 12 * sum(box.overlap(other) for other in filled) + 12 * box.outside(bounds)
