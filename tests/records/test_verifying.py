"""Whatever is changed in a record behind its back is found."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from crewtrack import facts
from crewtrack.records.definitions import made_by_scripts
from crewtrack.records.digests import digest, line_writer
from crewtrack.records.store import Record
from crewtrack.records.stored import insertion, layout
from crewtrack.records.tables import ACTS, EDITIONS, TABLES
from crewtrack.records.verifying import Break, breaks, verify
from tests.behind_its_back import unguarded
from tests.records.samples import SORTIES, at

ALL_TABLES = (*TABLES, EDITIONS, ACTS)
INSERT_VESSEL = insertion("vessels", layout(facts.VESSELS).all, 1)


def guards(table: str) -> dict[str, str]:
    """A table's triggers, by name."""
    return {
        name: str(sql)
        for (type_, name), (of, sql) in made_by_scripts().items()
        if (type_, of) == ("trigger", table)
    }


def found(path: Path) -> tuple[Break, ...]:
    with Record.open(path) as record:
        return verify(record)


def changed(value: Any) -> Any:
    """Another value of the same kind, as near as can be."""
    match value:
        case None:
            return 0
        case bytes():
            return bytes([value[0] ^ 1]) + value[1:]
        case str():
            return value[:-1] + "~"
        case float():
            return value + 0.25
        case _:
            return value + 7  # an id that no other row has


def test_a_record_that_nobody_touched_has_no_break(record: Record) -> None:
    assert verify(record) == ()


@pytest.mark.parametrize("table", ALL_TABLES)
def test_a_changed_value_in_any_column_of_any_row_is_found(record: Record, table: str) -> None:
    ident = "seq" if table == ACTS else "id"
    with record.act("never", "nobody", at(5)) as act:
        act.cancel()
        change = act.connection.exec_driver_sql
        change("PRAGMA defer_foreign_keys=ON")
        change("PRAGMA ignore_check_constraints=ON")
        rows = change(f"SELECT * FROM {table}").mappings().all()
        for row in rows:
            for column, value in row.items():
                change("SAVEPOINT whole")
                change(f"DROP TRIGGER {table}_no_update")
                set_ = f'UPDATE {table} SET "{column}" = ? WHERE {ident} = ?'
                change(set_, (changed(value), row[ident]))
                change(guards(table)[f"{table}_no_update"])
                assert breaks(act.connection, lambda *step: None), (column, value)
                change("ROLLBACK TO whole")


@pytest.mark.parametrize("table", ALL_TABLES)
@pytest.mark.parametrize("which", ["min", "max"])
def test_a_row_that_was_taken_out_is_found(sample: Path, table: str, which: str) -> None:
    ident = "seq" if table == ACTS else "id"
    with unguarded(sample) as connection:
        of = f"{ident} = (SELECT {which}({ident}) FROM {table})"
        connection.execute(f"DELETE FROM {table} WHERE {of}")
    assert found(sample)


def test_a_row_that_was_put_in_with_a_digest_of_its_own_is_found(sample: Path) -> None:
    row: facts.Row = ("V-9", "Added", None, None)
    hashed = digest(line_writer(facts.VESSELS)(1, row))
    with unguarded(sample) as connection:
        connection.execute(INSERT_VESSEL, (3, 3, 1, 2, *row, hashed, None))
    assert found(sample) == (
        Break(2, "vessels", "", "its rows are not those that the act recorded"),
    )


def test_a_row_that_was_put_in_under_an_act_of_another_kind_is_found(sample: Path) -> None:
    row: facts.Row = ("V-9", "Added", None, None)
    hashed = digest(line_writer(facts.VESSELS)(1, row))
    with unguarded(sample) as connection:
        connection.execute(INSERT_VESSEL, (3, 3, 1, 4, *row, hashed, None))
    assert found(sample) == (Break(4, "vessels", "", "the act did not record these rows"),)


def test_two_rows_that_were_swapped_are_found(sample: Path) -> None:
    with unguarded(sample) as connection:
        for now, then in ((1, 90), (2, 1), (90, 2)):
            connection.execute(
                "UPDATE certificates SET id = ?, entry = ? WHERE id = ?", (then, then, now)
            )
    assert found(sample) == (
        Break(2, "certificates", "", "its rows are not those that the act recorded"),
    )


def test_a_changed_row_is_told_with_its_act_and_its_key(sample: Path) -> None:
    with unguarded(sample) as connection:
        connection.execute("UPDATE performances SET times = 3 WHERE id = 2")
    (told,) = found(sample)
    assert told == Break(
        2,
        "performances",
        "S-2 K-07 hand-recovery",
        "what is recorded here is not what the act recorded",
    )
    assert str(told) == (
        "act 2 (2026-03-01, officer), performances S-2 K-07 hand-recovery: "
        "what is recorded here is not what the act recorded"
    )


def test_a_changed_row_whose_digest_was_changed_with_it_is_found(sample: Path) -> None:
    row = (*SORTIES[2][:2], 55, *SORTIES[2][3:])
    hashed = digest(line_writer(facts.SORTIES)(1, row))
    with unguarded(sample) as connection:
        connection.execute("UPDATE sorties SET minutes = 55, digest = ? WHERE id = 3", (hashed,))
    assert found(sample) == (
        Break(2, "sorties", "", "its rows are not those that the act recorded"),
    )


def test_a_revision_hung_on_another_fact_is_found(sample: Path) -> None:
    with unguarded(sample) as connection:
        connection.execute("UPDATE sorties SET entry = 3 WHERE revision = 2")
    assert [(told.act, told.kind, told.key) for told in found(sample)] == [(3, "sorties", "S-1")]


def test_an_act_taken_out_of_the_chain_is_found(sample: Path) -> None:
    with unguarded(sample) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("DELETE FROM acts WHERE seq = 3")
        connection.execute("DELETE FROM sorties WHERE act = 3")
        connection.execute("DELETE FROM signoffs WHERE act = 3")
    assert [told.problem for told in found(sample)] == [
        "stands where act 3 should",
        "is not chained to the act before it",
    ]


def test_text_that_is_no_longer_utf8_is_found_and_told_readably(sample: Path) -> None:
    with unguarded(sample) as connection:
        connection.execute("UPDATE people SET name = CAST(X'FF41' AS TEXT) WHERE id = 1")
        connection.execute("UPDATE people SET person = CAST(X'4BFF' AS TEXT) WHERE id = 2")
    keys = {told.key for told in found(sample)}
    assert {"K-07", "K?"} <= keys


@pytest.mark.parametrize(
    "tamper",
    [
        "DROP TRIGGER sorties_no_update",
        "DROP TRIGGER acts_at_end",
        "CREATE TRIGGER more AFTER INSERT ON people BEGIN SELECT 1; END",
    ],
)
def test_a_guard_that_is_missing_or_strange_is_found(sample: Path, tamper: str) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        connection.execute(tamper)
    (told,) = found(sample)
    assert "guard" in told.problem or "trigger" in told.problem


@pytest.mark.parametrize(
    ("tamper", "problem"),
    [
        ("DROP INDEX ix_sorties_key", "sorties: its index ix_sorties_key is missing or changed"),
        (
            "DROP INDEX ix_people_act; CREATE INDEX ix_people_act ON people (act, id)",
            "people: its index ix_people_act is missing or changed",
        ),
        (
            "CREATE INDEX more ON people (name)",
            "an index more is there that no crewtrack made",
        ),
        ("CREATE TABLE more (x)", "a table more is there that no crewtrack made"),
        ("CREATE VIEW more AS SELECT 1", "a view more is there that no crewtrack made"),
        (
            "ALTER TABLE vessels ADD COLUMN colour TEXT",
            "vessels: its definition is missing or changed",
        ),
        (
            "PRAGMA writable_schema=ON; UPDATE sqlite_schema SET"
            " sql = replace(sql, 'BETWEEN 1 AND 999', 'BETWEEN 0 AND 999')"
            " WHERE name = 'performances'",
            "performances: its definition is missing or changed",
        ),
    ],
)
def test_a_table_or_an_index_that_is_not_what_the_scripts_make_is_found(
    sample: Path, tamper: str, problem: str
) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        connection.executescript(tamper)
    assert [str(told) for told in found(sample)] == [problem]


def test_what_sqlite_notes_for_itself_is_no_break(sample: Path) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        connection.execute("ANALYZE")
    assert found(sample) == ()


def test_an_act_whose_day_cannot_be_read_is_told_without_one(sample: Path) -> None:
    with unguarded(sample) as connection:
        connection.execute("UPDATE acts SET instant = replace(instant, '-', '?') WHERE seq = 4")
    assert [str(told) for told in found(sample)] == [
        "act 4: its digest is not that of what it holds"
    ]


def test_a_page_that_cannot_be_read_is_a_break_and_not_a_crash(sample: Path) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        (page,) = connection.execute(
            "SELECT rootpage FROM sqlite_schema WHERE name = 'signoffs'"
        ).fetchone()
    whole = bytearray(sample.read_bytes())
    whole[(page - 1) * 4096 : page * 4096] = bytes(4096)
    sample.write_bytes(whole)
    assert any("can't be read whole" in told.problem for told in found(sample))


def test_progress_is_told_up_to_the_whole_of_each_table(record: Record) -> None:
    told: list[tuple[str, int, int]] = []
    progress: Callable[[str, int, int], None] = lambda *step: told.append(step)  # noqa: E731
    verify(record, progress)
    assert [what for what, done, total in told if done == total] == ["the file", *TABLES]
