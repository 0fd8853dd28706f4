"""What one act recorded, and acts from the newest back."""

import pytest

from crewtrack import facts
from crewtrack.records.recorded import Recorded
from crewtrack.records.store import Record
from tests.records.samples import (
    LATER_SORTIE,
    PERFORMANCES,
    ROWS,
    STRUCK,
    WAIVERS,
    WITHDRAWN,
    at,
    strike_some,
)


def test_an_act_that_added_facts_recorded_first_revisions(record: Record) -> None:
    with record.reading() as reading:
        total, rows = reading.recorded_by(2)
    assert total == len(rows) == sum(map(len, ROWS.values()))
    assert [(one.kind, one.row) for one in rows] == [
        (kind, row) for kind in facts.RECORDED for row in ROWS[kind]
    ]
    assert {(one.revision, one.struck) for one in rows} == {(1, False)}


def test_an_act_that_corrected_facts_recorded_later_revisions(record: Record) -> None:
    with record.reading() as reading:
        assert reading.recorded_by(3) == (
            2,
            (
                Recorded(facts.SORTIES, ("S-1",), 2, False, LATER_SORTIE),
                Recorded(facts.SIGNOFFS, ("G-1",), 2, False, WITHDRAWN),
            ),
        )


def test_an_act_that_struck_facts_out_recorded_that(record: Record) -> None:
    strike_some(record)
    with record.reading() as reading:
        assert reading.recorded_by(5) == (
            2,
            (
                Recorded(facts.PERFORMANCES, STRUCK, 2, True, PERFORMANCES[3]),
                Recorded(facts.WAIVERS, ("W-1",), 2, True, WAIVERS[0]),
            ),
        )


@pytest.mark.parametrize("most", [0, 1, 4, 7])
def test_of_many_rows_the_first_are_told_and_how_many_there_are(record: Record, most: int) -> None:
    with record.reading() as reading:
        total, rows = reading.recorded_by(2)
        assert reading.recorded_by(2, most) == (total, rows[:most])


@pytest.mark.parametrize("seq", [0, 1, 9])
def test_an_act_without_facts_recorded_no_rows(record: Record, seq: int) -> None:
    with record.reading() as reading:
        assert reading.recorded_by(seq) == (0, ())


def test_acts_come_back_from_the_newest_some_at_a_time(record: Record) -> None:
    with record.reading() as reading:
        assert reading.acts_back(None, 3) == tuple(reading.acts())[:0:-1]
        assert [act.seq for act in reading.acts_back(2, 3)] == [1]
        assert reading.acts_back(1, 3) == ()


@pytest.mark.parametrize(
    ("like", "seqs"),
    [
        ("chief", [4]),
        ("CHIEF", [4]),
        ("paper", [3]),
        ("import", [3, 2]),
        ("", [4, 3, 2, 1]),
        ("x", []),
    ],
)
def test_acts_are_found_by_a_text_in_their_author_kind_or_reason(
    record: Record, like: str, seqs: list[int]
) -> None:
    with record.reading() as reading:
        assert [act.seq for act in reading.acts_back(None, 9, like)] == seqs


@pytest.mark.parametrize(
    ("like", "seqs"), [("%", [5]), ("5%", [5]), ("_", [6]), ("\\", [7]), ("a\\_", []), ("o%r", [])]
)
def test_what_the_database_takes_for_wildcards_is_looked_for_as_it_is(
    record: Record, like: str, seqs: list[int]
) -> None:
    for number, reason in enumerate(("5% off", "a_b", "a\\b"), start=5):
        with record.act("import", "officer", at(number), reason) as act:
            act.add(facts.PEOPLE, [(f"P-{number}", "x", None, None, None, None, ())])
    with record.reading() as reading:
        assert [act.seq for act in reading.acts_back(None, 9, like)] == seqs
