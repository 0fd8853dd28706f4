"""What the record says now, and what it said after an earlier act."""

from datetime import date, timedelta

import pytest

from crewtrack import facts
from crewtrack.records.digests import NO_DIGEST
from crewtrack.records.journal import Head
from crewtrack.records.store import Record, create
from tests.records.samples import LATER_SORTIE, PEOPLE, SIGNOFFS, SORTIES, WITHDRAWN, at


@pytest.mark.parametrize("seq", [1, 2, 3, 4])
def test_the_head_known_at_an_instant_is_the_last_act_recorded_by_then(
    record: Record, seq: int
) -> None:
    with record.reading() as reading:
        digest = list(reading.acts())[seq - 1].digest
        assert reading.head(at(seq)) == Head(seq, digest)
        assert reading.head(at(seq + 1) - timedelta(microseconds=1)) == Head(seq, digest)


def test_before_the_first_act_the_head_is_all_zeros(record: Record) -> None:
    with record.reading() as reading:
        assert reading.head(at(1) - timedelta(seconds=1)) == Head(0, NO_DIGEST)


def test_an_empty_record_says_nothing(record: Record) -> None:
    path = record.path.with_name("empty.crewtrack")
    create(path)
    with Record.open(path) as empty, empty.reading() as reading:
        assert (reading.head(), reading.editions(), list(reading.acts())) == (Head(), (), [])
        assert list(reading.rows(facts.PEOPLE)) == []


def test_a_revision_shows_from_its_act_on(record: Record) -> None:
    with record.reading() as reading:
        assert list(reading.rows(facts.SORTIES, 1)) == []
        assert list(reading.rows(facts.SORTIES, 2)) == SORTIES
        assert list(reading.rows(facts.SORTIES, 3))[1] == LATER_SORTIE
        assert next(reading.rows(facts.SIGNOFFS, 2)) == SIGNOFFS[0]
        assert next(reading.rows(facts.SIGNOFFS)) == WITHDRAWN


def test_an_addition_shows_from_its_act_on(record: Record) -> None:
    with record.reading() as reading:
        assert reading.count(facts.PEOPLE, 3) == len(PEOPLE)
        assert reading.count(facts.PEOPLE) == len(PEOPLE) + 1


def test_editions_come_in_the_order_in_which_they_were_adopted(record: Record) -> None:
    with record.reading() as reading:
        known = [(e.edition, e.effective, e.act) for e in reading.editions()]
        assert known == [("2026-1", date(2026, 1, 1), 1), ("2026-2", date(2026, 6, 1), 4)]
        assert [edition.edition for edition in reading.editions(3)] == ["2026-1"]


def test_current_facts_are_found_by_key_with_their_entry_and_revision(record: Record) -> None:
    with record.reading() as reading:
        found = reading.current(facts.SORTIES)
    numbers = {key: (current.entry, current.number) for key, current in found.items()}
    assert numbers == {("S-2",): (1, 1), ("S-1",): (2, 2), ("S-3",): (3, 1)}


def test_keys_of_several_columns_are_found_by_all_of_them(record: Record) -> None:
    with record.reading() as reading:
        found = reading.current(facts.PERFORMANCES)
        assert found["S-1", "K-02", "observer-watch"].entry == 4
        assert len(reading.revisions(facts.PERFORMANCES, ("S-1", "K-02", "observer-watch"))) == 1


def test_all_revisions_of_a_fact_are_told_with_their_acts(record: Record) -> None:
    with record.reading() as reading:
        first, second = reading.revisions(facts.SIGNOFFS, ("G-1",))
    assert (first.number, first.act.seq, first.row) == (1, 2, SIGNOFFS[0])
    assert (second.number, second.act.seq, second.row) == (2, 3, WITHDRAWN)
    assert (second.act.author, second.act.reason) == ("officer", "read again from paper")
    assert second.act.at == at(3)


@pytest.mark.parametrize("key", [("S-9", "K-07", "hand-recovery"), ("S-1", "K-07", "none")])
def test_a_fact_that_is_not_there_has_no_revisions(
    record: Record, key: tuple[str, str, str]
) -> None:
    with record.reading() as reading:
        assert reading.revisions(facts.PERFORMANCES, key) == ()
