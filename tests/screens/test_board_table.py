"""The board: what its cells show and say, what is shown, and in which order."""

from dataclasses import replace

import pytest

from crewtrack.engine.standings import Word
from crewtrack.facts import DUTIES
from crewtrack.screens import language
from crewtrack.screens.board_table import (
    BoardFilter,
    board_rows,
    board_table,
    cell_of,
    counted,
    duty_told,
    most_pressing,
    two_lines,
    words,
)
from crewtrack.screens.tables import as_text
from tests.screens.rosters import PEOPLE, roster

ON_DUTY = (
    replace(PEOPLE[0], duties=("pilot", "chief")),
    replace(PEOPLE[1], duties=("pilot",)),
    replace(PEOPLE[2], duties=("helm",)),
)
ROSTER = roster(people=ON_DUTY)
TABLE = board_table(ROSTER)
ROWS = board_rows(ROSTER)


def keys(shown: BoardFilter) -> list[str]:
    return [row.person.key for row in board_table(ROSTER, shown).rows]


def sorted_by(title: str) -> list[str]:
    column = next(each for each in TABLE.columns if each.title == title)
    return [row.person.key for row in sorted(TABLE.rows, key=column.rank)]


def test_its_columns_are_the_person_the_qualifications_and_the_duties() -> None:
    titles = [column.title for column in TABLE.columns]
    assert titles == ["Person", "Deck pilot", "Night deck pilot", "Helm for flight", "Duties"]


@pytest.mark.parametrize(
    ("row", "column", "lines"),
    [
        (0, 0, ("Ana Kovač", "K-01")),
        (0, 1, ("current", "no limit")),
        (0, 2, ("due W", "2026-12-03")),
        (0, 3, ("", "")),
        (0, 4, ("pilot, chief", "")),
        (1, 1, ("lapsed", "since 2026-11-02")),
        (1, 2, ("training", "")),
        (2, 1, ("current E", "2026-12-03")),
        (2, 2, ("stood down", "")),
    ],
)
def test_a_cell_shows_word_and_date(row: int, column: int, lines: tuple[str, str]) -> None:
    assert two_lines(ROWS[row], column) == lines


@pytest.mark.parametrize(
    ("row", "column", "sentence"),
    [
        (0, 0, "Ana Kovač"),
        (0, 1, "Ana Kovač, Deck pilot: current, no limit"),
        (0, 2, "Ana Kovač, Night deck pilot: due, through 2026-12-03, limited by recency-night,"
         " rests on W-3"),
        (0, 3, "Ana Kovač, Helm for flight: not assigned"),
        (0, 4, "Ana Kovač: pilot, chief"),
        (1, 1, "Олена Ґедзь, Deck pilot: lapsed, since 2026-11-02, not met: recency"),
    ],
)  # fmt: skip
def test_a_cell_speaks_a_sentence(row: int, column: int, sentence: str) -> None:
    assert TABLE.columns[column].said(ROWS[row]) == sentence


def test_somebody_without_a_duty_is_told_to_have_none() -> None:
    bare = board_table(roster())
    assert bare.columns[-1].said(bare.rows[0]) == "Ana Kovač: no duty"


def test_a_cell_bears_the_word_of_its_standing() -> None:
    word = TABLE.columns[1].word
    assert word is not None
    assert [word(row) for row in ROWS] == ["current", "lapsed", "current"]


def test_the_person_and_the_duties_bear_no_standing() -> None:
    assert cell_of(ROWS[0], 0) is None
    assert cell_of(ROWS[0], 4) is None


@pytest.mark.parametrize(
    ("shown", "people"),
    [
        (BoardFilter(), ["K-01", "K-02", "K-03"]),
        (BoardFilter(text="ANA"), ["K-01"]),
        (BoardFilter(text="k-03"), ["K-03"]),
        (BoardFilter(text="lee sam"), ["K-03"]),
        (BoardFilter(text="nobody"), []),
        (BoardFilter(duty="pilot"), ["K-01", "K-02"]),
        (BoardFilter(word="current"), ["K-01", "K-03"]),
        (BoardFilter(duty="pilot", word="lapsed"), ["K-02"]),
    ],
)
def test_a_filter_leaves_those_it_takes(shown: BoardFilter, people: list[str]) -> None:
    assert keys(shown) == people


def test_a_qualification_sorts_by_urgency_then_by_date() -> None:
    assert sorted_by("Deck pilot") == ["K-02", "K-03", "K-01"]
    assert sorted_by("Night deck pilot") == ["K-01", "K-02", "K-03"]


def test_duties_sort_in_their_own_order_and_names_by_the_alphabet() -> None:
    assert sorted_by("Duties") == ["K-02", "K-01", "K-03"]
    assert sorted_by("Person") == ["K-01", "K-03", "K-02"]


def test_it_is_copied_as_text() -> None:
    assert as_text(TABLE.columns, TABLE.rows[:1]) == (
        "Person\tDeck pilot\tNight deck pilot\tHelm for flight\tDuties\n"
        "Ana Kovač; K-01\tcurrent no limit\tdue W 2026-12-03\t\tpilot, chief"
    )


@pytest.mark.parametrize(("shown", "told"), [(3, "3 people"), (1, "1 of 3 people")])
def test_the_rows_are_counted(shown: int, told: str) -> None:
    assert counted(shown, 3) == told


def test_the_longest_lapsed_is_most_pressing() -> None:
    assert most_pressing(ROSTER) == ("K-02", "deck-pilot")


def test_where_nobody_has_lapsed_it_is_what_ends_soonest() -> None:
    rows = tuple(row for row in ROSTER.rows if row.word in ("current", "due"))
    assert most_pressing(replace(ROSTER, rows=rows)) == ("K-01", "night")


def test_where_nobody_is_assigned_nothing_is_pressing() -> None:
    assert most_pressing(replace(ROSTER, rows=())) is None


def test_all_words_but_none_can_be_asked_for() -> None:
    expected: tuple[Word, ...] = ("current", "due", "lapsed", "training", "stood-down")
    assert words() == expected


def test_every_duty_is_told_in_the_language_in_use() -> None:
    assert [duty_told(duty) for duty in DUTIES] == list(DUTIES)
    language.use("xx", {"pilot": "Pilotin"})
    try:
        assert duty_told("pilot") == "Pilotin"
    finally:
        language.use(language.ENGLISH, {})
