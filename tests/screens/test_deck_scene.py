"""The deck picture as lines: directions true, nothing on one line with another."""

from math import atan2, degrees, hypot

import pytest

from crewtrack.engine.deck import Deck, picture
from crewtrack.screens.deck_scene import Arrow, Scene, scene

WORKED = picture(Deck(240, 14, 60, 0, 90, 1.2))


def angle(arrow: Arrow) -> float:
    """Clockwise from straight up, as it is drawn."""
    return degrees(atan2(arrow.end.x - arrow.start.x, arrow.start.y - arrow.end.y)) % 360


def arrows(drawn: Scene) -> dict[str, Arrow]:
    return {arrow.ink: arrow for arrow in drawn.arrows}


def test_north_up_arrows_point_where_things_go() -> None:
    found = {ink: angle(arrow) for ink, arrow in arrows(scene(WORKED, False)).items()}
    assert found == pytest.approx(
        {"wind": 60, "deck": 57.3, "water": 90, "drift": 57.3, "hold": 270}, abs=0.1
    )


def test_bow_up_everything_is_turned_by_the_heading() -> None:
    north, bow = (arrows(scene(WORKED, up)) for up in (False, True))
    for ink, arrow in north.items():
        assert (angle(arrow) - angle(bow[ink])) % 360 == pytest.approx(60)


def test_the_wind_comes_in_from_the_rim_and_the_current_goes_out_to_it() -> None:
    found = arrows(scene(WORKED, True))
    assert hypot(found["wind"].start.x, found["wind"].start.y) > 0.9
    assert hypot(found["water"].end.x, found["water"].end.y) > 0.9


def test_every_arrow_says_what_it_is_and_how_fast() -> None:
    told = {ink: arrow.told for ink, arrow in arrows(scene(WORKED, True)).items()}
    assert told == {
        "wind": "wind 14.0 kn",
        "deck": "over the deck 13.0 kn",
        "water": "current 1.2 kn",
        "drift": "drifts 13.0 kn",
        "hold": "holds 1.2 kn",
    }


def test_what_does_not_move_has_no_arrow() -> None:
    found = scene(picture(Deck(240, 14, 60, fixed=True)), True)
    assert set(arrows(found)) == {"wind", "deck", "drift"}


def test_the_sides_are_named_around_the_bow() -> None:
    assert {mark.told: mark.angle for mark in scene(WORKED, False).sides} == {
        "bow": 60,
        "starboard": 150,
        "stern": 240,
        "port": 330,
    }


def test_the_heading_with_the_wind_at_the_back_is_marked() -> None:
    back = scene(WORKED, False).back
    assert back is not None
    assert back.told == "wind at the back: 057°"
    assert back.angle == pytest.approx(57.3, abs=0.1)


def test_where_no_heading_is_better_none_is_marked() -> None:
    assert scene(picture(Deck(270, 0.5, 0)), True).back is None


def test_the_ring_has_a_tick_every_ten_degrees() -> None:
    ticks = scene(WORKED, True).ticks
    assert len(ticks) == 36
    assert dict(ticks)[60] == 0


def test_a_launcher_who_faces_elsewhere_is_drawn() -> None:
    assert scene(picture(Deck(240, 14, 60, facing=150)), True).faced == 90
    assert scene(WORKED, True).faced is None
