"""``deck``."""

import json

from tests.cli.conftest import Ask

# The worked example of the deck picture's own description.
ORDER = ("deck", "--wind", "240/14", "--set", "090/1.2", "--heading", "060", "--speed", "0")


def test_the_picture_is_told_in_sentences(ask: Ask) -> None:
    answer = ask(*ORDER)
    assert answer.code == 0
    assert "Wind over the deck: from 237° at 13.0 kn, 177° off the bow to starboard." in answer.out
    assert "the master of the boat and the remote pilot decide" in answer.out


def test_the_picture_is_told_as_json(ask: Ask) -> None:
    told = json.loads(ask(*ORDER, "--format", "json").out)
    assert told["over_deck"] == {
        "from": 237.3,
        "speed": 12.97,
        "relative": 177.3,
        "side": "starboard",
    }


def test_every_option_reaches_the_picture(ask: Ask) -> None:
    more = ("--facing", "150", "--leeway", "0.03", "--way", "anchored", "--format", "json")
    told = json.loads(ask(*ORDER, *more).out)
    assert (told["facing"], told["boat"]["leeway"], told["boat"]["fixed"]) == (150, 0.03, True)


def test_every_option_that_cannot_be_taken_is_told(ask: Ask) -> None:
    answer = ask("deck", "--wind", "240", "--heading", "400")
    assert answer.code == 2
    assert [line.split(":")[0] for line in answer.err.splitlines()] == ["--wind", "--heading"]
