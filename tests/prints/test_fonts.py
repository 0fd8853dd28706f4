import unicodedata

import pytest

from crewtrack.prints.fonts import REPLACEMENT, lacking, measure, printable
from tests.prints.samples import NAMES


@pytest.mark.parametrize("name", NAMES)
def test_names_in_latin_greek_and_cyrillic_letters_print_as_they_are(name: str) -> None:
    assert printable(name) == name
    assert lacking([name]) == ()


def test_letters_written_with_combining_marks_are_composed() -> None:
    assert printable(unicodedata.normalize("NFD", "Nguyễn Ánh")) == "Nguyễn Ánh"


def test_white_space_of_any_kind_becomes_single_spaces() -> None:
    assert printable("  Ana\t\n Maria\u00a0Ruiz ") == "Ana Maria Ruiz"


@pytest.mark.parametrize("character", ["李", "🚤", "م", "\u202e", "\x07", "\x00"])
def test_what_the_typeface_lacks_is_replaced_by_something_visible(character: str) -> None:
    assert printable(f"A{character}B") == f"A{REPLACEMENT}B"
    assert measure(REPLACEMENT, "plain", 10) > 2


def test_the_characters_lacking_are_told_once_each_in_order() -> None:
    assert lacking(["龍李", "Ana 李", "Ivo"]) == ("李", "龍")


def test_a_replacement_that_was_entered_is_not_lacking() -> None:
    assert lacking([REPLACEMENT]) == ()


def test_width_grows_with_size_and_strength() -> None:
    assert measure("Deck pilot", "plain", 20) == pytest.approx(
        2 * measure("Deck pilot", "plain", 10)
    )
    assert measure("Deck pilot", "strong", 10) > measure("Deck pilot", "plain", 10)
