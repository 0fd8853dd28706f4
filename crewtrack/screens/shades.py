"""The colours of the screens, light and dark, as sRGB ``#rrggbb``.

Every ink keeps a contrast of at least 4.5:1 with what it stands on (WCAG 2, success criterion
1.4.3). The inks of the standings stay apart under the common deficiencies of colour vision, and
none of them carries a meaning alone: a shape and a word stand beside it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from crewtrack.engine.standings import Word


@dataclass(frozen=True, slots=True)
class Shades:
    """One set of colours. ``quiet`` is for what stands beside the matter; ``rule`` parts things
    and says nothing; ``water`` and ``wind`` are the arrows of the deck picture; ``standing`` are
    inks, ``tint`` what a cell that asks for something stands on."""

    window: str
    panel: str
    field: str
    text: str
    quiet: str
    rule: str
    strong_rule: str
    accent: str
    on_accent: str
    selected: str
    on_selected: str
    fault: str
    water: str
    wind: str
    standing: Mapping[Word, str]
    tint: Mapping[Word, str]

    def pairs(self) -> Iterator[tuple[str, str]]:
        """Every ink with every ground that it may stand on."""
        grounds = (self.window, self.panel, self.field)
        inks = (self.text, self.quiet, self.accent, self.fault, self.water, self.wind)
        yield from ((ink, ground) for ink in inks for ground in grounds)
        yield self.on_accent, self.accent
        yield self.on_selected, self.selected
        for word, ink in self.standing.items():
            yield from ((ink, ground) for ground in (*grounds, self.tint.get(word, self.window)))
        yield from ((ink, tint) for ink in (self.text, self.quiet) for tint in self.tint.values())


PAST: Final = 0.3
"""How much of its ink the ground of a bar takes before the day; its rim takes all."""
AHEAD: Final = 0.12
"""How much after it."""
FILL: Final = 0.14
"""How much of its ink the ground below the day line's curve takes."""


def blended(ink: str, ground: str, share: float) -> str:
    """A shade as it looks when so much of an ink lies on a ground."""
    parts = (
        round(share * int(ink[at : at + 2], 16) + (1 - share) * int(ground[at : at + 2], 16))
        for at in (1, 3, 5)
    )
    return "#" + "".join(f"{part:02x}" for part in parts)


LIGHT: Final = Shades(
    window="#f3f5f5",
    panel="#ffffff",
    field="#ffffff",
    text="#161d21",
    quiet="#4d5960",
    rule="#d5dbde",
    strong_rule="#7e8a90",
    accent="#0b5a75",
    on_accent="#ffffff",
    selected="#cfe4ec",
    on_selected="#10181c",
    fault="#9c1326",
    water="#2b5fa8",
    wind="#7a4a00",
    standing=MappingProxyType(
        {
            "current": "#005f8c",
            "due": "#835200",
            "lapsed": "#7d0f1c",
            "training": "#8b3fbf",
            "stood-down": "#171d22",
            "none": "#58626a",
        }
    ),
    tint=MappingProxyType({"due": "#fdf1d6", "lapsed": "#f6dfe0"}),
)

DARK: Final = Shades(
    window="#14191c",
    panel="#1b2226",
    field="#20282d",
    text="#e8edef",
    quiet="#a5b1b7",
    rule="#333e44",
    strong_rule="#6c7a82",
    accent="#7cc4de",
    on_accent="#0c1417",
    selected="#274a58",
    on_selected="#f2f6f7",
    fault="#ff9aa0",
    water="#8fb8f2",
    wind="#e0b15e",
    standing=MappingProxyType(
        {
            "current": "#7cc7ee",
            "due": "#f0bb52",
            "lapsed": "#ff8f8a",
            "training": "#c77ff5",
            "stood-down": "#f4f6f7",
            "none": "#9aa6ad",
        }
    ),
    tint=MappingProxyType({"due": "#3a2f14", "lapsed": "#43191e"}),
)
