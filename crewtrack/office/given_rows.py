"""Rows of one kind that were given together, whatever they came in: a file, a sheet or a form."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from crewtrack.facts import Kind, Row, Value

FactKey = tuple[Value, ...]
"""The values of a kind's key columns."""


class GivenRows(Protocol):
    """What is checked against the record. ``whole`` is False where not every key among the rows
    could be read: then nothing can be said of what refers to them."""

    @property
    def kind(self) -> Kind:
        """What the rows are of."""

    @property
    def rows(self) -> Sequence[Row]:
        """The rows, with None where a cell could not be read."""

    @property
    def whole(self) -> bool:
        """Whether every key is known."""

    def at(self, index: int, /) -> str:
        """The place of a row, as a fault names it."""


@dataclass(frozen=True, slots=True)
class FormRows:
    """The rows of one kind in what a form hands in, at their places."""

    kind: Kind
    rows: tuple[Row, ...]
    places: tuple[str, ...]
    whole: bool = True

    def at(self, index: int, /) -> str:
        """The place of a row, as a fault names it."""
        return self.places[index]
