from itertools import combinations

import pytest

from crewtrack.engine.standings import WORDS, Word
from crewtrack.prints.marks import SHAPES, inked

GRID = 40
POINTS = [((x + 0.5) / GRID, (y + 0.5) / GRID) for x in range(GRID) for y in range(GRID)]


def silhouette(word: Word) -> frozenset[tuple[float, float]]:
    return frozenset(point for point in POINTS if inked(SHAPES[word], *point))


@pytest.mark.parametrize("word", WORDS)
def test_every_standing_has_a_shape_with_ink_in_it(word: Word) -> None:
    assert len(silhouette(word)) > 0.04 * len(POINTS)


@pytest.mark.parametrize("pair", list(combinations(WORDS, 2)))
def test_any_two_shapes_differ_in_a_good_part_of_their_ink(pair: tuple[Word, Word]) -> None:
    one, other = map(silhouette, pair)
    assert len(one ^ other) > 0.4 * len(one | other)


@pytest.mark.parametrize("word", WORDS)
def test_shapes_stay_about_within_their_square(word: Word) -> None:
    corners = [number for polygon in SHAPES[word] for point in polygon for number in point]
    assert min(corners) >= -0.05
    assert max(corners) <= 1.05


def test_the_mark_of_training_is_hollow() -> None:
    assert not inked(SHAPES["training"], 0.5, 0.5)
    assert inked(SHAPES["current"], 0.5, 0.5)
