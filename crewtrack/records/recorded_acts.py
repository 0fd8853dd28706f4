"""Every act with what it recorded, in the order of the chain: what signatures and duties are
judged by.

Only what matters to them is read. Of sorties and performances, of which there may be half a
million, that is what was put right later; what an act logged of them is read when somebody asks.
"""

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final

from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError

from crewtrack.facts import (
    AIRCRAFT,
    ASSIGNMENTS,
    CERTIFICATES,
    KEYS,
    PERFORMANCES,
    RECORDED,
    SORTIES,
    VESSELS,
    Kind,
    Row,
)
from crewtrack.records import journal
from crewtrack.records.connecting import fetch
from crewtrack.records.damage import UNREADABLE, NotAsRecorded, is_struck
from crewtrack.records.entries import keys_for
from crewtrack.records.journal import PastAct
from crewtrack.records.reading import ALL, StoredEdition
from crewtrack.records.stored import decoder, layout

BY_NAME: Final = (ASSIGNMENTS, VESSELS, AIRCRAFT, CERTIFICATES)
"""Kinds of which only that an act recorded some matters, and not what."""
FLOWN: Final = (SORTIES, PERFORMANCES)
_ALL_ROWS, _LATER, _NEW_OF = "1", "revision > 1", "act = ? AND revision = 1"
READ: Final = tuple(kind for kind in RECORDED if kind not in (*BY_NAME, *FLOWN))

_KEYS_AT: Final = {kind.name: tuple(map(kind.index, kind.key)) for kind in RECORDED}
# Acts by hand, from the first with a key on, in which a sortie is new without its author on board,
# or somebody performed on a sortie that is not new there.
_NOT_OWN: Final = """
    WITH by_hand AS (
        SELECT seq, (SELECT id FROM people WHERE revision = 1 AND person = author) AS author
        FROM acts WHERE kind <> 'import' AND seq >= (SELECT min(act) FROM keys)
    )
    SELECT sorties.act FROM by_hand JOIN sorties ON sorties.act = seq
    WHERE revision = 1 AND NOT EXISTS (
        SELECT 1 FROM performances WHERE performances.revision = 1
        AND sortie_id = sorties.id AND performances.act = seq
        AND (person_id = author OR supervisor_id = author)
    )
    UNION
    SELECT performances.act FROM by_hand JOIN performances ON performances.act = seq
    LEFT JOIN sorties ON sorties.id = sortie_id
    WHERE performances.revision = 1 AND sorties.act IS NOT performances.act
"""


@dataclass(frozen=True, slots=True)
class Wrote:
    """One row that an act recorded; ``struck`` where it strikes the fact out."""

    kind: Kind
    revision: int
    row: Row
    struck: bool = False

    @property
    def key(self) -> tuple[object, ...]:
        """The key's values."""
        return tuple([self.row[index] for index in _KEYS_AT[self.kind.name]])


@dataclass(frozen=True, slots=True)
class RecordedAct:
    """An act and what it recorded. ``told`` is what the act says of its rows, by kind; ``wrote``
    the rows that matter, kind by kind; ``flown`` gives the sorties and performances that are new,
    which need not be looked at where ``own`` says that its author was on all of these sorties;
    ``whole`` is False where some of it can't be read."""

    past: PastAct
    told: Mapping[str, Any]
    wrote: Sequence[Wrote] = ()
    editions: Sequence[StoredEdition] = ()
    flown: Callable[[], Sequence[Wrote]] = tuple
    whole: bool = True
    own: bool = False

    def counted(self, kind: str) -> int:
        """How many rows of a kind it recorded, as it says itself."""
        told = self.told.get(kind)
        count = told.get("count") if isinstance(told, dict) else None
        return count if isinstance(count, int) else 0


def recorded_acts(connection: Connection) -> Iterator[RecordedAct]:
    """The acts of a record, from within a transaction on it. Where nobody ever had a key they
    come without their rows."""
    rows = _Rows(connection)
    with _readable("what was recorded"):
        if fetch(connection, f"SELECT 1 FROM {KEYS.name} LIMIT 1"):
            rows.load()
    with _readable("the journal"):
        acts = list(journal.acts(connection, ALL))
    yield from map(rows.act, acts)


def _has_flown(rows: Sequence[Wrote]) -> bool:
    return any(row.kind in FLOWN for row in rows)


@contextmanager
def _readable(what: str) -> Iterator[None]:
    """Within, what can't be read is ``NotAsRecorded``, whatever is the matter with it."""
    try:
        yield
    except (*UNREADABLE, DBAPIError, sqlite3.Error) as error:
        raise NotAsRecorded(what) from error


@dataclass(slots=True)
class _Rows:
    """The rows that were read, by act; ``torn`` are acts with one that can't be."""

    connection: Connection
    by_act: dict[int, list[Wrote]] = field(default_factory=dict)
    editions: dict[int, list[StoredEdition]] = field(default_factory=dict)
    torn: set[int] = field(default_factory=set)
    not_own: set[int] = field(default_factory=set)

    def load(self) -> None:
        """Read what matters of every act."""
        for kind in READ:
            self._read(kind, _ALL_ROWS)
        for kind in FLOWN:
            self._read(kind, _LATER)
        self.not_own = {act for (act,) in fetch(self.connection, _NOT_OWN)}
        self.not_own |= {act for act, rows in self.by_act.items() if _has_flown(rows)}
        self._read_editions()

    def act(self, past: PastAct) -> RecordedAct:
        """An act with its rows."""
        told = journal.told_by(past)
        return RecordedAct(
            past,
            told or {},
            self.by_act.get(past.seq, ()),
            self.editions.get(past.seq, ()),
            lambda: self._flown(past.seq),
            told is not None and past.seq not in self.torn,
            past.seq not in self.not_own,
        )

    def _flown(self, act: int) -> Sequence[Wrote]:
        with _readable(f"act {act}"):
            found = [wrote for kind in FLOWN for _, wrote in self._rows(kind, _NEW_OF, (act,))]
        if None in found:
            raise NotAsRecorded(f"act {act}")
        return [wrote for wrote in found if wrote is not None]

    def _read(self, kind: Kind, where: str) -> None:
        for act, wrote in self._rows(kind, where):
            if wrote is None:
                self.torn.add(act)
            else:
                self.by_act.setdefault(act, []).append(wrote)

    def _rows(
        self, kind: Kind, where: str, parameters: tuple[int, ...] = ()
    ) -> Iterator[tuple[int, Wrote | None]]:
        """Rows with the act of each; None for one that can't be read."""
        names = layout(kind).selected
        sql = f"SELECT act, revision, struck, {names} FROM {kind.name} WHERE {where} ORDER BY id"
        rows = fetch(self.connection, sql, parameters)
        decode = decoder(kind, keys_for(self.connection, kind, len(rows)))
        for act, revision, struck, *values in rows:
            try:
                yield act, Wrote(kind, int(revision), decode(values), is_struck(kind, struck))
            except (*UNREADABLE, NotAsRecorded):
                yield act, None

    def _read_editions(self) -> None:
        sql = "SELECT act, edition, effective, source FROM editions ORDER BY id"
        for act, edition, effective, source in fetch(self.connection, sql):
            try:
                stored = StoredEdition(edition, date.fromisoformat(effective), source, act)
            except UNREADABLE:
                self.torn.add(act)
            else:
                self.editions.setdefault(act, []).append(stored)
