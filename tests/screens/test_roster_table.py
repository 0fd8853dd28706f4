"""The roster as a table for a terminal."""

from crewtrack.screens.columns import cells
from crewtrack.screens.roster_table import table
from tests.screens.rosters import marked, plain, roster


def test_the_table_has_words_with_dates_below_them() -> None:
    assert table(roster(), 80, plain) == [
        "                                Night deck",
        "                  Deck pilot    pilot",
        "────────────────  ────────────  ────────────",
        "K-01 Ana Kovač    ● current     ▲ due W",
        "                    no limit      2026-12-03",
        "K-02 Олена Ґедзь  ✖ lapsed      ◇ training",
        "                    2026-11-02",
        "K-03 Sam Lee      ● current E   ‖ stood-down",
        "                    2026-12-03",
    ]


def test_a_qualification_that_nobody_is_assigned_to_is_left_out() -> None:
    assert "Helm" not in "\n".join(table(roster(), 80, plain))


def test_names_are_cut_before_the_table_is_given_up() -> None:
    lines = table(roster(), 40, plain)
    assert max(map(cells, lines)) == 40
    assert "K-01 Ana Ko…" in lines[3]


def test_there_is_no_table_where_it_does_not_fit() -> None:
    assert table(roster(), 39, plain) == []


def test_there_is_no_table_of_nobody() -> None:
    assert table(roster(people=(), rows=(), lapses=(), reliefs=()), 80, plain) == []


def test_cells_are_painted_by_their_word() -> None:
    lines = table(roster(), 80, marked)
    assert "<lapsed>✖ lapsed</>      <training>◇ training</>" in lines[5]
    assert "<lapsed>  2026-11-02</>" in lines[6]
