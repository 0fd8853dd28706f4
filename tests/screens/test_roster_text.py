"""The roster for a terminal."""

from dataclasses import replace
from datetime import UTC, datetime

from crewtrack.screens.roster_text import heading, told, what_is_missing
from crewtrack.screens.standing_words import CAUTION
from tests.screens.rosters import LAPSED, ROWS, marked, plain, roster


def test_the_heading_names_the_day_the_edition_and_the_state_of_the_record() -> None:
    assert heading(roster()) == (
        "Tamarack Harbor: roster on 2026-11-25, edition 2026-1, journal 3f2a9c0177be"
    )


def test_the_heading_names_the_instant_that_it_is_known_at() -> None:
    known = datetime(2026, 11, 1, 8, 0, 0, 123, tzinfo=UTC)
    assert "as known at 2026-11-01T08:00:00+00:00" in heading(roster(known_at=known))


def test_a_wide_terminal_gets_a_table() -> None:
    assert "K-01 Ana Kovač    ● current     ▲ due W" in told(roster(), 80, plain).splitlines()


def test_a_narrow_terminal_gets_a_block_for_each_person() -> None:
    lines = told(roster(), 38, plain).splitlines()
    at = lines.index("K-01 Ana Kovač")
    assert lines[at + 1 : at + 4] == [
        "  ● current  Deck pilot        since 2026-09-01, no limit",
        "  ▲ due W    Night deck pilot  since 2026-09-01, through 2026-12-03 (recency-night)",
        "",
    ]


def test_somebody_without_assignments_is_named_all_the_same() -> None:
    rows = (*ROWS[:6], *(replace(row, word="none") for row in ROWS[6:]))
    assert "K-03 Sam Lee\n  no assignment" in told(roster(rows=rows), 38, plain)


def test_a_day_with_nobody_on_the_books_says_so() -> None:
    empty = roster(people=(), rows=(), lapses=(), reliefs=())
    assert "Nobody is on the books that day." in told(empty, 80, plain)


def test_the_lapse_list_says_what_brings_each_back() -> None:
    assert (
        "Lapsed: 1\n"
        "✖ K-02 Олена Ґедзь, Deck pilot, since 2026-11-02\n"
        "    recency: 2 of 3 hand recoveries since 2026-08-28; 1 more, supervised, brings\n"
        "    this back\n"
        "    either: one pass brings it\n"
    ) in told(roster(), 80, plain)


def test_there_is_no_lapse_list_where_nobody_has_lapsed() -> None:
    assert "Lapsed:" not in told(roster(lapses=()), 80, plain)


def test_waivers_and_extensions_are_told_apart() -> None:
    text = told(roster(), 100, plain)
    assert "K-01 Ana Kovač, Night deck pilot: waiver W-3 of recency-night, 2026-11-20 to" in text
    assert "K-03 Sam Lee, Deck pilot: extension X-1 of medical, 2026-11-25 to 2026-12-03" in text


def test_the_cautions_come_last() -> None:
    assert told(roster(), 400, plain).endswith(CAUTION)


def test_what_is_missing_is_found_inside_what_is_nested() -> None:
    assert what_is_missing(LAPSED)[1] == "either: one pass brings it"


def test_a_lapse_is_painted() -> None:
    assert "<lapsed>✖ K-02" in told(roster(), 80, marked)
