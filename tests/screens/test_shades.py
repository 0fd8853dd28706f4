"""Colours of the screens; sources and their trust are in ``tests.colour_vision``."""

from itertools import combinations

import pytest

from crewtrack.screens.shades import AHEAD, DARK, FILL, LIGHT, PAST, Shades, blended
from tests.colour_vision import VISIONS, contrast, distance

BOTH = pytest.mark.parametrize("shades", [LIGHT, DARK], ids=["light", "dark"])


@BOTH
def test_every_ink_stands_out_from_all_that_it_may_stand_on(shades: Shades) -> None:
    faint = [(ink, ground) for ink, ground in shades.pairs() if contrast(ink, ground) < 4.5]
    assert faint == []


@BOTH
def test_every_standing_has_an_ink(shades: Shades) -> None:
    assert set(shades.standing) == {"current", "due", "lapsed", "training", "stood-down", "none"}


@BOTH
@pytest.mark.parametrize("vision", VISIONS)
def test_the_inks_of_the_standings_stay_apart(shades: Shades, vision: str) -> None:
    near = [
        (one, other)
        for one, other in combinations(shades.standing, 2)
        if distance(shades.standing[one], shades.standing[other], VISIONS[vision]) < 10
    ]
    assert near == []


@BOTH
def test_lines_of_a_form_stand_out_as_controls_must(shades: Shades) -> None:
    # WCAG 2.1, success criterion 1.4.11: 3:1 for what marks a control (from memory).
    assert contrast(shades.strong_rule, shades.field) >= 3
    assert contrast(shades.strong_rule, shades.window) >= 3
    assert contrast(shades.accent, shades.field) >= 3


@BOTH
def test_marks_on_a_bar_of_a_life_line_stand_out(shades: Shades) -> None:
    bar = shades.standing["current"]
    marks = (bar, shades.text, shades.quiet, shades.fault, shades.accent)
    grounds = [shades.panel, *(blended(bar, shades.panel, share) for share in (PAST, AHEAD))]
    faint = [(mark, on) for mark in marks for on in grounds if contrast(mark, on) < 3]
    assert faint == []


@BOTH
def test_marks_of_the_day_line_stand_out_from_its_grounds(shades: Shades) -> None:
    curve, low = shades.standing["current"], shades.standing["lapsed"]
    grounds = [shades.panel, shades.tint["lapsed"]]
    grounds += [blended(curve, ground, FILL) for ground in grounds]
    marks = (curve, low, shades.text, shades.quiet, shades.accent)
    faint = [(mark, on) for mark in marks for on in grounds if contrast(mark, on) < 3]
    assert faint == []


@BOTH
def test_the_frame_around_a_chosen_cell_stands_out(shades: Shades) -> None:
    grounds = (shades.selected, shades.panel, *shades.tint.values())
    assert [on for on in grounds if contrast(shades.accent, on) < 3] == []


def test_a_blend_lies_between_ink_and_ground() -> None:
    assert blended("#000000", "#ffffff", 0.0) == "#ffffff"
    assert blended("#102030", "#ffffff", 1.0) == "#102030"
    assert blended("#000000", "#646464", 0.5) == "#323232"
