"""The deck of a sortie that is being typed."""

from zoneinfo import ZoneInfo

import pytest

from crewtrack.engine.deck import Deck
from crewtrack.facts import Value
from crewtrack.screens.deck_entry import DeckOptions
from crewtrack.screens.sortie_deck import deck_of, deck_shown, missing_told, options_of
from crewtrack.screens.sortie_form import SortieKnown, read_draft
from tests.screens.sortie_samples import SOUND

WHOLE: dict[str, Value] = {
    "wind_from": 240.0,
    "wind": 14.0,
    "heading": 60.0,
    "speed": 3.0,
    "set": 90.0,
    "drift": 1.2,
    "way": "under-way",
}


def test_a_whole_deck_is_as_typed() -> None:
    assert deck_of(WHOLE) == Deck(240.0, 14.0, 60.0, 3.0, 90.0, 1.2)


def test_half_a_current_is_none() -> None:
    found = deck_of(WHOLE | {"set": None})
    assert found is not None
    assert found.drift == 0


@pytest.mark.parametrize("way", ["moored", "anchored"])
def test_a_moored_boat_is_fixed(way: str) -> None:
    found = deck_of(WHOLE | {"way": way})
    assert found is not None
    assert found.fixed


def test_a_calm_needs_no_direction() -> None:
    assert deck_of(WHOLE | {"wind_from": None, "wind": 0.0}) is not None


@pytest.mark.parametrize(
    ("lacking", "told"),
    [
        ({"wind": None}, "Write where the wind is from and its speed, and the deck shows here."),
        ({"wind_from": None}, "Write where the wind is from and its speed, "
                              "and the deck shows here."),
        ({"heading": None}, "Write the heading, and the deck shows here."),
        ({"wind": None, "heading": None}, "Write wind and heading, and the deck shows here."),
    ],
)  # fmt: skip
def test_what_is_missing_for_a_picture_is_told(lacking: dict[str, Value], told: str) -> None:
    assert deck_of(WHOLE | lacking) is None
    assert missing_told(WHOLE | lacking) == told


def test_a_draft_opens_the_deck_as_it_is_typed() -> None:
    assert options_of(SOUND) == DeckOptions("240/14", "60", "090/1.2", "0", way="drifting")


def test_a_speed_that_can_not_be_read_is_not_taken_for_none() -> None:
    known = SortieKnown(zone=ZoneInfo("America/Detroit"))
    draft = SOUND.with_text("wind", "240/14").with_text("heading", "060").with_text("speed", "x")
    assert deck_shown(read_draft(draft, known)) == (
        None,
        "Mend what is marked, and the deck shows here.",
    )
    assert deck_shown(read_draft(draft.with_text("speed", "3"), known))[0] is not None
