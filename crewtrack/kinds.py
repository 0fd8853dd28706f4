"""What a kind of fact is: its columns, and what each of them holds.

A fact travels as a *row*: a tuple of values in the order of its kind's columns, ``None`` where
nothing was recorded. Values are ``str``, ``int``, ``float``, ``date``, an aware ``datetime`` with
the offset it was entered in, or a tuple of ``str`` for ``Choices``.
"""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

KEY_LENGTH: Final = 40
LINE_LENGTH: Final = 200
TEXT_LENGTH: Final = 10_000

Value = str | int | float | date | datetime | tuple[str, ...] | None
Row = tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Text:
    """Free text of at most ``longest`` characters; ``lines`` allows line breaks."""

    longest: int = LINE_LENGTH
    lines: bool = False


@dataclass(frozen=True, slots=True)
class Key:
    """The unit's own key: text without control characters, 1 to 40 characters."""


@dataclass(frozen=True, slots=True)
class Reference:
    """The key of a fact of another kind (``people``, ``sorties``, …)."""

    kind: str


@dataclass(frozen=True, slots=True)
class InStandard:
    """A name that some edition of the standard defines: ``tasks``, ``qualifications`` or
    ``requirements`` (an id written in the standard)."""

    table: str


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar date, ISO 8601."""


@dataclass(frozen=True, slots=True)
class Instant:
    """A point in time, ISO 8601, with the offset it was entered in."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number from ``least`` to ``most``, both included."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Number:
    """A decimal number from ``least`` to ``most``, both included."""

    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words."""

    options: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choices:
    """Any of a few words, ``;`` between them in a file."""

    options: tuple[str, ...]


Type = Text | Key | Reference | InStandard | Day | Instant | Whole | Number | Choice | Choices


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a kind. ``default`` stands where a file leaves the cell empty."""

    name: str
    type: Type
    required: bool = False
    default: Value = None


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of fact. ``name`` names the file (``people.csv``), the sheet and the table;
    ``one`` is the word for a single one; ``key`` the columns that tell two apart."""

    name: str
    one: str
    key: tuple[str, ...]
    columns: tuple[Column, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The columns' names, in order."""
        return tuple(column.name for column in self.columns)

    def index(self, name: str) -> int:
        """The position of a column in a row."""
        return self.names.index(name)
