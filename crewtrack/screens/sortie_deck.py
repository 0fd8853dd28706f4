"""The deck of a sortie that is being typed."""

from collections.abc import Mapping
from typing import Final

from crewtrack.engine.deck import Deck
from crewtrack.facts import Value
from crewtrack.screens.deck_entry import FIXED_WAYS, DeckOptions
from crewtrack.screens.language import say
from crewtrack.screens.sortie_draft import SortieDraft
from crewtrack.screens.sortie_form import ReadDraft

_PARTS: Final = ("way", "wind", "heading", "speed", "current")


def deck_of(values: Mapping[str, Value]) -> Deck | None:
    """The deck, from the values of a sortie by column; None where wind or heading is missing.
    What else is missing counts as none: speed, and a current."""
    wind, wind_from, heading = (
        _number(values.get(name)) for name in ("wind", "wind_from", "heading")
    )
    if wind is None or heading is None or (wind_from is None and wind > 0):
        return None
    toward, drift = (_number(values.get(name)) for name in ("set", "drift"))
    whole = toward is not None and drift is not None
    return Deck(
        wind_from=wind_from or 0.0,
        wind=wind,
        heading=heading,
        speed=_number(values.get("speed")) or 0.0,
        set=toward or 0.0,
        drift=(drift or 0.0) if whole else 0.0,
        fixed=values.get("way") in FIXED_WAYS,
    )


def deck_shown(read: ReadDraft) -> tuple[Deck | None, str]:
    """The deck as it is typed, or what is missing for it; none while a part of it is wrong, which
    must not count as nothing."""
    if any(fault.place in _PARTS and not fault.empty for fault in read.faults):
        return None, say("Mend what is marked, and the deck shows here.")
    return deck_of(read.values), missing_told(read.values)


def missing_told(values: Mapping[str, Value]) -> str:
    """What is missing for a picture."""
    lacking = values.get("wind") is None or (values.get("wind_from") is None and values["wind"])
    heading = values.get("heading") is None
    if lacking and heading:
        return say("Write wind and heading, and the deck shows here.")
    if lacking:
        return say("Write where the wind is from and its speed, and the deck shows here.")
    return say("Write the heading, and the deck shows here.")


def options_of(draft: SortieDraft) -> DeckOptions:
    """The same as it is typed, for the deck by itself."""
    return DeckOptions(
        wind=draft.text("wind"),
        heading=draft.text("heading"),
        set=draft.text("current"),
        speed=draft.text("speed"),
        way=draft.text("way"),
    )


def _number(value: Value) -> float | None:
    return float(value) if isinstance(value, int | float) else None
