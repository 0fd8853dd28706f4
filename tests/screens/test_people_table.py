"""Tests of the list of people."""

from datetime import date

from crewtrack.engine.evidence import Books, Person
from crewtrack.screens.people_table import (
    books_told,
    counted,
    people_lines,
    people_table,
)
from tests.evidence_builder import day

ON = date(2026, 11, 25)
BOOKS = {
    "K-02": Books(Person("K-02", "Олена Ґедзь", duties=("handler", "helm"))),
    "K-01": Books(Person("K-01", "Ana Kovač", joined=day("2020-01-01"), duties=("pilot",))),
    "K-03": Books(Person("K-03", "Sam Lee", left=day("2026-03-01"))),
    "K-04": Books(Person("K-04", "Ida Moe", joined=day("2027-01-01"))),
}


def keys(everybody: bool = False, sought: str = "") -> list[str]:
    return [line.key for line in people_lines(BOOKS, ON, everybody, sought)]


def test_only_those_on_the_books_that_day_are_listed_by_key() -> None:
    assert keys() == ["K-01", "K-02"]


def test_everybody_can_be_listed_with_a_word_for_who_is_away() -> None:
    lines = people_lines(BOOKS, ON, everybody=True)
    assert [line.away for line in lines] == ["", "", "left 2026-03-01", "joins 2027-01-01"]
    assert [column.title for column in people_table(lines).columns][-1] == "Books"


def test_the_column_of_absences_is_left_out_where_nobody_is_away() -> None:
    titles = [column.title for column in people_table(people_lines(BOOKS, ON)).columns]
    assert titles == ["Key", "Name", "Duties"]


def test_all_words_sought_must_stand_in_key_name_or_duty_in_any_case() -> None:
    assert keys(sought="kovač PILOT") == ["K-01"]
    assert keys(sought="ґедзь") == ["K-02"]
    assert keys(sought="kovač helm") == []


def test_the_count_says_how_many_are_away() -> None:
    assert counted(people_lines(BOOKS, ON), ON) == "2 people"
    everybody = people_lines(BOOKS, ON, everybody=True)
    assert counted(everybody, ON) == "4 people, 2 not on the books on 2026-11-25"
    assert counted(people_lines(BOOKS, ON, sought="kovač"), ON) == "1 person"


def test_a_line_is_read_aloud_as_one_sentence() -> None:
    lines = people_lines(BOOKS, ON)
    name = people_table(lines).columns[1]
    assert name.said(lines[1]) == "Олена Ґедзь, K-02, handler, helm"


def test_the_books_tell_joining_leaving_and_absence() -> None:
    assert books_told(BOOKS["K-01"], ON) == "joined 2020-01-01"
    assert books_told(BOOKS["K-03"], ON) == "left 2026-03-01, not on the books on 2026-11-25"
