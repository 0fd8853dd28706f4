"""The evidence about a few people is what the whole evidence holds of them."""

from collections.abc import Iterable
from itertools import combinations
from zoneinfo import ZoneInfo

import pytest

from crewtrack.engine.evidence import Books, Evidence
from crewtrack.facts import PEOPLE, PERFORMANCES, SIGNOFFS, SORTIES
from crewtrack.records.evidence_of import evidence_of
from crewtrack.records.store import Record
from tests.records.samples import WITHDRAWN, at

ZONE = ZoneInfo("America/Detroit")
EVERYBODY = ("K-02", "K-07", "K-11", "K-20", "nobody")
SOME = [some for size in range(4) for some in combinations(EVERYBODY, size)]


@pytest.fixture
def long_record(record: Record) -> Record:
    """The sample with a performance and a sortie struck out, a sign-off that was another's, and
    a person struck out."""
    with record.act("strike", "officer", at(5), "never flown") as act:
        act.strike(PERFORMANCES, [(1, 1)])
        act.strike(SORTIES, [(3, 1)])
    with record.act("correct", "officer", at(6), "the wrong person") as act:
        act.revise(SIGNOFFS, [(1, 2, ("G-1", "K-20", *WITHDRAWN[2:]))])
    with record.act("strike", "officer", at(7), "twice") as act:
        act.strike(PEOPLE, [(4, 1)])
    return record


@pytest.mark.parametrize("seq", range(1, 8))
def test_a_part_says_of_people_what_the_whole_says_of_them(long_record: Record, seq: int) -> None:
    with long_record.reading() as reading:
        whole = reading.evidence(ZONE, seq)
        for some in SOME:
            (part,) = evidence_of(reading, some, ZONE, seq)
            assert told(part, some) == told(whole, some)


def test_a_part_holds_nothing_of_others(record: Record) -> None:
    with record.reading() as reading:
        (part,) = evidence_of(reading, ["K-02"], ZONE, 2)
    assert list(part.books) == ["K-02"]
    assert part.sorties.key == ("S-1",)


def test_several_states_are_read_at_once(record: Record) -> None:
    with record.reading() as reading:
        states = evidence_of(reading, ["K-07"], ZONE, 2, 3)
        assert states == tuple(evidence_of(reading, ["K-07"], ZONE, seq)[0] for seq in (2, 3))
    assert [one.books["K-07"].signoffs[0].withdrawn is None for one in states] == [True, False]


def test_of_nobody_there_is_nothing(record: Record) -> None:
    with record.reading() as reading:
        (part,) = evidence_of(reading, [], ZONE, 2)
    assert (part.books, list(part.sorties.key)) == ({}, [])


def told(evidence: Evidence, people: Iterable[str]) -> dict[str, object]:
    """All that the books say, with sorties by their keys and days instead of their places."""
    return {key: _books(evidence, evidence.books[key]) for key in people if key in evidence.books}


def _books(evidence: Evidence, books: Books) -> object:
    sorties = evidence.sorties

    def at(index: int | None) -> object:
        if index is None:
            return None
        columns = (getattr(sorties, name) for name in sorties.__slots__)
        return tuple(column[index] for column in columns)

    flown = {
        task: [
            (at(sortie), times, supervisor)
            for sortie, times, supervisor in zip(
                some.sortie, some.times, some.supervisor, strict=True
            )
        ]
        for task, some in books.performances.items()
    }
    signed = [
        (one.key, one.day, one.level, one.result, one.evaluator, one.withdrawn, at(one.sortie))
        for one in books.signoffs
    ]
    return (
        books.person, books.assignments, flown, signed, books.certificates, books.waivers,
        books.standdowns,
    )  # fmt: skip
