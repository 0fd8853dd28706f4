"""Contrast and colour vision.

Contrast: WCAG 2, relative luminance and contrast ratio, at least 4.5:1 for text (from memory).
Colour vision: matrices of Machado, Oliveira and Fernandes (2009) at full severity, on linear RGB
(from memory); distances are CIE 1976 in L*a*b*, where about 2.3 is just noticeable.
"""

from itertools import combinations

import pytest

from crewtrack.prints import palette
from tests.colour_vision import VISIONS, contrast, distance

TEXT_INKS = [palette.INK, palette.QUIET, *palette.STANDING_INKS.values()]


def test_the_contrast_of_black_on_white_is_21() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("ink", TEXT_INKS)
def test_text_stands_out_from_the_paper(ink: str) -> None:
    assert contrast(ink, palette.PAPER) >= 4.5


@pytest.mark.parametrize("word", list(palette.STANDING_TINTS))
def test_text_stands_out_from_the_tint_behind_it(word: str) -> None:
    tints = {str(key): tint for key, tint in palette.STANDING_TINTS.items()}
    inks = {str(key): ink for key, ink in palette.STANDING_INKS.items()}
    assert contrast(inks[word], tints[word]) >= 4.5
    assert contrast(palette.INK, tints[word]) >= 4.5


@pytest.mark.parametrize("vision", list(VISIONS))
@pytest.mark.parametrize("pair", list(combinations(("current", "due", "lapsed", "training"), 2)))
def test_the_inks_of_standings_stay_apart(pair: tuple[str, str], vision: str) -> None:
    inks = {str(word): ink for word, ink in palette.STANDING_INKS.items()}
    assert distance(inks[pair[0]], inks[pair[1]], VISIONS[vision]) > 12
