"""Striking out: from an act on a fact is not there, and nothing of it is lost."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy.exc import IntegrityError

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.facts import Kind, Row, Value
from crewtrack.records.reading import Current, Reading
from crewtrack.records.store import Record
from crewtrack.records.verifying import breaks, verify
from tests.records.samples import (
    LATER_SORTIE,
    PEOPLE,
    PERFORMANCES,
    SORTIES,
    STRUCK,
    WAIVERS,
    at,
    sortie,
    strike_some,
)

DETROIT = ZoneInfo("America/Detroit")


def strike(record: Record, kind: Kind, *keys: tuple[Value, ...]) -> None:
    """Strike facts out in an act of their own."""
    with record.act("strike", "officer", at(5), "entered by mistake") as act:
        current = act.current(kind)
        act.strike(kind, [(current[key].entry, current[key].number) for key in keys])


def test_a_fact_that_is_struck_out_is_not_there(record: Record) -> None:
    strike(record, facts.PERFORMANCES, STRUCK)
    with record.reading() as reading:
        assert list(reading.rows(facts.PERFORMANCES)) == PERFORMANCES[:3]
        assert STRUCK not in reading.current(facts.PERFORMANCES)
        assert reading.count(facts.PERFORMANCES) == 3
        assert "observer-watch" not in reading.evidence(DETROIT).books["K-02"].performances


def test_before_the_act_that_struck_it_out_a_fact_is_there(record: Record) -> None:
    strike(record, facts.PERFORMANCES, STRUCK)
    with record.reading() as reading:
        assert list(reading.rows(facts.PERFORMANCES, 4)) == PERFORMANCES
        assert reading.count(facts.PERFORMANCES, 4) == 4
        assert "observer-watch" in reading.evidence(DETROIT, 4).books["K-02"].performances


def test_the_key_of_a_person_who_is_struck_out_is_none_of_the_keys(record: Record) -> None:
    strike(record, facts.PEOPLE, ("K-20",))
    with record.reading() as reading:
        assert reading.keys(facts.PEOPLE) == {row[0] for row in PEOPLE}
        assert list(reading.evidence(DETROIT).books) == ["K-02", "K-07", "K-11"]


def test_a_fact_that_is_struck_out_says_what_it_said_and_by_whom_it_was_struck(
    record: Record,
) -> None:
    strike(record, facts.SORTIES, ("S-1",))
    with record.reading() as reading:
        revisions = reading.revisions(facts.SORTIES, ("S-1",))
    assert [(one.number, one.struck, one.row) for one in revisions] == [
        (1, False, SORTIES[1]),
        (2, False, LATER_SORTIE),
        (3, True, LATER_SORTIE),
    ]
    assert (revisions[2].act.author, revisions[2].act.reason) == ("officer", "entered by mistake")


def test_a_fact_that_is_struck_out_keeps_its_key_and_is_found_by_it(record: Record) -> None:
    strike(record, facts.PERFORMANCES, STRUCK)
    with record.reading() as reading:
        found = reading.current_or_struck(facts.PERFORMANCES)
    assert found[STRUCK] == Current(4, 2, PERFORMANCES[3], struck=True)
    assert [one.struck for one in found.values()] == [False, False, False, True]
    with pytest.raises(IntegrityError), record.act("x", "officer", at(6)) as act:
        act.add(facts.PERFORMANCES, [PERFORMANCES[3]])


def test_a_revision_brings_a_fact_back_to_its_place(record: Record) -> None:
    strike(record, facts.PERFORMANCES, PERFORMANCES[1][:3])
    back: Row = (*PERFORMANCES[1][:3], 9, None, None, None, None)
    with record.act("import", "officer", at(6), "was there") as act:
        act.revise(facts.PERFORMANCES, [(2, 2, back)])
    with record.reading() as reading:
        rows = list(reading.rows(facts.PERFORMANCES))
        evidence = reading.evidence(DETROIT)
    assert rows == [PERFORMANCES[0], back, *PERFORMANCES[2:]]
    assert list(evidence.books["K-07"].performances["hand-recovery"].times) == [9, 1, 1]
    assert verify(record) == ()


def test_a_fact_can_be_struck_out_again_after_it_was_brought_back(record: Record) -> None:
    strike_some(record)
    strike(record, facts.WAIVERS, ("W-1",))
    with record.reading() as reading:
        assert list(reading.rows(facts.WAIVERS)) == []
        assert list(reading.rows(facts.WAIVERS, 6)) == WAIVERS
        revisions = reading.revisions(facts.WAIVERS, ("W-1",))
    assert [one.struck for one in revisions] == [False, True, False, True]


def strikes(record: Record, *struck: tuple[int, int]) -> None:
    """Strike sorties out in an act of their own, one after the other."""
    with record.act("strike", "officer", at(6)) as act:
        for one in struck:
            act.strike(facts.SORTIES, [one])


@pytest.mark.parametrize(("entry", "number"), [(2, 1), (2, 3), (9, 1), (4, 1)])
def test_only_the_newest_revision_of_a_fact_can_be_struck_out(
    record: Record, entry: int, number: int
) -> None:
    with pytest.raises(ValueError, match="is not the newest"):
        strikes(record, (entry, number))


def test_what_is_struck_out_cannot_be_struck_out_again(record: Record) -> None:
    strike(record, facts.SORTIES, ("S-3",))
    with pytest.raises(ValueError, match="is struck out already"):
        strikes(record, (3, 2))


def test_a_strike_that_is_refused_leaves_nothing_of_the_act(record: Record) -> None:
    with pytest.raises(ValueError, match="is not the newest"):
        strikes(record, (1, 1), (2, 1))
    with record.reading() as reading:
        assert (reading.head().seq, reading.count(facts.SORTIES)) == (4, 3)


def test_an_act_sees_what_it_has_struck_out(record: Record) -> None:
    with record.act("strike", "officer", at(5)) as act:
        assert act.strike(facts.SORTIES, [(1, 1), (3, 1)]) == 2
        assert list(act.keys(facts.SORTIES)) == ["S-1"]


def test_evidence_leaves_out_what_refers_to_a_sortie_that_is_struck_out(record: Record) -> None:
    strike(record, facts.SORTIES, ("S-2",))
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT)
    assert evidence.sorties.key == ("S-3", "S-1")
    flown = evidence.books["K-07"].performances["hand-recovery"]
    assert [evidence.sorties.key[index] for index in flown.sortie] == ["S-3", "S-1"]
    assert evidence.books["K-07"].signoffs == ()


def test_evidence_leaves_out_what_refers_to_a_person_who_is_struck_out(record: Record) -> None:
    strike(record, facts.PEOPLE, ("K-11",))
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT)
    books = evidence.books["K-07"]
    flown = books.performances["hand-recovery"]
    assert [evidence.sorties.key[index] for index in flown.sortie] == ["S-2", "S-1"]
    assert (books.signoffs, evidence.books["K-02"].signoffs) == ((), ())


def test_everything_in_the_books_of_a_person_who_is_struck_out_goes_with_them(
    record: Record,
) -> None:
    strike(record, facts.PEOPLE, ("K-07",))
    with record.reading() as reading:
        evidence = reading.evidence(DETROIT)
        assert len(reading.evidence(DETROIT, 4).books["K-07"].certificates) == 2
    assert list(evidence.books) == ["K-02", "K-11", "K-20"]
    assert evidence.books["K-02"].performances == {}  # K-07 supervised


def test_a_sortie_stays_where_its_craft_is_struck_out(record: Record) -> None:
    strike(record, facts.VESSELS, ("V-1",))
    with record.reading() as reading:
        assert list(reading.evidence(DETROIT, 5).sorties.vessel) == ["rib", None, "rib"]


@pytest.mark.parametrize("value", ["0", "2", "'x'", "1"])
@pytest.mark.parametrize("kind", facts.RECORDED, ids=lambda kind: kind.name)
def test_the_database_itself_lets_no_first_revision_and_no_other_value_strike(
    sample: Path, kind: Kind, value: str
) -> None:
    later = "id + (SELECT max(id) FROM {0}), id, 2" if value != "1" else "id + 99, id + 99, 1"
    with closing(sqlite3.connect(sample)) as connection:
        names = [row[1] for row in connection.execute(f"PRAGMA table_info({kind.name})")]
        kept = ", ".join(f'"{name}"' for name in names[3:-1])
        connection.execute(f"DROP TRIGGER {kind.name}_at_end")
        with pytest.raises(sqlite3.IntegrityError, match=f"ck_{kind.name}_struck_later"):
            connection.execute(
                f'INSERT INTO {kind.name} ("id", "entry", "revision", {kept}, struck)'
                f" SELECT {later.format(kind.name)}, {kept}, {value} FROM {kind.name}"
                " WHERE id = 1"
            )


@pytest.mark.parametrize("value", ["NULL", "0", "2", "'x'"])
def test_a_strike_that_was_changed_is_found(record: Record, value: str) -> None:
    strike_some(record)
    with record.act("never", "nobody", at(7)) as act:
        act.cancel()
        change = act.connection.exec_driver_sql
        (guard,) = change("SELECT sql FROM sqlite_schema WHERE name = 'waivers_no_update'").one()
        change("PRAGMA ignore_check_constraints=ON")
        change("DROP TRIGGER waivers_no_update")
        change(f"UPDATE waivers SET struck = {value} WHERE revision = 2")
        change(guard)
        problems = [one.problem for one in breaks(act.connection, lambda *step: None)]
    assert "what is recorded here is not what the act recorded" in problems


def rows(reading: Reading) -> object:
    return list(reading.rows(facts.PERFORMANCES))


def evidence(reading: Reading) -> object:
    return reading.evidence(DETROIT)


@pytest.mark.parametrize("read", [rows, evidence])
def test_a_damaged_strike_makes_the_record_unusable(
    record: Record, read: Callable[[Reading], object]
) -> None:
    strike_some(record)
    with closing(sqlite3.connect(record.path, isolation_level=None)) as connection:
        connection.execute("PRAGMA ignore_check_constraints=ON")
        connection.execute("DROP TRIGGER performances_no_update")
        connection.execute("UPDATE performances SET struck = 'x' WHERE revision = 2")
    with (
        pytest.raises(RecordUnusable, match=r"\(performances, struck\)"),
        record.reading() as reading,
    ):
        read(reading)


def test_sorties_that_are_struck_out_among_many_leave_the_others_as_they_are(
    record: Record,
) -> None:
    many = [sortie(f"T-{n}", at(1)) for n in range(1_200)]
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.SORTIES, many)
    strike(record, facts.SORTIES, *((f"T-{n}",) for n in range(0, 1_200, 2)))
    with record.reading() as reading:
        assert list(reading.rows(facts.SORTIES))[3:] == many[1::2]
        assert set(reading.evidence(DETROIT).sorties.key[-600:]) == {row[0] for row in many[1::2]}
