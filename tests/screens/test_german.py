"""The German catalogue is whole, and says what the English does."""

import re
from string import Formatter

from crewtrack.screens.language import read_catalogue
from tests.catalogue import GERMAN, texts

KNOWN = read_catalogue(GERMAN)


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def test_every_text_has_a_german_wording() -> None:
    assert {text: place for text, place in texts().items() if text not in KNOWN} == {}


def test_nothing_in_it_is_said_nowhere() -> None:
    assert set(KNOWN) - set(texts()) == set()


def test_every_wording_names_the_same_values() -> None:
    assert [e for e, german in KNOWN.items() if fields(german) != fields(e)] == []


def test_no_wording_is_empty_or_ends_otherwise() -> None:
    odd = [
        english
        for english, german in KNOWN.items()
        if not german.strip() or ends(german) != ends(english)
    ]
    assert odd == []


def ends(text: str) -> tuple[str, bool]:
    """The mark at a text's end, and whether it begins with a blank."""
    last = text[-1] if len(text) > 1 and text[-1] in ".…:?" else ""
    return last, bool(re.match(r"\s", text))
