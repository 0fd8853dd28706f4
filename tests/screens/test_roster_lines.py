"""The roster for a pipe."""

import re

from crewtrack.screens.roster_lines import told
from tests.screens.rosters import roster


def lines() -> list[str]:
    return told(roster()).splitlines()


def test_there_is_one_line_for_each_standing_assigned() -> None:
    assert [line.split()[:3] for line in lines() if not line.startswith("#")] == [
        ["person", "qualification", "standing"],
        ["K-01", "deck-pilot", "current"],
        ["K-01", "night", "due"],
        ["K-02", "deck-pilot", "lapsed"],
        ["K-02", "night", "training"],
        ["K-03", "deck-pilot", "current"],
        ["K-03", "night", "stood-down"],
    ]


def test_a_line_tells_the_dates_what_limits_and_what_it_rests_on() -> None:
    told = next(line for line in lines() if line.startswith("K-01    night"))
    assert re.split("  +", told)[3:] == [
        "2026-09-01",
        "2026-12-03",
        "waiver W-3",
        "Ana Kovač",
        "recency-night",
    ]


def test_a_relief_and_a_stand_down_tell_who_decided_them_and_why() -> None:
    assert (
        "# relief: K-01 night: waiver W-3 of recency-night, 2026-11-20 to 2026-12-03, by A. Moss:"
        " boat in the yard"
    ) in lines()
    assert (
        "# stood down: K-03: Night deck pilot, from 2026-11-22 until lifted (D-2),"
        " by A. Moss: a broken wrist"
    ) in lines()


def test_what_is_left_out_is_counted() -> None:
    assert "# left out: 3 pairs of person and qualification not assigned that day" in lines()


def test_nothing_is_counted_where_nothing_is_left_out() -> None:
    rows = tuple(row for row in roster().rows if row.word != "none")
    assert "left out" not in told(roster(rows=rows))


def test_what_a_lapsed_one_lacks_is_on_a_line_of_its_own() -> None:
    assert "# missing: K-02 deck-pilot: either: one pass brings it" in lines()


def test_a_key_with_a_line_break_in_it_stays_on_its_line() -> None:
    assert len(told(roster(unit="A\nB")).splitlines()) == len(lines())
