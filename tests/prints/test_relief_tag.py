import pytest

from crewtrack.engine.standings import Standing
from crewtrack.prints.relief_tag import letters_of, relief_letters, tag, tag_width
from crewtrack.prints.wrapping import Style
from tests.prints import samples

LETTERS = {"W-1": "W", "W-2": "W", "X-1": "E"}


@pytest.mark.parametrize(
    ("keys", "letters"),
    [
        ((), ""),
        (("W-1", "W-2"), "W"),
        (("X-1",), "E"),
        (("X-1", "W-2"), "WE"),
        (("from-elsewhere",), "R"),
    ],
)
def test_waivers_and_extensions_are_told_apart(keys: tuple[str, ...], letters: str) -> None:
    assert letters_of(Standing("K-01", "q", "current", by_waiver=keys), LETTERS) == letters


def test_letters_come_from_the_roster() -> None:
    assert relief_letters(samples.of(1, 1)) == {"W-2026-03": "W", "X-2026-01": "E"}


def test_the_tag_is_as_wide_as_its_frame() -> None:
    style = Style("plain", 8.0, "#000000")
    frame = tag("WE", style).items[0]
    assert getattr(frame, "width", None) == tag_width("WE", style)
