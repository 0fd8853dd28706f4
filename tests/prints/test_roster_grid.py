from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.standings import Standing
from crewtrack.prints.pieces import Area, Sign, Words
from crewtrack.prints.roster_grid import sections, told_date
from tests.prints import samples

WIDTH = 780.0
THROUGH = Standing("K-01", "q", "due", date(2026, 1, 1), date(2026, 12, 3))
LAPSED = Standing("K-01", "q", "lapsed", date(2026, 10, 2))


@pytest.mark.parametrize(
    ("standing", "bare", "worded"),
    [
        (THROUGH, "2026-12-03", "through 2026-12-03"),
        (replace(THROUGH, word="current", through=None), "no limit", "no limit"),
        (LAPSED, "2026-10-02", "since 2026-10-02"),
        (Standing("K-01", "q", "training"), "", ""),
        (Standing("K-01", "q", "stood-down"), "", ""),
        (Standing("K-01", "q", "none"), "", ""),
    ],
)
def test_the_date_is_the_last_day_held_or_the_first_of_the_lapse(
    standing: Standing, bare: str, worded: str
) -> None:
    assert told_date(standing, worded=False) == bare
    assert told_date(standing, worded=True) == worded


def test_every_cell_has_its_word_and_its_shape() -> None:
    roster = samples.of(14, 10)
    (grid,) = sections(roster, WIDTH)
    items = [item for row in grid.rows for item in row.items]
    signs = [item.word for item in items if isinstance(item, Sign)]
    texts = [item.text for item in items if isinstance(item, Words)]
    assert signs == [row.word for row in roster.rows]
    assert all(texts.count(word) == signs.count(word) for word in set(signs))


def test_further_sheets_repeat_the_people_and_hold_the_other_qualifications() -> None:
    roster = samples.of(3, 33)
    grid = sections(roster, WIDTH)
    assert len(grid) == 3
    assert [part.bookmark for part in grid] == [f"Roster, sheet {n} of 3" for n in (1, 2, 3)]
    for part in grid:
        told = [text for row in part.rows for text in row.texts()]
        assert set(samples.NAMES[:3]) <= set(told)
    assert sum(isinstance(i, Sign) for p in grid for r in p.rows for i in r.items) == 99


def test_the_counts_stand_with_the_last_person_and_tell_of_too_few() -> None:
    (grid,) = sections(samples.of(14, 10), WIDTH)
    last = grid.rows[-1].texts()
    assert len(grid.rows) == 14
    assert "Current or due" in last
    assert "short of 2" in last
    assert "minimum 1" in last


def test_nobody_on_the_books_is_said_in_a_sentence() -> None:
    (grid,) = sections(samples.of(0, 10), WIDTH)
    assert grid.rows[0].texts() == ("Nobody is on the unit's books on 2026-11-25.",)


def test_only_cells_that_ask_for_something_are_tinted() -> None:
    roster = replace(samples.of(14, 10), reliefs=())
    (grid,) = sections(roster, WIDTH)
    tints = [i for row in grid.rows for i in row.items if isinstance(i, Area) and i.weight == 0]
    assert len(tints) == sum(row.word in ("due", "lapsed") for row in roster.rows)


def test_a_standing_that_rests_on_a_waiver_carries_its_letter() -> None:
    (grid,) = sections(samples.of(14, 10), WIDTH)
    assert "W" in grid.rows[0].texts()
    assert "E" in grid.rows[4].texts()
    assert "W" not in grid.rows[5].texts()
