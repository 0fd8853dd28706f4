"""The deck by itself: to plan a heading without a sortie."""

from typing import Final

from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.deck_side import DeckSide, cautions
from crewtrack.desk.fields import AnyEditor, Field, LineEditor
from crewtrack.desk.theme import Theme
from crewtrack.engine.deck import LEEWAYS
from crewtrack.errors import Refused
from crewtrack.facts import WAYS
from crewtrack.screens.deck_entry import DeckOptions, read_deck
from crewtrack.screens.fact_form import sentence
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say

_HINTS: Final = {"wind": "240/14", "set": "090/1.2", "heading": "060", "speed": "0"}


class DeckDialog(QDialog):
    """Wind, current and boat typed in, the picture beside them. ``preset`` fills in what is known
    already."""

    def __init__(
        self, theme: Theme, preset: DeckOptions | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Deck"))
        self.side = DeckSide(theme)
        self.side.show_light(())
        self.fields: dict[str, Field] = {}
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        for number, (name, told, unit) in enumerate(_fields()):
            self._add(grid, number, name, Field(told, _editor(name), unit))
        given = QVBoxLayout()
        given.addLayout(grid)
        given.addStretch(1)
        both = QHBoxLayout()
        both.addLayout(given, 2)
        both.addWidget(self.side, 3)
        layout = QVBoxLayout(self)
        layout.addLayout(both, 1)
        layout.addWidget(cautions())
        self._fill(preset)
        self.resize(60 * theme.line(), 40 * theme.line())

    def _add(self, grid: QGridLayout, number: int, name: str, field: Field) -> None:
        field.add_to(grid, 2 * number)
        field.editor.setObjectName(name)
        field.editor.edited.connect(self._show)
        self.fields[name] = field

    def options(self) -> DeckOptions:
        """What is typed."""
        return DeckOptions(**{name: field.editor.text() for name, field in self.fields.items()})

    def _fill(self, preset: DeckOptions | None) -> None:
        if preset is not None:
            for name, field in self.fields.items():
                field.editor.set_text(getattr(preset, name))
        self._show()

    def _show(self) -> None:
        """Show the deck, or beneath each field what is wrong with it; what is still empty is no
        fault yet."""
        options = self.options()
        found: dict[str, str] = {}
        deck = None
        try:
            deck = read_deck(options)
        except Refused as refused:
            for fault in refused.faults:
                name = fault.place.removeprefix("--")
                if getattr(options, name):
                    found.setdefault(name, sentence(fault.problem, fault.cure))
        for name, field in self.fields.items():
            field.show_fault(found.get(name, ""))
        self.side.show_deck(deck, say("Write wind and heading, and the deck shows here."))


def _fields() -> tuple[tuple[str, str, str], ...]:
    degrees = say("° true")
    return (
        ("wind", say("Wind from / kn"), ""),
        ("set", say("Set / drift kn"), ""),
        ("way", say("Way"), ""),
        ("heading", say("Heading"), degrees),
        ("speed", say("Speed"), say("kn")),
        ("facing", say("Launcher faces"), degrees),
        ("leeway", say("Leeway"), say("of the wind")),
    )


def _editor(name: str) -> AnyEditor:
    if name == "way":
        chooser = ChoiceEditor()
        chooser.offer({way: choice_told(way) for way in WAYS})
        return chooser
    if name == "leeway":
        chooser = ChoiceEditor()
        chooser.offer({kind: f"{share:.2%}" for kind, share in LEEWAYS.items()})
        return chooser
    line = LineEditor()
    line.setPlaceholderText(_HINTS.get(name, ""))
    return line
