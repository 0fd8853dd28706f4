"""One standing, explained in text."""

from dataclasses import replace
from datetime import UTC, datetime

from crewtrack.engine.standings import Counted
from crewtrack.screens.columns import cells
from crewtrack.screens.why_text import told
from tests.screens.rosters import FIRST, LAPSED, ON, ROWS, marked


def lines() -> list[str]:
    return told(LAPSED, ON).splitlines()


def test_the_standing_comes_first() -> None:
    assert lines()[:3] == [
        "K-02 Олена Ґедзь, Deck pilot (deck-pilot) on 2026-11-25, by edition 2026-1",
        "✖ lapsed, since 2026-11-02",
        "  not met: recency",
    ]


def test_an_earlier_state_of_the_record_is_named() -> None:
    known = datetime(2026, 11, 1, 8, tzinfo=UTC)
    assert told(LAPSED, ON, known_at=known).splitlines()[0] == (
        "K-02 Олена Ґедзь, Deck pilot (deck-pilot) on 2026-11-25, as known at"
        " 2026-11-01T08:00:00+00:00, by edition 2026-1"
    )


def test_a_requirement_shows_what_counts_and_what_is_missing() -> None:
    at = lines().index("✖ recency: hand recovery: 3 in 90 days")
    assert lines()[at + 1 : at + 4] == [
        "  counts 2: 2026-09-04 performance S-0193 hand-recovery (night, drifting, sea 3)"
        " through 2026-12-03",
        "  missing: 2 of 3 hand recoveries since 2026-08-28; 1 more, supervised, brings this back",
        "  met: never",
    ]


def test_a_met_requirement_shows_its_last_day_and_its_spans() -> None:
    at = lines().index("✔ medical (through 2026-12-03): certificate medical")
    assert lines()[at + 1] == "  met: 2025-02-03 to 2025-08-19; 2026-09-01 to no limit"


def test_what_is_nested_stands_further_in() -> None:
    assert "  ✖ signed: signed off" in lines()
    assert "    missing: one pass brings it" in lines()


def test_notes_are_told() -> None:
    assert "note: K-02 has no birth date: the last age band counts" in lines()


def test_lines_keep_to_the_width() -> None:
    assert max(map(cells, told(LAPSED, ON, 60).splitlines())) <= 60


def test_what_will_end_first_is_told_where_it_is_met() -> None:
    due = replace(LAPSED, standing=replace(ROWS[1], by_waiver=()))
    assert "  ends first: recency-night" in told(due, ON).splitlines()


def test_what_it_rests_on_is_told_by_its_kind() -> None:
    relief = Counted("waiver", "W-3", FIRST)
    need = replace(LAPSED.requirements[0], counted=(relief,))
    nested = replace(LAPSED.requirements[2], needs=(need,))
    due = replace(LAPSED, standing=ROWS[1], requirements=(nested,))
    assert "  rests on waiver W-3" in told(due, ON).splitlines()
    assert told(due, ON).splitlines()[1].startswith("▲ due W,")


def test_the_standing_is_painted_by_its_word() -> None:
    assert told(LAPSED, ON, 80, marked).splitlines()[1] == "<lapsed>✖ lapsed, since 2026-11-02</>"
