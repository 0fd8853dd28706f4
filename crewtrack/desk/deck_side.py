"""The deck picture with its words, and the cautions that always stand with it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QLabel, QVBoxLayout, QWidget

from crewtrack.desk.deck_picture import DeckPicture
from crewtrack.desk.theme import Theme
from crewtrack.engine.deck import Deck, picture
from crewtrack.screens import deck_words
from crewtrack.screens.language import say


class DeckSide(QWidget):
    """``light`` is the line above the picture; empty where light is no matter."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.picture = DeckPicture(theme)
        self.light = _words("")
        self.words = _words("")
        self.turn = QCheckBox(say("&Bow up"))
        self.turn.setAccessibleName(say("Bow up; else north is up"))
        self.turn.setChecked(True)
        self.turn.toggled.connect(self.picture.set_bow_up)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.light)
        layout.addWidget(self.picture)
        layout.addWidget(self.turn)
        layout.addWidget(self.words)
        layout.addStretch(1)

    def show_light(self, told: tuple[str, ...]) -> None:
        """Say what the light is."""
        self.light.setText("\n".join(told))
        self.light.setVisible(bool(told))

    def show_deck(self, deck: Deck | None, missing: str) -> None:
        """Show a deck, or what is missing for one."""
        if deck is None:
            self.picture.show_picture(None, missing, "")
            self.words.setText("")
        else:
            worked_out = picture(deck)
            told = deck_words.lines(worked_out)
            self.picture.show_picture(worked_out, "", " ".join(told))
            self.words.setText("\n".join(told[2 : -len(deck_words.CAUTIONS)]))
        self.words.setVisible(deck is not None)


def cautions() -> QLabel:
    """What goes before all that a deck picture says; never to be scrolled out of sight."""
    label = _words("quiet")
    label.setText(" ".join(deck_words.cautions()))
    return label


def _words(tone: str) -> QLabel:
    label = QLabel()
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if tone:
        label.setProperty("tone", tone)
    return label
