"""Entries by the keys of their facts, and keys by entries: what references are looked up in.

A fact that is struck out keeps its key and its entry, so it is found here like any other.
"""

from typing import Any, Final

from sqlalchemy import Connection

from crewtrack import facts
from crewtrack.facts import Kind
from crewtrack.records.connecting import fetch
from crewtrack.records.stored import Keys, layout

_FEW: Final = 1_000
"""Up to so many rows, what they refer to is looked up one by one: of a long history all keys take
longer."""


def referred(kind: Kind) -> tuple[str, ...]:
    """The names of the kinds that a kind refers to, each once."""
    names = (c.type.kind for c in kind.columns if isinstance(c.type, facts.Reference))
    return tuple(dict.fromkeys(names))


def kind_named(name: str) -> Kind:
    """The kind whose table has a name."""
    return next(kind for kind in facts.RECORDED if kind.name == name)


def key_column(name: str) -> str:
    """The one SQL column of the key of a kind that others refer to."""
    (column,) = layout(kind_named(name)).key
    return column


def key_by_entry(connection: Connection, name: str, after: int = 0) -> dict[int, str]:
    """The keys of a kind's facts by their entries, of those after an entry."""
    select = f"SELECT id, {key_column(name)} FROM {name} WHERE revision = 1"
    if not after:
        return dict(fetch(connection, select))
    return dict(fetch(connection, f"{select} AND id > ?", (after,)))


def find_entry(connection: Connection, kind: Kind, key: tuple[Any, ...]) -> int | None:
    """The entry whose key's SQL columns hold ``key``."""
    same = " AND ".join(f"{name} = ?" for name in layout(kind).key)
    found = connection.exec_driver_sql(
        f"SELECT id FROM {kind.name} WHERE revision = 1 AND {same}", key
    )
    entry = found.scalar_one_or_none()
    return None if entry is None else int(entry)


class EntryByKey(dict[str, int]):
    """The entries of a kind's facts by their keys, looked up as they are asked for."""

    def __init__(self, connection: Connection, name: str) -> None:
        super().__init__()
        self._connection = connection
        self._name = name
        self._kind = kind_named(name)
        self._loaded = False

    def __missing__(self, key: str) -> int:
        entry = find_entry(self._connection, self._kind, (key,))
        if entry is None:
            raise LookupError(f"no {self._kind.one} {key!r}")
        self[key] = entry
        return entry

    def load(self) -> None:
        """Look all of them up at once, the first time."""
        if self._loaded:
            return
        self._loaded = True
        entries = key_by_entry(self._connection, self._name)
        self.update(zip(entries.values(), entries, strict=True))


class KeyByEntry(dict[int, str]):
    """The keys of a kind's facts by their entries, looked up as they are asked for; KeyError for
    an entry that is not there."""

    def __init__(self, connection: Connection, name: str) -> None:
        super().__init__()
        self._connection = connection
        self._select = f"SELECT {key_column(name)} FROM {name} WHERE id = ? AND revision = 1"

    def __missing__(self, entry: int) -> str:
        rows = fetch(self._connection, self._select, (entry,))
        if not rows:
            raise KeyError(entry)
        self[entry] = str(rows[0][0])
        return self[entry]


def few_keys(connection: Connection, kind: Kind) -> Keys:
    """The keys of what a kind refers to, for a few rows of it."""
    return {name: KeyByEntry(connection, name) for name in referred(kind)}


def keys_for(connection: Connection, kind: Kind, rows: int) -> Keys:
    """The keys of what a kind refers to, in the way that is faster for so many rows of it."""
    return few_keys(connection, kind) if rows <= _FEW else all_keys(connection, kind)


def all_keys(connection: Connection, *kinds: Kind) -> Keys:
    """The keys of what kinds refer to, all of them at once."""
    names = dict.fromkeys(name for kind in kinds for name in referred(kind))
    return {name: key_by_entry(connection, name) for name in names}
