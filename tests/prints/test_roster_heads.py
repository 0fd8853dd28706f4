from dataclasses import replace

from crewtrack.engine.standings import WORDS
from crewtrack.prints.fonts import REPLACEMENT
from crewtrack.prints.pieces import Sign
from crewtrack.prints.roster_heads import first_head, later_head, legend
from tests.prints import samples

WIDTH = 780.0


def test_the_first_head_tells_what_whose_and_for_which_day() -> None:
    told = first_head(samples.of(1, 10), WIDTH).texts()
    assert "Currency roster" in told
    assert samples.UNIT in told
    assert "Wednesday 2026-11-25" in told
    assert "Edition 2026-1 · 1 person · 10 qualifications" in told


def test_every_other_head_tells_it_in_a_line() -> None:
    told = later_head(samples.of(14, 10), WIDTH).texts()
    assert told == (f"Currency roster · {samples.UNIT}", "Wednesday 2026-11-25")


def test_the_legend_explains_every_shape_and_word() -> None:
    piece = legend(samples.of(14, 10), WIDTH, lacking=False)
    assert {item.word for item in piece.items if isinstance(item, Sign)} == set(WORDS)
    assert set(WORDS) <= set(piece.texts())


def test_the_legend_explains_only_the_letters_that_are_used() -> None:
    roster = samples.of(14, 10)
    told = legend(roster, WIDTH, lacking=False).texts()
    assert {"W", "E"} <= set(told)
    assert "R" not in told
    assert "R" in legend(replace(roster, reliefs=()), WIDTH, lacking=False).texts()


def test_the_legend_explains_the_replacement_where_one_was_needed() -> None:
    assert REPLACEMENT in legend(samples.of(1, 1), WIDTH, lacking=True).texts()
    assert REPLACEMENT not in legend(samples.of(1, 1), WIDTH, lacking=False).texts()


def test_a_legend_too_wide_for_its_line_goes_on_below() -> None:
    narrow = legend(samples.of(14, 10), 300, lacking=True)
    assert narrow.height > legend(samples.of(14, 10), WIDTH, lacking=False).height
