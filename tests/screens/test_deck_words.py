"""The deck picture in sentences, and as JSON."""

import json

import pytest

from crewtrack.engine.deck import Deck, Picture, picture
from crewtrack.screens.deck_words import CAUTIONS, as_json, degrees, lines, remarks

WORKED = Deck(wind_from=240, wind=14, heading=60, set=90, drift=1.2)


def told(deck: Deck) -> Picture:
    return picture(deck)


def having(deck: Deck, word: str) -> list[str]:
    return [line for line in lines(told(deck)) if word in line]


@pytest.mark.parametrize(
    ("direction", "printed"),
    [
        (0, "360°"),
        (0.4, "360°"),
        (0.5, "001°"),
        (57.3, "057°"),
        (359.4, "359°"),
        (359.6, "360°"),
        (360, "360°"),
    ],
)
def test_directions_print_from_001_to_360(direction: float, printed: str) -> None:
    # Check value C5, ship-observation practice: read.
    assert degrees(direction) == printed


def test_the_worked_example_is_told_line_by_line() -> None:
    # deck.md, worked example.
    assert lines(told(WORKED)) == (
        "Wind from 240° at 14.0 kn (Beaufort 4); current setting 090° at 1.2 kn.",
        "Boat heading 060° at 0.0 kn through the water; over the ground toward 090° at 1.2 kn.",
        "Wind over the deck: from 237° at 13.0 kn, 177° off the bow to starboard.",
        "The launcher faces 060°, out over the bow.",
        "An aircraft that drifts with the air opens at 13.0 kn and goes 0.6 kn to port.",
        "An aircraft that holds its position over the ground closes at 1.0 kn and goes 0.6 kn"
        " to port.",
        "Wind at the launcher's back: heading 057°, where a drifting aircraft opens at 13.0 kn.",
        "The boat runs up on an aircraft that holds: move it clear after launch.",
        "With engines idle, turning the boat does not change the wind over the deck.",
        *CAUTIONS,
    )


def test_a_north_wind_prints_360() -> None:
    assert having(Deck(0, 10, 90), "Wind from 360°")


@pytest.mark.parametrize(("heading", "words"), [(0, "dead ahead"), (180, "dead astern")])
def test_wind_dead_ahead_or_astern_has_no_side(heading: float, words: str) -> None:
    assert having(Deck(0, 10, heading), f"Wind over the deck: from 360° at 10.0 kn, {words}.")


@pytest.mark.parametrize(
    ("facing", "words"),
    [
        (None, "faces 360°, out over the bow."),
        (180, "faces 180°, out over the stern."),
        (90, "faces 090°, 90° off the bow to starboard."),
        (315, "faces 315°, 45° off the bow to port."),
    ],
)
def test_where_the_launcher_faces_is_told_from_the_bow(facing: float | None, words: str) -> None:
    assert having(Deck(0, 10, 0, facing=facing), words)


def test_a_boat_that_does_not_move_is_told_as_moored_or_anchored() -> None:
    deck = Deck(0, 10, 90, 5, fixed=True)
    assert having(deck, "Boat moored or anchored, heading 090°.")
    assert having(deck, "holds its position over the ground stays where it is.")


def test_a_calm_is_told_as_none() -> None:
    calm = Deck(0, 0, 0)
    assert having(calm, "Wind none (Beaufort 0); current none.")
    assert having(calm, "Wind over the deck: none.")


def test_where_wind_and_current_cancel_no_heading_is_named() -> None:
    deck = Deck(wind_from=270, wind=3, heading=0, set=90, drift=2.5)
    assert having(deck, "no heading is better than another, as wind and current cancel to 0.5 kn.")


@pytest.mark.parametrize(
    ("deck", "word"),
    [
        (Deck(0, 10, 0), "comes back toward the launcher"),
        (Deck(180, 10, 0, 5), "runs up on an aircraft that holds"),
        (Deck(180, 10, 0, 8), "not the true wind"),
        (Deck(180, 3, 0, 3), "not the true wind"),
        (Deck(90, 10, 0, 5), "not the true wind"),
        (Deck(0, 10, 0, set=10, drift=2), "opposite sides"),
        (Deck(180, 4, 0, 5), "outruns the wind"),
        (Deck(180, 10, 0), "With engines idle"),
        (Deck(180, 10, 0, fixed=True), "turn the launcher instead"),
    ],
)
def test_a_picture_with_something_to_mind_says_so(deck: Deck, word: str) -> None:
    assert [remark for remark in remarks(told(deck)) if word in remark]


def test_a_picture_with_nothing_to_mind_has_no_remarks() -> None:
    assert remarks(told(Deck(0, 20, 0, 1, facing=180))) == ()


@pytest.mark.parametrize("deck", [WORKED, Deck(0, 0, 0), Deck(0, 10, 90, fixed=True)])
def test_the_cautions_close_every_picture(deck: Deck) -> None:
    assert lines(told(deck))[-len(CAUTIONS) :] == CAUTIONS


def test_the_worked_example_has_its_json() -> None:
    # deck.md, worked example.
    assert as_json(told(WORKED)) == {
        "wind": {"from": 240.0, "speed": 14.0, "beaufort": 4},
        "current": {"toward": 90.0, "speed": 1.2},
        "boat": {
            "heading": 60.0,
            "speed": 0.0,
            "leeway": 0.0,
            "fixed": False,
            "over_ground": {"toward": 90.0, "speed": 1.2},
        },
        "facing": 60.0,
        "over_deck": {"from": 237.3, "speed": 12.97, "relative": 177.3, "side": "starboard"},
        "drifting": {"opens": 12.96, "across": 0.6, "side": "port"},
        "holding": {"opens": -1.04, "across": 0.6, "side": "port"},
        "at_back": {"heading": 57.3, "opens": 12.97, "across": 0.0, "side": None},
        "at_back_reason": None,
        "remarks": list(remarks(told(WORKED))),
        "cautions": list(CAUTIONS),
    }


def test_in_json_nothing_that_stands_still_has_a_direction() -> None:
    calm = as_json(told(Deck(0, 0, 0)))
    assert calm["wind"] == {"from": None, "speed": 0.0, "beaufort": 0}
    assert calm["current"] == {"toward": None, "speed": 0.0}
    assert calm["over_deck"] == {"from": None, "speed": 0.0, "relative": None, "side": None}
    assert calm["drifting"] == {"opens": 0.0, "across": 0.0, "side": None}


def test_in_json_no_heading_comes_with_its_reason() -> None:
    calm = as_json(told(Deck(0, 0, 0)))
    assert calm["at_back"] is None
    assert calm["at_back_reason"] == (
        "no heading is better than another, as wind and current cancel to 0.0 kn"
    )


def test_in_json_north_is_360_also_by_rounding() -> None:
    assert as_json(told(Deck(359.99, 10, 0)))["facing"] == 360.0
    assert having(Deck(359.99, 10, 0), "from 360°")
    shown = as_json(told(Deck(359.99, 10, 0)))["wind"]
    assert isinstance(shown, dict)
    assert shown["from"] == 360.0


def test_in_json_an_angle_that_rounds_to_dead_ahead_has_no_side() -> None:
    shown = as_json(told(Deck(0.01, 10, 0)))["over_deck"]
    assert isinstance(shown, dict)
    assert (shown["relative"], shown["side"]) == (0.0, None)


def test_the_json_is_plain() -> None:
    shown = as_json(told(WORKED))
    assert json.loads(json.dumps(shown, allow_nan=False)) == shown
