"""Tables as values: what each column says of a row, and how it sorts; no toolkit knows how."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import date
from typing import Any

from crewtrack.engine.standings import Word


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column. ``text`` is what a cell shows; ``order`` what it sorts by (the text where
    None); ``spoken`` the sentence that is read aloud (title and text where None); ``word`` the
    standing whose shape and ink the cell bears. Where ``ready`` is there and says no, sorting takes
    long and is to wait until ``prepare`` has run."""

    title: str
    text: Callable[[Any], str]
    order: Callable[[Any], Any] | None = None
    spoken: Callable[[Any], str] | None = None
    word: Callable[[Any], Word | None] | None = None
    right: bool = False
    ready: Callable[[], bool] | None = None
    prepare: Callable[[], object] | None = None

    def said(self, row: Any) -> str:
        """The sentence of a cell."""
        if self.spoken is not None:
            return self.spoken(row)
        return f"{self.title}: {self.text(row) or '–'}"

    @property
    def waits(self) -> bool:
        """Whether ``prepare`` has to run before rows are sorted by it."""
        return self.ready is not None and not self.ready()

    def rank(self, row: Any) -> Any:
        """What a row sorts by in this column."""
        return self.text(row).casefold() if self.order is None else self.order(row)


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under columns. ``key`` tells one row from all others, also in a later table."""

    columns: tuple[TableColumn, ...]
    rows: tuple[Any, ...]
    key: Callable[[Any], Hashable]


def as_text(columns: tuple[TableColumn, ...], rows: tuple[Any, ...]) -> str:
    """Rows as text for the clipboard: a heading, then lines; tabs between cells."""
    lines = [[column.title for column in columns]]
    lines += [[_on_one_line(column.text(row)) for column in columns] for row in rows]
    return "\n".join("\t".join(line) for line in lines)


def _on_one_line(text: str) -> str:
    return " ".join(text.split())


def day_order(day: date | None, nothing: date = date.max) -> date:
    """A day to sort by, with a place for none: at the end, where not told otherwise."""
    return nothing if day is None else day
