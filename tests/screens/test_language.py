"""The catalogue of the screens."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from crewtrack.phrases import joined, phrase
from crewtrack.screens import language
from crewtrack.screens.language import count_of, say, told


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    yield
    language.use(language.ENGLISH, {})


def test_a_text_is_english_where_no_other_language_is_in_use() -> None:
    assert say("{name} is out", name="Aino") == "Aino is out"


def test_a_text_is_shown_in_the_language_in_use() -> None:
    language.use("de", {"{name} is out": "{name} ist draußen"})
    assert say("{name} is out", name="Aino") == "Aino ist draußen"
    assert language.in_use() == "de"


def test_what_a_catalogue_lacks_is_shown_in_english() -> None:
    language.use("de", {})
    assert say("Board") == "Board"


def test_braces_in_a_value_are_left_alone() -> None:
    assert say("{name} is out", name="{x}") == "{x} is out"


@pytest.mark.parametrize(("count", "told"), [(0, "0 rows"), (1, "1 row"), (2, "2 rows")])
def test_one_and_many_have_their_own_wording(count: int, told: str) -> None:
    assert count_of(count, "{count} row", "{count} rows") == told


def test_a_phrase_is_told_in_the_language_in_use_and_so_are_those_within_it() -> None:
    language.use("de", {"at level {level}": "auf Stufe {level}", "alone": "allein"})
    assert told(phrase("at level {level}", level=phrase("alone"))) == "auf Stufe allein"


def test_joined_phrases_are_told_each_for_itself() -> None:
    language.use("de", {"live": "echt", "sea {state}": "See {state}"})
    one = joined(", ", (phrase("live"), phrase("sea {state}", state=3), "from a rib"))
    assert told(one) == "echt, See 3, from a rib"


def test_values_and_plain_texts_are_told_as_they_are() -> None:
    language.use("de", {"by {name}": "von {name}", "Live": "Echt", "{x}": "?"})
    assert told(phrase("by {name}", name="Live")) == "von Live"
    assert told("Live") == "Live"
    assert told(phrase("by {name}", name="{x}")) == "von {x}"


def test_a_phrase_is_english_where_the_catalogue_lacks_it() -> None:
    language.use("de", {})
    assert told(phrase("by {name}", name="A. Moss")) == "by A. Moss"


def test_a_catalogue_is_a_file_of_wordings(tmp_path: Path) -> None:
    file = tmp_path / "xx.toml"
    file.write_text('"Board" = "Tafel"\n', encoding="utf-8")
    assert language.read_catalogue(file) == {"Board": "Tafel"}
