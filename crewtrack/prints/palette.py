"""The inks of every print, as sRGB ``#rrggbb``, on white paper.

All text inks keep a contrast of at least 4.5:1 with the paper and with the tints (WCAG 2, success
criterion 1.4.3). The inks of the standings stay apart under the common deficiencies of colour
vision, and none of them carries a meaning alone: the word and the shape stand beside it.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from crewtrack.engine.standings import Word

PAPER: Final = "#ffffff"
INK: Final = "#171d22"
QUIET: Final = "#505a62"
STRONG_RULE: Final = "#171d22"
FIFTH_RULE: Final = "#8e979e"
FINE_RULE: Final = "#d3d8dc"

STANDING_INKS: Final[Mapping[Word, str]] = MappingProxyType(
    {
        "current": "#005f8c",
        "due": "#8f5a00",
        "lapsed": "#7d0f1c",
        "training": "#7a4fb0",
        "stood-down": "#171d22",
        "none": "#626b72",
    }
)

STANDING_TINTS: Final[Mapping[Word, str]] = MappingProxyType(
    {"due": "#fdf1d6", "lapsed": "#f6dfe0"}
)
"""Behind the cells that ask for something to be done; the others stand on the paper."""
