"""The roster for a terminal."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import Standing, StoodDown
from crewtrack.screens.columns import cells
from crewtrack.screens.roster_text import heading, out_of, told, what_is_missing
from crewtrack.screens.standing_words import CAUTION
from tests.screens.rosters import DOWN, FIRST, LAPSED, LAST, PEOPLE, ROWS, marked, plain, roster


def test_the_heading_names_the_day_the_edition_and_the_state_of_the_record() -> None:
    assert heading(roster()) == (
        "Tamarack Harbor: roster on 2026-11-25, edition 2026-1, journal 3f2a9c0177be"
    )


def test_the_heading_names_the_instant_that_it_is_known_at() -> None:
    known = datetime(2026, 11, 1, 8, 0, 0, 123, tzinfo=UTC)
    assert "as known at 2026-11-01T08:00:00+00:00" in heading(roster(known_at=known))


def test_a_wide_terminal_gets_a_table() -> None:
    assert "K-01 Ana Kovač    ● current     ▲ due W" in told(roster(), 80, plain).splitlines()


def test_where_the_table_is_too_wide_each_person_gets_a_block_in_columns() -> None:
    skills = tuple(Qualification(f"q{n}", f"Skill {n}", "pilot", 1, ()) for n in range(9))
    rows = [Standing("K-01", skill.key, "due", FIRST, LAST, ("recency",)) for skill in skills]
    one = roster(
        people=PEOPLE[:1],
        qualifications=skills,
        rows=(replace(rows[0], word="training", since=None), *rows[1:]),
        lapses=(),
        reliefs=(),
        standdowns=(),
    )
    lines = told(one, 90, plain).splitlines()
    at = lines.index("K-01 Ana Kovač")
    assert lines[at + 1 : at + 3] == [
        "  ◇ training  Skill 0",
        "  ▲ due       Skill 1  since 2026-09-01, through 2026-12-03 (recency)",
    ]


@pytest.mark.parametrize("width", [24, 32, 38])
def test_a_narrow_terminal_has_every_line_wrapped(width: int) -> None:
    text = told(roster(), width, plain)
    assert max(map(cells, text.splitlines())) <= width
    assert "since 2026-09-01, through 2026-12-03" in " ".join(text.split())


def test_the_lines_of_a_wrapped_row_hang_below_its_start_and_are_all_painted() -> None:
    lines = told(roster(), 38, marked).splitlines()
    at = lines.index("K-01 Ana Kovač")
    assert lines[at + 3 : at + 6] == [
        "<due>  ▲ due W Night deck pilot since</>",
        "<due>    2026-09-01, through 2026-12-03</>",
        "<due>    (recency-night)</>",
    ]


def test_somebody_without_assignments_is_named_all_the_same() -> None:
    rows = (*ROWS[:6], *(replace(row, word="none") for row in ROWS[6:]))
    assert "K-03 Sam Lee\n  no assignment" in told(roster(rows=rows), 38, plain)


def test_a_day_with_nobody_on_the_books_says_so() -> None:
    empty = roster(people=(), rows=(), lapses=(), reliefs=(), standdowns=())
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


def test_a_waiver_tells_who_granted_it_and_why() -> None:
    text = " ".join(told(roster(), 100, plain).split())
    assert "of recency-night, 2026-11-20 to 2026-12-03, by A. Moss: boat in the yard" in text


def test_who_is_stood_down_is_listed_with_since_when_and_why() -> None:
    assert (
        "Stood down:\n"
        "  K-03 Sam Lee, Night deck pilot, from 2026-11-22 until lifted (D-2), by A. Moss: a\n"
        "    broken wrist\n"
    ) in told(roster(), 88, plain)


def test_a_stand_down_from_everything_says_so_and_an_unknown_qualification_its_key() -> None:
    for key, which in ((None, "all qualifications"), ("gone", "gone")):
        one = StoodDown("K-03", replace(DOWN, qualification=key))
        assert out_of(one, roster()).startswith(f"{which}, from 2026-11-22")


def test_nobody_stood_down_needs_no_list() -> None:
    assert "Stood down" not in told(roster(standdowns=()), 100, plain)


def test_the_cautions_come_last() -> None:
    assert told(roster(), 400, plain).endswith(CAUTION)


def test_what_is_missing_is_found_inside_what_is_nested() -> None:
    assert what_is_missing(LAPSED)[1] == "either: one pass brings it"


def test_a_lapse_is_painted() -> None:
    assert "<lapsed>✖ K-02" in told(roster(), 80, marked)
