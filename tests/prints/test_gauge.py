import pytest

from crewtrack.prints.gauge import SIZES, gauge
from crewtrack.prints.sheet import LANDSCAPE, PaperName


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("count", [0, 1, 2, 5, 10, 14, 15, 16, 33, 40, 100])
def test_the_grid_never_runs_past_the_margin(count: int, paper: PaperName) -> None:
    width = LANDSCAPE[paper].inner
    found = gauge(count, width)
    assert found.person + found.column * found.across <= width + 1e-6
    assert found.across >= 1


def test_fifteen_qualifications_stand_on_one_sheet_of_a4() -> None:
    assert gauge(15, LANDSCAPE["A4"].inner).across == 15


def test_more_than_fit_are_spread_evenly_over_sheets() -> None:
    assert gauge(16, LANDSCAPE["A4"].inner).across == 8


def test_few_qualifications_are_set_large_with_words_before_the_dates() -> None:
    found = gauge(4, LANDSCAPE["A4"].inner)
    assert found.size == max(SIZES)
    assert found.worded


def test_the_type_is_never_smaller_than_the_least_size() -> None:
    sizes = {gauge(count, LANDSCAPE["letter"].inner).size for count in range(1, 60)}
    assert min(sizes) >= 6.5
    assert sizes <= set(SIZES)


def test_the_longest_word_takes_one_line_while_a_smaller_size_allows_it() -> None:
    found = gauge(11, LANDSCAPE["A4"].inner)
    assert found.style().width("stood-down") <= found.room
