"""How a standing is told in text: a shape, a word and a date, the same on every screen."""

from collections.abc import Mapping
from datetime import date, datetime
from types import MappingProxyType
from typing import Final

from crewtrack.engine.standings import Standing, Word
from crewtrack.screens.deck_words import CAUTIONS
from crewtrack.screens.language import later, say

SHAPES: Final[Mapping[Word, str]] = MappingProxyType(
    {
        "current": "●",
        "due": "▲",
        "lapsed": "✖",
        "training": "◇",
        "stood-down": "‖",
        "none": "–",
    }
)

_WORDS: Final[Mapping[Word, str]] = later(
    {
        "current": "current",
        "due": "due",
        "lapsed": "lapsed",
        "training": "training",
        "stood-down": "stood down",
        "none": "none",
    }
)

CAUTION: Final = " ".join(CAUTIONS[:2])


def word_told(word: Word) -> str:
    """A standing's word, as the screens show it."""
    return say(_WORDS[word])


def shape_and_word(standing: Standing, letters: str = "") -> str:
    """``● current``, or ``● current W`` with the letters of what it rests on."""
    return f"{SHAPES[standing.word]} {standing.word} {letters}".rstrip()


def day_or(day: date | None, otherwise: str) -> str:
    """An ISO date, or something else where there is none."""
    return day.isoformat() if day else otherwise


def as_known_at(known_at: datetime | None) -> str:
    """``, as known at`` an instant; empty for all that is recorded."""
    return f", as known at {known_at.isoformat(timespec='seconds')}" if known_at else ""


def date_told(standing: Standing) -> str:
    """The date that matters: the last day, or the first day of a lapse; empty where none does."""
    if standing.word in ("current", "due"):
        return day_or(standing.through, say("no limit"))
    if standing.word == "lapsed" and standing.since:
        return standing.since.isoformat()
    return ""


def dates_in_words(standing: Standing) -> str:
    """``since 2026-09-01, through 2026-12-03``, as far as a standing has dates."""
    told = [f"since {standing.since}"] if standing.since else []
    if standing.word in ("current", "due"):
        told.append(f"through {standing.through}" if standing.through else "no limit")
    return ", ".join(told)
