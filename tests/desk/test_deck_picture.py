"""The painted deck: other pixels for another deck, in every look."""

import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from crewtrack.desk.deck_picture import DeckPicture
from crewtrack.desk.theme import Theme
from crewtrack.engine.deck import Deck, picture

DECK = picture(Deck(240, 14, 60, 3, 90, 1.2, facing=150))


def painted(widget: DeckPicture) -> QImage:
    widget.resize(widget.sizeHint())
    return widget.grab().toImage()


@pytest.fixture
def shown(theme: Theme, qtbot: QtBot) -> DeckPicture:
    made = DeckPicture(theme)
    qtbot.addWidget(made)
    made.show_picture(DECK, "", "spoken")
    return made


def test_turning_it_paints_another_picture(shown: DeckPicture) -> None:
    bow = painted(shown)
    shown.set_bow_up(False)
    assert painted(shown) != bow


def test_another_wind_paints_another_picture(shown: DeckPicture) -> None:
    before = painted(shown)
    shown.show_picture(picture(Deck(250, 14, 60, 3, 90, 1.2, facing=150)), "", "spoken")
    assert painted(shown) != before


def test_the_same_deck_paints_the_same_picture(shown: DeckPicture) -> None:
    assert painted(shown) == painted(shown)


@pytest.mark.parametrize("dark", [False, True])
def test_every_ink_of_the_theme_is_on_it(dark: bool, theme: Theme, qtbot: QtBot) -> None:
    look = Theme(dark)
    widget = DeckPicture(look)
    qtbot.addWidget(widget)
    widget.show_picture(DECK, "", "spoken")
    image = painted(widget)
    found = {
        image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())
    }
    shades = look.shades
    assert {shades.wind, shades.water, shades.accent, shades.text, shades.panel} <= found


def test_without_a_deck_it_says_what_is_missing(shown: DeckPicture) -> None:
    shown.show_picture(None, "Write the heading.", "")
    assert shown.accessibleDescription() == "Write the heading."
    assert painted(shown) is not None
