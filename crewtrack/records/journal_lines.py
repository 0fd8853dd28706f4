"""The journal written out, so that anybody can check it with a program of their own.

One line for each act, in the order of the chain, followed by one for each of its rows. A row's
line *is* what was digested; the SHA-256 over its UTF-8 bytes is its digest. An act's line is
``{"act":{…},"digest":"…"}``: the digest is the SHA-256 over the bytes of the inner object as it
stands, ``previous`` in it the digest of the act before, and ``facts`` has for each kind the count
of the rows and the SHA-256 over their digests (32 bytes each), in the order of the lines.

In the place of a row that was sealed stands ``{"kind":"…","sealed":"…"}``: its kind, and the digest
that it had. The act that sealed it is followed by the lines of its seals, kind ``seals``.
"""

import json
from collections.abc import Iterator
from datetime import date
from heapq import merge

from sqlalchemy import Connection

from crewtrack.facts import RECORDED, Kind
from crewtrack.records import journal, sealing
from crewtrack.records.damage import as_recorded, is_struck
from crewtrack.records.digests import edition_line, line_writer
from crewtrack.records.entries import all_keys
from crewtrack.records.reading import ALL, Reading
from crewtrack.records.stored import Keys, decoder, layout
from crewtrack.records.tables import EDITIONS, SEALS


def journal_lines(reading: Reading, seq: int | None = None) -> Iterator[str]:
    """The lines, without line ends, of the acts through ``seq`` (None: of all)."""
    connection = reading.connection
    keys = all_keys(connection, *RECORDED)
    for act in journal.acts(connection, ALL if seq is None else seq):
        with as_recorded(f"act {act.seq}"):
            told = json.loads(act.facts)
            line = journal.act_line(act, told)
        yield f'{{"act":{line},"digest":"{act.digest}"}}'
        if EDITIONS in told:
            yield from _editions(connection, act.seq)
        for kind in RECORDED:
            if kind.name in told:
                yield from _with_sealed(connection, kind, act.seq, keys)
        if SEALS in told:
            yield from (seal.line() for seal in sealing.seals_by(connection, act.seq))


def _editions(connection: Connection, act: int) -> Iterator[str]:
    rows = connection.exec_driver_sql(
        "SELECT edition, effective, source FROM editions WHERE act = ? ORDER BY id", (act,)
    )
    for edition, effective, source in rows:
        with as_recorded(EDITIONS):
            line = edition_line(edition, date.fromisoformat(effective), source)
        yield line


def _with_sealed(connection: Connection, kind: Kind, act: int, keys: Keys) -> Iterator[str]:
    """The lines of an act's rows of a kind, sealed ones in their places."""
    left = sealing.sealed_of(connection, act).get(kind.name)
    rows = _rows(connection, kind, act, keys)
    if not left:
        return (line for _, line in rows)
    sealed = ((ident, sealing.sealed_line(kind.name, held)) for ident, held in left.items())
    return (line for _, line in merge(rows, sealed))


def _rows(connection: Connection, kind: Kind, act: int, keys: Keys) -> Iterator[tuple[int, str]]:
    """The ids of an act's rows of a kind, and their lines."""
    decode, line = decoder(kind, keys), line_writer(kind)
    rows = connection.exec_driver_sql(
        f"SELECT id, revision, struck, {layout(kind).selected} FROM {kind.name} WHERE act = ?"
        " ORDER BY id",
        (act,),
    )
    for ident, revision, struck, *values in rows:
        with as_recorded(f"act {act}, {kind.name}"):
            text = line(revision, decode(values), is_struck(kind, struck))
        yield ident, text
