"""Trust: keys and signatures, certifications, occurrences, disputes, policies, and what is sealed.

The journal gets two columns, and nothing is made anew, so that indexes, triggers and digests stay
as they are.
"""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

Item = sa.Column[Any] | sa.CheckConstraint
Items = Sequence[Item]


def _text(name: str, nullable: bool = True) -> Items:
    return (sa.Column(name, sa.Text, nullable=nullable),)


def _day(name: str, nullable: bool = True) -> Items:
    return (sa.Column(name, sa.Date, nullable=nullable),)


def _key(table: str, name: str) -> Items:
    check = sa.CheckConstraint(
        f"length({name}) BETWEEN 1 AND 40", name=op.f(f"ck_{table}_{name}_length")
    )
    return sa.Column(name, sa.Text, nullable=False), check


def _choice(table: str, name: str, options: Sequence[str]) -> Items:
    words = ", ".join(f"'{option}'" for option in options)
    check = sa.CheckConstraint(f"{name} IN ({words})", name=op.f(f"ck_{table}_{name}_choice"))
    return sa.Column(name, sa.Text), check


def _instant(table: str, name: str) -> Items:
    return (
        sa.Column(name, sa.Text, nullable=False),
        sa.CheckConstraint(f"length({name}) = 20", name=op.f(f"ck_{table}_{name}_length")),
        sa.Column(f"{name}_offset", sa.Integer, nullable=False),
        sa.CheckConstraint(
            f"{name}_offset BETWEEN -1439 AND 1439", name=op.f(f"ck_{table}_{name}_offset_range")
        ),
    )


def _of(table: str, name: str, kind: str, nullable: bool = True) -> Items:
    """A reference to a fact of another kind."""
    owner = sa.ForeignKey(f"{kind}.id", name=op.f(f"fk_{table}_{name}_id_{kind}"))
    return (sa.Column(f"{name}_id", sa.Integer, owner, nullable=nullable),)


def _act(table: str) -> sa.Column[Any]:
    owner = sa.ForeignKey(
        "acts.seq", name=op.f(f"fk_{table}_act_acts"), deferrable=True, initially="DEFERRED"
    )
    return sa.Column("act", sa.Integer, owner, nullable=False)


def _digest(table: str) -> Items:
    check = sa.CheckConstraint("length(digest) = 32", name=op.f(f"ck_{table}_digest_length"))
    return sa.Column("digest", sa.LargeBinary, nullable=False), check


def _guard(table: str) -> None:
    """Rows come at the end, one by one, and stay as they are."""
    refuse = "BEGIN SELECT RAISE(ABORT, 'what is recorded stays as it is'); END"
    gap = f"WHEN NEW.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM {table})"
    op.execute(f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_at_end BEFORE INSERT ON {table} {gap} {refuse}")


def _facts(table: str, key: Sequence[str], *columns: Items) -> None:
    """A table of facts, its indexes and its triggers."""
    own = sa.ForeignKey(f"{table}.id", name=op.f(f"fk_{table}_entry_{table}"))
    struck = "struck IS NULL OR (struck = 1 AND revision > 1)"
    op.create_table(
        table,
        sa.Column("id", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("entry", sa.Integer, own, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        _act(table),
        *(item for items in columns for item in items),
        *_digest(table),
        sa.Column("struck", sa.Integer),
        sa.CheckConstraint("revision >= 1", name=op.f(f"ck_{table}_revision_range")),
        sa.CheckConstraint(struck, name=op.f(f"ck_{table}_struck_later")),
        sa.CheckConstraint("(revision = 1) = (id = entry)", name=op.f(f"ck_{table}_entry_first")),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{table}")),
    )
    op.create_index(op.f(f"ix_{table}_act"), table, ["act"])
    for name, indexed, where in (
        ("key", list(key), sa.text("revision = 1")),
        ("revised", ["entry", "revision"], sa.text("revision > 1")),
    ):
        op.create_index(
            op.f(f"ix_{table}_{name}"), table, indexed, unique=True,
            sqlite_where=where, postgresql_where=where,
        )  # fmt: skip
    _guard(table)


def upgrade() -> None:
    """Make the tables, and the journal's columns."""
    op.execute("ALTER TABLE acts ADD COLUMN edition TEXT")
    op.execute("ALTER TABLE acts ADD COLUMN signatures TEXT")
    _signed()
    _said()
    _sealed()


def _signed() -> None:
    _facts(
        "certifications", ["signoff_id"],
        _of("certifications", "signoff", "signoffs", False), _day("date", False),
        _of("certifications", "by", "people", False), _text("remarks"),
    )  # fmt: skip
    _facts(
        "keys", ["key"],
        _key("keys", "key"), _of("keys", "person", "people", False), _text("public", False),
        _day("from", False),
    )  # fmt: skip
    op.create_table(
        "credentials",
        sa.Column("key", sa.Text, nullable=False),
        sa.Column("salt", sa.LargeBinary, nullable=False),
        sa.Column("memory", sa.Integer, nullable=False),
        sa.Column("passes", sa.Integer, nullable=False),
        sa.Column("lanes", sa.Integer, nullable=False),
        sa.Column("nonce", sa.LargeBinary, nullable=False),
        sa.Column("wrapped", sa.LargeBinary, nullable=False),
        sa.Column("tries", sa.Integer, nullable=False),
        sa.Column("tried", sa.Text),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_credentials")),
    )


def _said() -> None:
    table = "occurrences"
    _facts(
        table, ["occurrence"],
        _key(table, "occurrence"), _instant(table, "happened"), _of(table, "sortie", "sorties"),
        _choice(table, "way", ("moored", "anchored", "drifting", "under-way")),
        (
            sa.Column("sea", sa.Integer),
            sa.CheckConstraint('"sea" BETWEEN 0 AND 9', name=op.f("ck_occurrences_sea_range")),
        ),
        _text("what", False), _text("harm"), _of(table, "reported_by", "people"), _text("answer"),
        _of(table, "answered_by", "people"), _day("answered"),
    )  # fmt: skip
    table = "disputes"
    _facts(
        table, ["dispute"],
        _key(table, "dispute"), _text("kind", False), _text("fact", False), _day("raised", False),
        _of(table, "by", "people", False), _text("words", False),
        _choice(table, "outcome", ("revised", "refused")), _text("answer"),
        _of(table, "answered_by", "people"), _day("answered"),
    )  # fmt: skip
    _facts("policies", ["policy"], _key("policies", "policy"), _text("value", False), _text("rule"))


def _sealed() -> None:
    op.create_table(
        "seals",
        sa.Column("id", sa.Integer, autoincrement=False, nullable=False),
        _act("seals"),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("row", sa.Integer, nullable=False),
        sa.Column("entry", sa.Integer, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("of", sa.Integer, nullable=False),
        *_digest("seals"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_seals")),
        sa.UniqueConstraint("kind", "row", name=op.f("uq_seals_kind")),
    )
    op.create_index(op.f("ix_seals_act"), "seals", ["act"])
    op.create_index(op.f("ix_seals_of"), "seals", ["of"])
    _guard("seals")
