"""The deck by itself."""

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from crewtrack.desk.deck_page import DeckDialog
from crewtrack.desk.theme import Theme
from crewtrack.screens.deck_entry import DeckOptions
from crewtrack.screens.deck_words import CAUTIONS
from tests.desk.sorties import Keys


@pytest.fixture
def deck(theme: Theme, qtbot: QtBot) -> DeckDialog:
    made = DeckDialog(theme, DeckOptions("240/14", "060", "090/1.2"))
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    return made


def test_the_worked_example_is_told(deck: DeckDialog) -> None:
    # The worked example of the arithmetic: 12.97 kn from 237.3, opens at 12.96, 0.60 to port.
    told = deck.side.words.text()
    assert "Wind over the deck: from 237° at 13.0 kn, 177° off the bow to starboard." in told
    assert "opens at 13.0 kn and goes 0.6 kn to port" in told


def test_the_picture_is_read_aloud_in_sentences(deck: DeckDialog) -> None:
    spoken = deck.side.picture.accessibleDescription()
    assert "Wind over the deck: from 237°" in spoken
    assert all(caution in spoken for caution in CAUTIONS)


def test_the_cautions_are_always_in_sight(deck: DeckDialog) -> None:
    shown = [label.text() for label in deck.findChildren(QLabel) if label.isVisible()]
    assert " ".join(CAUTIONS) in shown


def test_it_follows_every_key(deck: DeckDialog) -> None:
    editor = deck.fields["way"].editor
    editor.setFocus()
    Keys().text("moored")
    assert "from 240° at 14.0 kn" in deck.side.words.text()


def test_what_is_wrong_is_told_beneath_its_field(deck: DeckDialog) -> None:
    deck.fields["heading"].editor.set_text("400")
    field = deck.fields["heading"]
    assert field.fault.text().endswith("write degrees true from 0 to 360")
    assert not deck.side.words.isVisible()


def test_what_is_still_empty_is_no_fault(theme: Theme, qtbot: QtBot) -> None:
    deck = DeckDialog(theme)
    qtbot.addWidget(deck)
    deck.show()
    assert not any(field.fault.isVisible() for field in deck.fields.values())
    assert deck.side.picture.accessibleDescription() == (
        "Write wind and heading, and the deck shows here."
    )
