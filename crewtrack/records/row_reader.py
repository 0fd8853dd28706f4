"""One kind's rows, read one after the other as verifying finds them."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection

from crewtrack.facts import Kind, Row
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import UNREADABLE
from crewtrack.records.stored import layout


def revised(connection: Connection, kind: Kind) -> dict[int, int]:
    """The entries that have revisions, each with the number of none so far."""
    sql = f"SELECT DISTINCT entry FROM {kind.name} NOT INDEXED WHERE revision > 1"
    return {entry: 0 for (entry,) in fetch(connection, sql)}


@dataclass(slots=True)
class RowReader:
    """Reads a kind's rows, in the order of their ids. ``revised`` has the number of the last
    revision seen of each entry that has more than one, ``keys`` the entries' keys."""

    kind: Kind
    decode: Callable[[Any], Row]
    line: Callable[..., str]
    revised: dict[int, int]
    keys: dict[int, Any] = field(default_factory=dict)

    def row(self, values: Any) -> Row | None:
        """The row; None where there can be no such row."""
        try:
            return self.decode(values)
        except UNREADABLE:
            return None

    def misplaced(self, head: Any, row: Row) -> str | None:
        """What is wrong with a row's id, entry and revision number, if anything."""
        ident, entry, revision = head
        if (revision == 1) != (ident == entry):
            return f"row {ident} is no revision {revision} of row {entry}"
        if entry not in self.revised:
            return None
        key = layout(self.kind).key_of(row)
        if revision != self.revised[entry] + 1 or self.keys.setdefault(entry, key) != key:
            return f"row {ident} does not follow the revision before it"
        self.revised[entry] = revision
        return None
