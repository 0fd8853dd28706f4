"""Verifying: the journal's chain, and every table against it.

Each row is read as it lies in the table, its digest worked out anew and compared with the one
beside it; the digests of an act's rows with what the act says of them; each act's own digest with
what it holds and with the act after it. So no byte of it can change unseen, short of the end of
the journal being cut off whole: against that stands the digest printed on paper.
"""

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Any, Final

from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError

from crewtrack.facts import RECORDED, Kind, Row
from crewtrack.phrases import joined, later, phrase
from crewtrack.records import journal
from crewtrack.records.canonical import canonical
from crewtrack.records.connecting import driver, fetch
from crewtrack.records.damage import UNREADABLE
from crewtrack.records.definitions import definitions, made_by_scripts
from crewtrack.records.digests import NO_DIGEST, Tally, digest, edition_line, line_writer
from crewtrack.records.entries import all_keys
from crewtrack.records.progress import Progress, silent
from crewtrack.records.reading import ALL
from crewtrack.records.row_reader import RowReader, revised
from crewtrack.records.seal_breaks import Seals, ill_signed, read_seals
from crewtrack.records.store import Record
from crewtrack.records.stored import decoder, get_date, layout
from crewtrack.records.tables import EDITIONS, SEALS

_AT_ONCE: Final = 10_000
_MAIN: Final = "*** in database main ***"
_CHANGED: Final = "what is recorded here is not what the act recorded"


@dataclass(frozen=True, slots=True)
class Break:
    """One thing that is not as it was recorded. ``act`` is the place in the chain, None where
    it can't be told; ``kind`` the table, ``key`` the fact's key; both may be empty."""

    act: int | None
    kind: str
    key: str
    problem: str
    said: str = field(default="", compare=False)
    """The act's day in UTC and its author, as the act says; empty where that can't be read."""

    @property
    def told(self) -> str:
        """Where it is, and what, as a sentence that knows how it was made."""
        act = "" if self.act is None else phrase("act {number}{said}", number=self.act,
                                                 said=self.said)  # fmt: skip
        return joined(": ", (joined(", ", (act, f"{self.kind} {self.key}".strip())), self.problem))

    def __str__(self) -> str:
        return str(self.told)


def verify(record: Record, progress: Progress = silent) -> tuple[Break, ...]:
    """All breaks in a record; none where everything is as it was recorded."""
    with record.reading() as reading:
        return breaks(reading.connection, progress)


def breaks(connection: Connection, progress: Progress) -> tuple[Break, ...]:
    """All breaks, from within a transaction on the record."""
    driver(connection).text_factory = _tolerant
    found = _Found(connection, progress)
    for step in (_soundness, _definitions, _editions, _seals, *map(_facts_of, RECORDED), _chain):
        with found.readable():
            step(found)
    return tuple(replace(one, said=found.said.get(one.act, "")) for one in found.breaks)


def _tolerant(stored: bytes) -> str:
    """Text that may have been damaged: what is no UTF-8 stays different from all that is."""
    return stored.decode("utf-8", "surrogateescape")


@dataclass(slots=True)
class _Found:
    """What has been found so far. ``tallies`` are those of the rows as they lie in the tables,
    by act and table; ``told`` the acts and tables of which a break is told already; ``said`` what
    the acts say of themselves, in words."""

    connection: Connection
    progress: Progress
    breaks: list[Break] = field(default_factory=list)
    tallies: dict[tuple[int, str], Tally] = field(default_factory=dict)
    told: set[tuple[int | None, str]] = field(default_factory=set)
    said: dict[int | None, str] = field(default_factory=dict)
    seals: Seals = field(default_factory=Seals)

    def add(self, act: int | None, kind: str, key: object, problem: str) -> None:
        """Note a break, in one line that can be shown: it may quote what is damaged."""
        shown = [str(one).encode("utf-8", "replace").decode() for one in (kind, key, problem)]
        self.breaks.append(Break(act, *(" ".join(one.split()) for one in shown)))
        self.told.add((act, kind))

    def tally(self, act: int, kind: str, digests: list[bytes]) -> None:
        """Count rows to their act, in the order of their ids."""
        self.tallies.setdefault((act, kind), Tally()).add(digests)

    @contextmanager
    def readable(self) -> Iterator[None]:
        """Within, what SQLite can't read any more is a break."""
        try:
            yield
        except (DBAPIError, sqlite3.Error, UnicodeDecodeError) as error:
            why = error.orig if isinstance(error, DBAPIError) else error
            self.add(None, "", "", f"the file can't be read whole: {why}")


def _soundness(found: _Found) -> None:
    """The file's structure, its constraints and its references, as SQLite checks them."""
    found.progress(later("the file"), 0, 1)
    for (line,) in fetch(found.connection, "PRAGMA integrity_check(20)"):
        if line != "ok":
            found.add(None, "", "", f"the file is damaged: {line.removeprefix(_MAIN)}")
    for table, row, parent, _ in fetch(found.connection, "PRAGMA foreign_key_check"):
        found.add(None, table, f"row {row}", f"refers to nothing in {parent}")
    found.progress(later("the file"), 1, 1)


def _definitions(found: _Found) -> None:
    """The tables, their indexes and the triggers that keep what is recorded as it is."""
    there = definitions(found.connection)
    for (type_, name), (table, wanted) in made_by_scripts().items():
        if there.pop((type_, name), None) != (table, wanted):
            what = f"its {_TYPES[type_]} {name}" if type_ != "table" else "its definition"
            found.add(None, table, "", f"{what} is missing or changed")
    for type_, name in there:
        article = "an" if type_ == "index" else "a"
        found.add(None, "", "", f"{article} {type_} {name} is there that no crewtrack made")


_TYPES: Final = {"index": "index", "trigger": "guard"}


def _editions(found: _Found) -> None:
    sql = "SELECT id, act, edition, effective, source, digest FROM editions ORDER BY id"
    for expected, row in enumerate(fetch(found.connection, sql), start=1):
        ident, act, edition, effective, source, held = row
        if ident != expected:
            found.add(act, EDITIONS, edition, f"stands in row {ident} instead of {expected}")
        hashed = _hashed(_edition_line, edition, effective, source)
        if hashed != held:
            found.add(act, EDITIONS, edition, _CHANGED)
        found.tally(act, EDITIONS, [hashed or b""])


def _seals(found: _Found) -> None:
    """What is left of rows that were sealed."""
    found.seals = read_seals(found.connection)
    for act, key, problem in found.seals.breaks:
        found.add(act, SEALS, key, problem)
    for act, digests in found.seals.tallied.items():
        found.tally(act, SEALS, digests)


def _edition_line(edition: str, effective: str, source: str) -> str:
    return edition_line(edition, get_date(effective), source)


def _hashed(line: Callable[..., str], *values: Any) -> bytes | None:
    """The digest of the line that is made of the values; None where there can be none."""
    try:
        return digest(line(*values))
    except UNREADABLE:
        return None


def _facts_of(kind: Kind) -> Callable[[_Found], None]:
    def step(found: _Found) -> None:
        _facts(found, kind)

    return step


def _facts(found: _Found, kind: Kind) -> None:
    """Every row of a kind."""
    connection, name = found.connection, kind.name
    sealed = found.seals.of_kind(name)
    total = fetch(connection, f"SELECT count(*) FROM {name} NOT INDEXED")[0][0] + len(sealed.left)
    decode = decoder(kind, all_keys(connection, kind))
    reader = RowReader(kind, decode, line_writer(kind), revised(connection, kind))
    sql = (
        f"SELECT id, entry, revision, act, digest, struck, {layout(kind).selected}"
        f" FROM {name} NOT INDEXED WHERE id > ? ORDER BY id LIMIT ?"
    )
    after = done = 0
    while rows := fetch(connection, sql, (after, _AT_ONCE)):
        digests: dict[int, list[bytes]] = {}
        for values in rows:
            for act, hashed in sealed.before(values[0]):
                digests.setdefault(act, []).append(hashed)
                done += 1
            if sealed.take(values[0]):
                found.add(values[3], name, f"row {values[0]}", "is sealed, and there all the same")
                total -= 1
            done += 1
            hashed = _check_row(found, reader, values, done)
            digests.setdefault(values[3], []).append(hashed)
        for act, of_act in digests.items():
            found.tally(act, name, of_act)
        if rows[-1][0] <= after:  # the tree leads round in a circle
            found.add(None, name, "", "its rows do not stand in their order")
            break
        after = rows[-1][0]
        found.progress(name, done, total)
    if sealed.left:
        found.add(None, name, "", "rows are sealed after which none comes")
    elif done != total:
        found.add(None, name, "", f"{total - done} rows stand before the first")


def _check_row(found: _Found, reader: RowReader, values: Any, expected: int) -> bytes:
    """Note what is wrong with a row; returns the digest of what it holds, empty where there can
    be none."""
    ident, entry, revision, act, held, struck, *columns = values
    name, row = reader.kind.name, reader.row(columns) if struck in (None, 1) else None
    hashed = None if row is None else _hashed(reader.line, revision, row, struck == 1)
    wrong = None if row is None else reader.misplaced((ident, entry, revision), row)
    if hashed != held or wrong:
        key = f"row {ident}" if row is None else _shown(reader.kind, row)
        found.add(act, name, key, _CHANGED if hashed != held else str(wrong))
    if ident != expected and (None, name) not in found.told:
        found.add(None, name, f"row {expected}", "is missing")
    return hashed or b""


def _shown(kind: Kind, row: Row) -> str:
    return " ".join(str(value) for value in layout(kind).key_of(row))


def _chain(found: _Found) -> None:
    """Every act: its digest, its place in the chain, and its rows."""
    before, expected = NO_DIGEST, 1
    for act in journal.acts(found.connection, ALL):
        found.said[act.seq] = said_of(act)
        if act.seq != expected:
            found.add(act.seq, "", "", f"stands where act {expected} should")
        if act.previous != before:
            found.add(act.seq, "", "", "is not chained to the act before it")
        if not _is_own_digest(act):
            found.add(act.seq, "", "", "its digest is not that of what it holds")
        _compare(found, act)
        if wrong := ill_signed(act):
            found.add(act.seq, SEALS, "", wrong)
        before, expected = act.digest, act.seq + 1
    for number, kind in sorted(found.tallies, key=str):
        if (number, kind) not in found.told:
            found.add(number, kind, "", "the act did not record these rows")


def said_of(act: journal.PastAct) -> str:
    """When an act was done, and by whom; empty where that can't be read."""
    try:
        author = act.author.encode("utf-8", "replace").decode()
        return f" ({act.at.date()}, {author})"
    except UNREADABLE:
        return ""


def _is_own_digest(act: journal.PastAct) -> bool:
    try:
        told = json.loads(act.facts)
        own = journal.with_digest(act, told).digest
        return own == act.digest and canonical(told) == act.facts
    except (TypeError, ValueError, AttributeError, RecursionError):
        return False


def _compare(found: _Found, act: journal.PastAct) -> None:
    """An act's rows, as they lie in the tables, against what the act says of them."""
    try:
        said = dict(json.loads(act.facts))
    except (TypeError, ValueError):
        said = {}
    for kind, told in said.items():
        there = found.tallies.pop((act.seq, kind), Tally()).told()
        if there != told and (act.seq, kind) not in found.told:
            found.add(act.seq, kind, "", "its rows are not those that the act recorded")
