"""The tables of a record as they are today: one for each kind of fact, the editions and the acts.

A fact's table has its kind's columns and, before them, ``id`` (1, 2, 3 … without gaps), ``entry``
(the id of the fact's first revision), ``revision`` (1, 2 …) and ``act``; ``digest``, after them, is
that of the row (see ``digests``). ``struck`` is 1 in a revision that strikes its fact out, which
is a copy of the one before, and empty in all others. A reference is stored as the *entry* it
refers to, in ``NAME_id``; an instant in two columns, UTC text of fixed width and the offset in
whole minutes in which it was entered; several choices as one text with ``;`` between them.

``seals`` has what is left of rows whose contents were taken out: where they stood, the act that
recorded them (``of``) and their digest. ``credentials`` alone is no part of the journal: by the
name of a key, its private half, wrapped under what Argon2id makes of the passphrase, and how often
in a row a wrong one was tried.
"""

from collections.abc import Iterator
from typing import Final

from sqlalchemy import (
    CheckConstraint,
    Column,
    Date,
    Double,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.sql.schema import SchemaItem

from crewtrack import facts

APPLICATION_ID: Final = 0x43726577
"""Marks the file as ours, in the SQLite header ("Crew" in ASCII)."""

EDITIONS: Final = "editions"
ACTS: Final = "acts"
SEALS: Final = "seals"
CREDENTIALS: Final = "credentials"

TABLES: Final = tuple(kind.name for kind in facts.RECORDED)
"""The tables of facts; an entry's key never changes from revision to revision."""

_NAMES: Final = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ix": "ix_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}


def stored_names(column: facts.Column) -> tuple[str, ...]:
    """The names of the SQL columns that hold one column of a kind."""
    match column.type:
        case facts.Reference():
            return (f"{column.name}_id",)
        case facts.Instant():
            return (column.name, f"{column.name}_offset")
        case _:
            return (column.name,)


def may_be_empty(column: facts.Column) -> bool:
    """Whether the SQL columns of one column of a kind may hold nothing."""
    always = column.required or isinstance(column.type, facts.Instant)
    return not always and column.default in (None, ())


def _act() -> Column[int]:
    # Deferred: the act's own row needs the digests of all its rows, so it comes last.
    owner = ForeignKey(f"{ACTS}.seq", deferrable=True, initially="DEFERRED")
    return Column("act", Integer, owner, nullable=False)


def _digest() -> Iterator[SchemaItem]:
    yield Column("digest", LargeBinary, nullable=False)
    yield CheckConstraint("length(digest) = 32", name="digest_length")


def _limits(column: facts.Column) -> Iterator[CheckConstraint]:
    """What the database itself checks of one column."""
    name, kind = column.name, column.type
    match kind:
        case facts.Key():
            bound = f"length({name}) BETWEEN 1 AND {facts.KEY_LENGTH}"
            yield CheckConstraint(bound, name=f"{name}_length")
        case facts.Whole() | facts.Number():
            bound = f'"{name}" BETWEEN {kind.least} AND {kind.most}'
            yield CheckConstraint(bound, name=f"{name}_range")
        case facts.Choice():
            words = ", ".join(f"'{word}'" for word in kind.options)
            yield CheckConstraint(f"{name} IN ({words})", name=f"{name}_choice")
        case facts.Instant():
            yield CheckConstraint(f"length({name}) = 20", name=f"{name}_length")
            offset = f"{name}_offset BETWEEN -1439 AND 1439"
            yield CheckConstraint(offset, name=f"{name}_offset_range")
        case _:
            return


def _columns(column: facts.Column) -> Iterator[SchemaItem]:
    optional = may_be_empty(column)
    match column.type:
        case facts.Reference(kind):
            referred = ForeignKey(f"{kind}.id")
            yield Column(f"{column.name}_id", Integer, referred, nullable=optional)
        case facts.Day():
            yield Column(column.name, Date, nullable=optional)
        case facts.Whole():
            yield Column(column.name, Integer, nullable=optional)
        case facts.Number():
            yield Column(column.name, Double, nullable=optional)
        case facts.Instant():
            yield Column(column.name, Text, nullable=optional)
            yield Column(f"{column.name}_offset", Integer, nullable=optional)
        case _:
            yield Column(column.name, Text, nullable=optional)
    yield from _limits(column)


def metadata() -> MetaData:
    """All tables, described in full: what the migrations come to. Made when asked for, since no
    answer needs it."""
    made = MetaData(naming_convention=_NAMES)
    for kind in facts.RECORDED:
        _fact_table(made, kind)
    _editions_table(made)
    _acts_table(made)
    _seals_table(made)
    _credentials_table(made)
    return made


def _fact_table(made: MetaData, kind: facts.Kind) -> None:
    table = Table(
        kind.name,
        made,
        Column("id", Integer, primary_key=True, autoincrement=False),
        Column("entry", Integer, ForeignKey(f"{kind.name}.id"), nullable=False),
        Column("revision", Integer, nullable=False),
        _act(),
        *(item for column in kind.columns for item in _columns(column)),
        *_digest(),
        Column("struck", Integer),
        CheckConstraint("revision >= 1", name="revision_range"),
        CheckConstraint("struck IS NULL OR (struck = 1 AND revision > 1)", name="struck_later"),
        CheckConstraint("(revision = 1) = (id = entry)", name="entry_first"),
        Index(None, "act"),
    )
    key = [
        name for column in kind.columns if column.name in kind.key for name in stored_names(column)
    ]
    first, later = text("revision = 1"), text("revision > 1")
    for name, columns, where in (
        (f"ix_{kind.name}_key", key, first),
        (f"ix_{kind.name}_revised", ["entry", "revision"], later),
    ):
        Index(name, *(table.c[column] for column in columns), unique=True,
              sqlite_where=where)  # fmt: skip


def _editions_table(made: MetaData) -> None:
    Table(
        EDITIONS,
        made,
        Column("id", Integer, primary_key=True, autoincrement=False),
        _act(),
        Column("edition", Text, nullable=False),
        Column("effective", Date, nullable=False),
        Column("source", Text, nullable=False),
        *_digest(),
        UniqueConstraint("edition"),
        UniqueConstraint("effective"),
        Index(None, "act"),
    )


def _acts_table(made: MetaData) -> None:
    Table(
        ACTS,
        made,
        Column("seq", Integer, primary_key=True, autoincrement=False),
        Column("id", Text, nullable=False),
        Column("instant", Text, nullable=False),
        Column("author", Text, nullable=False),
        Column("kind", Text, nullable=False),
        Column("reason", Text),
        Column("facts", Text, nullable=False),
        Column("previous", Text, nullable=False),
        Column("digest", Text, nullable=False),
        Column("edition", Text),
        Column("signatures", Text),
        UniqueConstraint("id"),
        CheckConstraint("seq >= 1", name="seq_range"),
        CheckConstraint("length(instant) = 27", name="instant_length"),
        CheckConstraint("length(previous) = 64", name="previous_length"),
        CheckConstraint("length(digest) = 64", name="digest_length"),
    )


def _seals_table(made: MetaData) -> None:
    Table(
        SEALS,
        made,
        Column("id", Integer, primary_key=True, autoincrement=False),
        _act(),
        Column("kind", Text, nullable=False),
        *(
            Column(name, Integer, nullable=False, index=name == "of")
            for name in ("row", "entry", "revision", "of")
        ),
        *_digest(),
        UniqueConstraint("kind", "row"),
        Index(None, "act"),
    )


def _credentials_table(made: MetaData) -> None:
    numbers = ("memory", "passes", "lanes", "tries")
    Table(
        CREDENTIALS,
        made,
        Column("key", Text, primary_key=True),
        *(Column(name, LargeBinary, nullable=False) for name in ("salt", "nonce", "wrapped")),
        *(Column(name, Integer, nullable=False) for name in numbers),
        Column("tried", Text),
    )
