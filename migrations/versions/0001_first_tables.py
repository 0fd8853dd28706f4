"""The first tables: the journal of acts, the editions of the standard, and the facts.

What is written here stands for ever: it holds its own copy of everything that it needs, so that
today's tables can change without changing what was.
"""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

Item = sa.Column[Any] | sa.CheckConstraint
Items = Sequence[Item]

WAYS = ("moored", "anchored", "drifting", "under-way")


def _text(name: str, nullable: bool = True) -> Items:
    return (sa.Column(name, sa.Text, nullable=nullable),)


def _day(name: str, nullable: bool = True) -> Items:
    return (sa.Column(name, sa.Date, nullable=nullable),)


def _key(table: str, name: str) -> Items:
    check = sa.CheckConstraint(
        f"length({name}) BETWEEN 1 AND 40", name=op.f(f"ck_{table}_{name}_length")
    )
    return sa.Column(name, sa.Text, nullable=False), check


def _whole(table: str, name: str, bounds: tuple[int, int], nullable: bool = True) -> Items:
    check = sa.CheckConstraint(
        f'"{name}" BETWEEN {bounds[0]} AND {bounds[1]}', name=op.f(f"ck_{table}_{name}_range")
    )
    return sa.Column(name, sa.Integer, nullable=nullable), check


def _number(table: str, name: str, least: float, most: float) -> Items:
    check = sa.CheckConstraint(
        f'"{name}" BETWEEN {least} AND {most}', name=op.f(f"ck_{table}_{name}_range")
    )
    return sa.Column(name, sa.Double, nullable=True), check


def _choice(table: str, name: str, options: Sequence[str], nullable: bool = True) -> Items:
    words = ", ".join(f"'{option}'" for option in options)
    check = sa.CheckConstraint(f"{name} IN ({words})", name=op.f(f"ck_{table}_{name}_choice"))
    return sa.Column(name, sa.Text, nullable=nullable), check


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


def _guard(table: str, ident: str) -> None:
    """Rows come at the end, one by one, and stay as they are."""
    refuse = "BEGIN SELECT RAISE(ABORT, 'what is recorded stays as it is'); END"
    gap = f"WHEN NEW.{ident} IS NOT (SELECT coalesce(max({ident}), 0) + 1 FROM {table})"
    op.execute(f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} {refuse}")
    op.execute(f"CREATE TRIGGER {table}_at_end BEFORE INSERT ON {table} {gap} {refuse}")


def _facts(table: str, key: Sequence[str], *columns: Items) -> None:
    """A table of facts, its indexes and its triggers."""
    own = sa.ForeignKey(f"{table}.id", name=op.f(f"fk_{table}_entry_{table}"))
    op.create_table(
        table,
        sa.Column("id", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("entry", sa.Integer, own, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        _act(table),
        *(item for items in columns for item in items),
        *_digest(table),
        sa.CheckConstraint("revision >= 1", name=op.f(f"ck_{table}_revision_range")),
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
    _guard(table, "id")


def upgrade() -> None:
    """Make the tables."""
    _journal()
    _crew()
    _flights()
    _papers()


def _journal() -> None:
    op.create_table(
        "acts",
        sa.Column("seq", sa.Integer, autoincrement=False, nullable=False),
        *_text("id", False),
        *_text("instant", False),
        *_text("author", False),
        *_text("kind", False),
        *_text("reason"),
        *_text("facts", False),
        *_text("previous", False),
        *_text("digest", False),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_acts")),
        sa.UniqueConstraint("id", name=op.f("uq_acts_id")),
        sa.CheckConstraint("seq >= 1", name=op.f("ck_acts_seq_range")),
        sa.CheckConstraint("length(instant) = 27", name=op.f("ck_acts_instant_length")),
        sa.CheckConstraint("length(previous) = 64", name=op.f("ck_acts_previous_length")),
        sa.CheckConstraint("length(digest) = 64", name=op.f("ck_acts_digest_length")),
    )
    _guard("acts", "seq")
    op.create_table(
        "editions",
        sa.Column("id", sa.Integer, autoincrement=False, nullable=False),
        _act("editions"),
        *_text("edition", False),
        *_day("effective", False),
        *_text("source", False),
        *_digest("editions"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_editions")),
        sa.UniqueConstraint("edition", name=op.f("uq_editions_edition")),
        sa.UniqueConstraint("effective", name=op.f("uq_editions_effective")),
    )
    op.create_index(op.f("ix_editions_act"), "editions", ["act"])
    _guard("editions", "id")


def _crew() -> None:
    _facts(
        "people", ["person"],
        _key("people", "person"), _text("name", False), _day("joined"), _day("left"),
        _day("born"), _text("email"), _text("duties"),
    )  # fmt: skip
    _facts(
        "assignments", ["person_id", "qualification", "from"],
        _of("assignments", "person", "people", False), _text("qualification", False),
        _day("from", False), _day("through"),
    )  # fmt: skip


def _flights() -> None:
    _facts(
        "vessels", ["vessel"],
        _key("vessels", "vessel"), _text("name", False), _text("kind"),
        _number("vessels", "length_m", 0.1, 500),
    )  # fmt: skip
    _facts(
        "aircraft", ["aircraft"],
        _key("aircraft", "aircraft"), _text("name", False), _text("kind"),
        _number("aircraft", "mass_kg", 0.001, 5000),
    )  # fmt: skip
    table = "sorties"
    _facts(
        table, ["sortie"],
        _key(table, "sortie"), _instant(table, "launched"),
        _whole(table, "minutes", (0, 1440), False),
        _choice(table, "setting", ("live", "drill"), False),
        _of(table, "vessel", "vessels"), _of(table, "aircraft", "aircraft"),
        _number(table, "lat", -90, 90), _number(table, "lon", -180, 180),
        _choice(table, "way", WAYS), _whole(table, "sea", (0, 9)),
        _number(table, "wind_from", 0, 360), _number(table, "wind", 0, 200),
        _number(table, "heading", 0, 360), _number(table, "speed", 0, 100),
        _number(table, "set", 0, 360), _number(table, "drift", 0, 30),
        _choice(table, "light", ("day", "twilight", "night")), _text("light_reason"),
        _text("purpose"), _text("remarks"),
    )  # fmt: skip
    table = "performances"
    _facts(
        table, ["sortie_id", "person_id", "task"],
        _of(table, "sortie", "sorties", False), _of(table, "person", "people", False),
        _text("task", False), _whole(table, "times", (1, 999), False),
        _of(table, "supervisor", "people"), _whole(table, "attempts", (1, 999)),
        _whole(table, "waveoffs", (0, 999)),
        _choice(table, "stood", ("with-handler", "apart")),
    )  # fmt: skip


def _papers() -> None:
    table = "signoffs"
    _facts(
        table, ["signoff"],
        _key(table, "signoff"), _of(table, "person", "people", False), _text("task", False),
        _day("date", False),
        _choice(table, "level", ("briefed", "supervised", "alone", "evaluator"), False),
        _choice(table, "result", ("passed", "not-yet", "failed"), False),
        _of(table, "evaluator", "people", False), _of(table, "sortie", "sorties"),
        _text("remarks"), _day("withdrawn"), _text("withdrawn_by"), _text("withdrawn_reason"),
    )  # fmt: skip
    table = "certificates"
    _facts(
        table, ["certificate"],
        _key(table, "certificate"), _of(table, "person", "people", False), _text("kind", False),
        _day("issued", False), _day("expires"), _day("revoked"), _text("number"),
    )  # fmt: skip
    table = "waivers"
    _facts(
        table, ["waiver"],
        _key(table, "waiver"), _of(table, "person", "people", False),
        _text("qualification", False), _text("requirement", False), _day("from", False),
        _day("through", False), _text("reason", False), _text("by", False),
        _choice(table, "kind", ("waiver", "extension"), False),
    )  # fmt: skip
    table = "standdowns"
    _facts(
        table, ["standdown"],
        _key(table, "standdown"), _of(table, "person", "people", False), _text("qualification"),
        _day("from", False), _day("through"), _text("reason", False), _text("by", False),
    )  # fmt: skip
