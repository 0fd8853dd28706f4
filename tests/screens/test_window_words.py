"""Cures of the command line, as a window tells them."""

import re
from pathlib import Path

import pytest

from crewtrack.errors import Fault
from crewtrack.phrases import joined, phrase
from crewtrack.screens.window_words import HERE, fault_told_here, told_here
from tests.catalogue import texts

_COMMAND = re.compile(r"(?:^|[\s(])--[a-z]|'crewtrack ")
"""An option or a command."""
_BELOW = ("crewtrack/records/", "crewtrack/office/", "crewtrack/files/", "crewtrack/engine/")


def test_no_text_from_below_names_a_command_in_a_window() -> None:
    named = {t for t, place in texts().items() if place.startswith(_BELOW) and _COMMAND.search(t)}
    assert named - set(HERE) == set()


def test_every_wording_that_is_told_otherwise_is_still_said() -> None:
    assert set(HERE) - set(texts()) == set()


@pytest.mark.parametrize("here", HERE.values())
def test_a_window_names_no_command(here: str) -> None:
    assert not _COMMAND.search(here)


def test_the_cure_of_a_joined_sentence_is_the_window_s() -> None:
    cure = phrase("put the last backup back with 'crewtrack restore FILE'")
    said = joined(" ", (str(Path("unit.crewtrack")), joined("; ", (phrase("is cut short"), cure))))
    assert told_here(said) == "unit.crewtrack is cut short; put the last backup in its place"


def test_values_are_kept() -> None:
    said = phrase(
        "holds something that is not as it was recorded ({what}); see 'crewtrack verify', and put"
        " the last good backup back with 'crewtrack restore FILE'",
        what="sorties 12",
    )
    assert "(sorties 12); verify it" in told_here(said)


def test_a_sentence_that_has_forgotten_its_making_is_told_alike() -> None:
    said = "a.crewtrack is damaged; put the last backup back with 'crewtrack restore FILE'"
    assert told_here(said) == "a.crewtrack is damaged; put the last backup in its place"


def test_an_option_s_name_is_left_out_of_a_fault() -> None:
    fault = Fault("--known-at", "", "it is later than now", "leave it out")
    assert fault_told_here(fault) == "it is later than now; leave it out"
