"""Options of the deck picture: how they are read, and every fault at once."""

import pytest

from crewtrack.engine.deck import LEEWAYS, Deck
from crewtrack.errors import Refused
from crewtrack.screens.deck_entry import DeckOptions, read_deck


def faults(options: DeckOptions) -> list[str]:
    with pytest.raises(Refused) as refused:
        read_deck(options)
    return [str(fault) for fault in refused.value.faults]


def test_the_options_are_read_as_the_deck_they_tell_of() -> None:
    options = DeckOptions("240/14", "200", "090/1.2", "3.5", "020", "0.03", "drifting")
    assert read_deck(options) == Deck(240, 14, 200, 3.5, 90, 1.2, 0.03, 20)


def test_what_is_left_out_is_nought_and_facing_is_over_the_bow() -> None:
    deck = read_deck(DeckOptions("240/14", "200"))
    assert deck == Deck(wind_from=240, wind=14, heading=200)
    assert deck.faced == 200


@pytest.mark.parametrize(
    ("way", "fixed"),
    [("moored", True), ("anchored", True), ("drifting", False), ("under-way", False)],
)
def test_moored_or_anchored_the_boat_is_fixed(way: str, fixed: bool) -> None:
    assert read_deck(DeckOptions("240/14", "200", way=way)).fixed is fixed


def test_leeway_can_be_named_by_the_craft() -> None:
    assert read_deck(DeckOptions("240/14", "200", leeway="skiff")).leeway == LEEWAYS["skiff"]


def test_every_fault_is_told_at_once_with_its_option() -> None:
    told = faults(DeckOptions("400/14", "x", "90", "-1", "361", "2", "flying"))
    places = [line.split(":")[0] for line in told]
    assert sorted(places) == sorted(
        ["--wind", "--set", "--heading", "--speed", "--leeway", "--facing", "--way"]
    )


def test_a_direction_past_360_is_refused_with_what_would_be_right() -> None:
    assert faults(DeckOptions("400/14", "0")) == [
        "--wind: '400' is not a number that can stand here; write degrees true from 0 to 360"
    ]


def test_a_wind_without_a_speed_is_refused_with_an_example() -> None:
    assert faults(DeckOptions("240", "0")) == [
        "--wind: '240' has no speed; write a direction and a speed in knots, such as 240/14"
    ]


def test_a_missing_number_is_told_as_missing() -> None:
    assert faults(DeckOptions("240/", "0")) == [
        "--wind: no number is given; write knots from 0 to 200"
    ]


@pytest.mark.parametrize("text", ["nan", "inf", "1e3", "14,5", "-3", "１４"])
def test_only_plain_decimal_numbers_are_taken(text: str) -> None:
    assert len(faults(DeckOptions(f"240/{text}", "0"))) == 1
