"""One act: all that is recorded at once, under one author and instant. All of it or nothing."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date
from itertools import chain, islice, repeat
from typing import Final

from sqlalchemy import Connection

from crewtrack.facts import Kind, Row
from crewtrack.records import journal, sealing
from crewtrack.records.canonical import Json
from crewtrack.records.digests import Tally, digest, edition_line, line_writer
from crewtrack.records.entries import EntryByKey, referred
from crewtrack.records.finding import newest_of
from crewtrack.records.journal import Draft, Head, PastAct, Signer
from crewtrack.records.reading import Reading
from crewtrack.records.stored import encoded, insertion, layout
from crewtrack.records.tables import EDITIONS, SEALS

_AT_ONCE: Final = 500
"""Rows written by one statement: enough for speed, and few enough for SQLite, which takes 32,766
values at once."""

_FEW: Final = 200
"""Up to so many rows, what they refer to is looked up one by one."""


_Written = tuple[int, int, int, Row]
"""A row with its id, its entry and its revision's number before it."""


class Act(Reading):
    """An act that is going on. Reading sees what it has recorded so far.

    Rows are taken as they are: whoever calls has checked them. KeyError or LookupError for a
    reference to a fact that is not there, ``sqlalchemy.exc.IntegrityError`` for a key that is
    there already: both are bugs of the caller.
    """

    def __init__(self, connection: Connection, draft: Draft) -> None:
        super().__init__(connection)
        self._draft = draft
        self._before: Head = journal.head(connection, None)
        self._ids: dict[str, EntryByKey] = {}
        self._tallies: dict[str, Tally] = {}
        self._edition: str | None = None
        self._signers: tuple[Signer, ...] = ()
        self._noted = False
        self.cancelled = False
        self.past: PastAct | None = None

    @property
    def seq(self) -> int:
        """The place in the chain that this act will have."""
        return self._before.seq + 1

    @property
    def kind(self) -> str:
        """The word for what is done."""
        return self._draft.kind

    @property
    def before(self) -> Head:
        """The last act before this one."""
        return self._before

    def cancel(self) -> None:
        """Record nothing of it, when it ends: a dry run."""
        self.cancelled = True

    def note(self) -> None:
        """Put the act into the journal even where it records no fact."""
        self._noted = True

    def sign(self, edition: str, *signers: Signer) -> None:
        """Have the act signed when it ends, under an edition of the standard."""
        self._edition, self._signers = edition, signers

    def add(self, kind: Kind, rows: Iterable[Row]) -> int:
        """Record new facts, in their order; returns how many."""
        numbered = enumerate(rows, self._next_id(kind.name))
        return self._write(kind, ((ident, ident, 1, row) for ident, row in numbered))

    def revise(self, kind: Kind, revisions: Sequence[tuple[int, int, Row]]) -> int:
        """Record new revisions of facts: ``(entry, number, row)``, with the number of the
        revision that the row takes the place of, as ``current`` gives both. A fact that was
        struck out is there again.

        ValueError where that is not the fact's newest revision, or the row has another key.
        """
        ident = self._next_id(kind.name)
        written = []
        for n, (entry, number, row) in enumerate(revisions):
            self._check_revision(kind, entry, number, row)
            written.append((ident + n, entry, number + 1, row))
        return self._write(kind, written)

    def strike(self, kind: Kind, struck: Sequence[tuple[int, int]]) -> int:
        """Strike facts out: ``(entry, number)``, as ``current`` gives both. Each gets a revision
        more, a copy of its newest one, from which on it is not there; returns how many.

        ValueError where the number is not that of the newest revision, or the fact is struck out
        already. Whoever calls has seen to it that nothing refers to them any more.
        """
        ident = self._next_id(kind.name)
        written = [
            (ident + n, entry, number + 1, self._standing(kind, entry, number))
            for n, (entry, number) in enumerate(struck)
        ]
        return self._write(kind, written, struck=True)

    def add_edition(self, edition: str, effective: date, source: str) -> None:
        """Record an edition of the standard: its name, its first day and its TOML text."""
        hashed = digest(edition_line(edition, effective, source))
        self._connection.exec_driver_sql(
            "INSERT INTO editions (id, act, edition, effective, source, digest)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            (self._next_id(EDITIONS), self.seq, edition, effective.isoformat(), source, hashed),
        )
        self._tallies.setdefault(EDITIONS, Tally()).add([hashed])

    def seal(self, entries: Mapping[str, Collection[int]]) -> int:
        """Take the contents of facts out, all revisions of each, by kind and entry; returns how
        many rows they were. Only within ``Record.sealing``.

        ValueError for the newest row of a table. Whoever calls has seen to it that nothing that
        stays refers to them.
        """
        digests = sealing.take_out(self._connection, self.seq, entries)
        if digests:
            self._tallies.setdefault(SEALS, Tally()).add(digests)
        return len(digests)

    def chain(self) -> PastAct | None:
        """Append the act to the journal; None where it has recorded nothing."""
        if not self._tallies and not self._noted:
            return None
        told: dict[str, Json] = {name: tally.told() for name, tally in self._tallies.items()}
        self.past = journal.chained(self._draft, told, self._before, self._edition, self._signers)
        journal.append(self._connection, self.past)
        return self.past

    def _write(self, kind: Kind, written: Iterable[_Written], struck: bool = False) -> int:
        """Write rows of a kind; returns how many."""
        given, count = iter(written), 0
        while some := list(islice(given, _AT_ONCE)):
            self._insert(kind, some, struck)
            count += len(some)
        return count

    def _insert(self, kind: Kind, written: Sequence[_Written], struck: bool) -> None:
        ids, entries, revisions, rows = zip(*written, strict=True)
        lines = map(line_writer(kind), revisions, rows, repeat(struck))
        digests = list(map(digest, lines))
        references = self._references(kind, len(rows))
        columns = (
            ids, entries, revisions, [self.seq] * len(rows), *encoded(kind, references, rows),
            # A bytearray is bound as it is; bytes would be offered to the driver's adapters first.
            list(map(bytearray, digests)), [1 if struck else None] * len(rows),
        )  # fmt: skip
        # So would every None: columns in which nothing stands are left out.
        filled = {
            name: values
            for name, values in zip(layout(kind).all, columns, strict=True)
            if values.count(None) < len(rows)
        }
        values = chain.from_iterable(zip(*filled.values(), strict=True))
        statement = insertion(kind.name, tuple(filled), len(rows))
        self._connection.exec_driver_sql(statement, tuple(values))
        self._tallies.setdefault(kind.name, Tally()).add(digests)

    def _references(self, kind: Kind, count: int) -> dict[str, EntryByKey]:
        """The entries that a kind's rows may refer to."""
        for name in referred(kind):
            if name not in self._ids:
                self._ids[name] = EntryByKey(self._connection, name)
            if count > _FEW:
                self._ids[name].load()
        return dict(self._ids)

    def _next_id(self, table: str) -> int:
        found = self._connection.exec_driver_sql(f"SELECT coalesce(max(id), 0) + 1 FROM {table}")
        return int(found.scalar_one())

    def _check_revision(self, kind: Kind, entry: int, number: int, row: Row) -> None:
        key = layout(kind).key_of(row)
        if self._entry(kind, key) != entry:
            raise ValueError(f"{kind.one} {key} is not entry {entry}")
        found = self._connection.exec_driver_sql(
            f"SELECT max(revision) FROM {kind.name} WHERE id = ? OR (entry = ? AND revision > 1)",
            (entry, entry),
        )
        if found.scalar_one() != number:
            raise ValueError(f"revision {number} of {kind.one} {key} is not the newest")

    def _standing(self, kind: Kind, entry: int, number: int) -> Row:
        """The row of a fact that is there, and whose newest revision has a number."""
        held = newest_of(self._connection, kind, entry)
        if held is None or held.number != number:
            raise ValueError(f"revision {number} of {kind.one} {entry} is not the newest")
        if held.struck:
            raise ValueError(f"{kind.one} {layout(kind).key_of(held.row)} is struck out already")
        return held.row
