"""Where evidence is read from: the facts that are there as of an act, and nothing of those that
refer to a sortie or a person that is struck out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import compress
from typing import Any, Final

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.facts import Kind
from crewtrack.records.damage import check_values
from crewtrack.records.newest import (
    Lists,
    newest,
    newest_columns,
    newest_or_struck,
    struck_entries,
)
from crewtrack.records.tables import stored_names


@dataclass(frozen=True, slots=True)
class Source:
    """The record as of an act. ``gone`` has the entries of sorties and people that are struck
    out, by the names of the SQL columns that refer to them."""

    connection: Connection
    through: int
    gone: Mapping[str, frozenset[int]]

    @classmethod
    def of(cls, connection: Connection, through: int) -> "Source":
        """The record as of an act."""
        gone: dict[str, frozenset[int]] = {}
        for kind in (facts.SORTIES, facts.PEOPLE):
            if struck := struck_entries(connection, kind, through):
                gone |= dict.fromkeys(_REFERRING[kind.name], struck)
        return cls(connection, through, gone)

    def rows(self, kind: Kind, columns: str) -> list[Any]:
        """The newest revisions, ``entry`` first."""
        rows = newest(self.connection, kind, columns, self.through)
        names = columns.split(", ")
        check_values(kind, names, rows)
        for place, name in enumerate(names):
            if struck := self.gone.get(name):
                rows = [row for row in rows if row[place] not in struck]
        return rows

    def columns(self, kind: Kind, columns: Sequence[str], named: Sequence[str]) -> Lists:
        """The newest revisions, as a list for each of the SQL ``columns``; ``named`` are the
        columns that refer to others, which are read apart only where something is struck out."""
        struck = [self.gone.get(name, frozenset()) for name in named]
        if not any(struck):
            return newest_columns(self.connection, kind, tuple(columns), self.through)
        both = (*columns, *(f"coalesce({name}, 0)" for name in named))
        lists = newest_columns(self.connection, kind, both, self.through)
        referring = zip(*lists[len(columns) :], strict=True)
        there = [
            all(entry not in entries for entry, entries in zip(row, struck, strict=True))
            for row in referring
        ]
        return [list(compress(column, there)) for column in lists[: len(columns)]]

    def craft(self, kind: Kind) -> dict[int | None, str | None]:
        """The kinds of craft, by entry, struck out or not: a sortie stays where its craft is
        struck out."""
        rows, _ = newest_or_struck(self.connection, kind, "entry, kind", self.through)
        check_values(kind, ("entry", "kind"), rows)
        return {None: None, **dict(rows)}


def _referring(kind: str) -> tuple[str, ...]:
    """The SQL columns that refer to facts of a kind."""
    return tuple(
        {
            name: None
            for other in facts.RECORDED
            for column in other.columns
            if column.type == facts.Reference(kind)
            for name in stored_names(column)
        }
    )


_REFERRING: Final = {kind.name: _referring(kind.name) for kind in (facts.SORTIES, facts.PEOPLE)}
