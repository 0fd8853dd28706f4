"""Facts found one by one: by their keys, and by what they refer to."""

import pytest

from crewtrack.facts import (
    AIRCRAFT,
    PEOPLE,
    PERFORMANCES,
    RECORDED,
    SIGNOFFS,
    SORTIES,
    VESSELS,
    Kind,
)
from crewtrack.records.finding import find, naming, people_of, referring, taken_keys
from crewtrack.records.reading import Reading
from crewtrack.records.store import Record
from crewtrack.records.stored import layout
from tests.records.samples import LATER_SORTIE, at


def keys(reading: Reading, kind: Kind, key: str) -> list[tuple[object, ...]]:
    return [layout(one).key_of(held.row) for one, held in referring(reading, kind, key)]


@pytest.mark.parametrize("kind", RECORDED, ids=lambda kind: kind.name)
def test_a_fact_found_by_its_key_is_the_current_one(record: Record, kind: Kind) -> None:
    with record.reading() as reading:
        current = reading.current(kind)
        assert {key: find(reading, kind, key) for key in current} == current


@pytest.mark.parametrize("key", [("S-9", "K-07", "hand-recovery"), ("S-1", "K-20", "x")])
def test_what_never_was_is_not_found(record: Record, key: tuple[str, ...]) -> None:
    with record.reading() as reading:
        assert find(reading, PERFORMANCES, key) is None


def test_what_is_struck_out_is_found_as_such(record: Record) -> None:
    with record.act("strike", "officer", at(5), "twice") as act:
        act.strike(SORTIES, [(2, 2)])
    with record.reading() as reading:
        held = find(reading, SORTIES, ("S-1",))
    assert held is not None
    assert (held.number, held.row, held.struck) == (3, LATER_SORTIE, True)


def test_what_refers_to_a_fact_is_found_kind_by_kind(record: Record) -> None:
    with record.reading() as reading:
        assert keys(reading, SORTIES, "S-2") == [
            ("S-2", "K-07", "hand-recovery"),
            ("G-1",),
            ("O-1",),
        ]
        assert keys(reading, VESSELS, "V-2") == [("S-3",)]
        assert keys(reading, PEOPLE, "nobody") == []


def test_what_refers_by_an_old_revision_alone_does_not_refer(record: Record) -> None:
    with record.reading() as reading:
        held = find(reading, SIGNOFFS, ("G-1",))
    assert held is not None
    elsewhere = (*held.row[:7], None, *held.row[8:])
    with record.act("correct", "officer", at(5), "not that one") as act:
        act.revise(SIGNOFFS, [(held.entry, held.number, elsewhere)])
        assert keys(act, SORTIES, "S-2") == [("S-2", "K-07", "hand-recovery"), ("O-1",)]


def test_what_is_struck_out_refers_to_nothing(record: Record) -> None:
    with record.act("strike", "officer", at(5), "twice") as act:
        act.strike(PERFORMANCES, [(1, 1)])
        assert list(naming(act, PERFORMANCES, "sortie", "S-3")) == []


def test_a_column_that_refers_to_nothing_is_no_question(record: Record) -> None:
    with record.reading() as reading, pytest.raises(TypeError, match="refers to nothing"):
        list(naming(reading, SORTIES, "minutes", "13"))


def test_a_sortie_stands_in_the_books_of_those_who_flew_it(record: Record) -> None:
    with record.reading() as reading:
        assert people_of(reading, SORTIES, "S-1") == {"K-02", "K-07"}
        assert people_of(reading, VESSELS, "V-2") == {"K-07"}
        assert people_of(reading, AIRCRAFT, "A-1") == {"K-07"}
        assert people_of(reading, AIRCRAFT, "A-2") == frozenset()


def test_the_keys_of_what_is_struck_out_stay_taken(record: Record) -> None:
    with record.act("strike", "officer", at(5), "twice") as act:
        act.strike(PERFORMANCES, [(1, 1)])
        act.strike(SORTIES, [(3, 1)])
        assert taken_keys(act, SORTIES) == ("S-2", "S-1", "S-3")
