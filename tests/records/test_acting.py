"""Acts: all or nothing, nothing overwritten, one at a time."""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.facts import Row
from crewtrack.records.journal import Head
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import LATER_SORTIE, PEOPLE, ROWS, SORTIES, at, sortie

NEW: Row = ("K-30", "Somebody", None, None, None, None, ())


def heads(record: Record) -> Head:
    with record.reading() as reading:
        return reading.head()


def test_what_an_act_adds_is_read_back_in_its_order(record: Record) -> None:
    with record.reading() as reading:
        for kind, rows in ROWS.items():
            assert list(reading.rows(kind, 2)) == rows


def test_an_act_sees_what_it_has_recorded_so_far(record: Record) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        assert ("K-30",) in act.current(facts.PEOPLE)
        assert act.count(facts.PEOPLE) == len(PEOPLE) + 2


def test_an_act_may_refer_to_what_it_added_itself(record: Record) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        act.add(facts.PERFORMANCES, [("S-1", "K-30", "helm", 1, None, None, None, None)])
    with record.reading() as reading:
        assert list(reading.rows(facts.PERFORMANCES))[-1][:2] == ("S-1", "K-30")


def test_many_rows_keep_their_order_and_their_digests(record: Record) -> None:
    many = [sortie(f"T-{n}", at(1)) for n in range(20_500)]
    with record.act("import", "officer", at(5)) as act:
        assert act.add(facts.SORTIES, iter(many)) == 20_500
    with record.reading() as reading:
        assert list(reading.rows(facts.SORTIES))[3:] == many
    assert verify(record) == ()


def test_an_exception_leaves_nothing_of_the_act(record: Record) -> None:
    before = heads(record)
    with suppress(ZeroDivisionError), record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        raise ZeroDivisionError
    with record.reading() as reading:
        assert (reading.head(), reading.count(facts.PEOPLE)) == (before, len(PEOPLE) + 1)


def test_a_cancelled_act_leaves_nothing(record: Record) -> None:
    before = heads(record)
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        act.cancel()
    assert (heads(record), act.past) == (before, None)


def test_an_act_that_records_nothing_leaves_no_trace(record: Record) -> None:
    before = heads(record)
    with record.act("import", "officer", at(5)) as act:
        assert act.add(facts.PEOPLE, []) == 0
    assert (heads(record), act.past) == (before, None)


def test_an_act_is_chained_to_the_one_before(record: Record) -> None:
    before = heads(record)
    with record.act("import", "officer", at(5), "late papers") as act:
        act.add(facts.PEOPLE, [NEW])
    past = act.past
    assert past is not None
    assert (past.seq, past.previous, past.reason) == (5, before.digest, "late papers")
    assert heads(record) == Head(5, past.digest)


def test_a_revision_takes_the_place_of_the_one_before_and_keeps_the_order(record: Record) -> None:
    with record.reading() as reading:
        assert list(reading.rows(facts.SORTIES)) == [SORTIES[0], LATER_SORTIE, SORTIES[2]]


def test_a_revision_of_a_stale_revision_is_refused(record: Record) -> None:
    with pytest.raises(ValueError, match="newest"), record.act("x", "officer", at(5)) as act:
        act.revise(facts.SORTIES, [(2, 1, SORTIES[1])])


def test_a_revision_that_changes_the_key_is_refused(record: Record) -> None:
    with pytest.raises(ValueError, match="entry"), record.act("x", "officer", at(5)) as act:
        act.revise(facts.SORTIES, [(1, 1, SORTIES[2])])


def test_a_reference_to_nobody_is_refused(record: Record) -> None:
    stray = ("S-1", "K-99", "helm", 1, None, None, None, None)
    with pytest.raises(LookupError, match="K-99"), record.act("x", "officer", at(5)) as act:
        act.add(facts.PERFORMANCES, [stray])


def test_a_key_that_is_there_already_is_refused(record: Record) -> None:
    with pytest.raises(IntegrityError), record.act("x", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [PEOPLE[0]])


def test_a_second_writer_is_told_that_the_record_is_in_use(record: Record, sample: Path) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [NEW])
        with (
            Record.open(sample, busy_seconds=0) as other,
            pytest.raises(RecordUnusable, match="in use by another program; try again"),
            other.act("import", "officer", at(5)),
        ):
            pytest.fail("two acts at once")
    assert heads(record).seq == 5


def test_a_reader_sees_one_state_while_another_writes(record: Record, sample: Path) -> None:
    with record.reading() as reading:
        before = reading.count(facts.PEOPLE)
        with Record.open(sample) as other, other.act("import", "officer", at(5)) as act:
            act.add(facts.PEOPLE, [NEW])
        assert (reading.count(facts.PEOPLE), reading.head().seq) == (before, 4)
    assert heads(record).seq == 5


@pytest.mark.parametrize("table", [*(kind.name for kind in facts.RECORDED), "editions", "acts"])
@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE {table} SET digest = digest",
        "DELETE FROM {table}",
        "INSERT INTO {table} SELECT * FROM {table} LIMIT 1",
        "REPLACE INTO {table} SELECT * FROM {table} LIMIT 1",
    ],
)
def test_the_database_itself_refuses_to_change_what_is_recorded(
    sample: Path, table: str, statement: str
) -> None:
    with (
        closing(sqlite3.connect(sample)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="what is recorded stays as it is"),
    ):
        connection.execute(statement.format(table=table))
