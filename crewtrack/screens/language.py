"""The language of the screens: one catalogue from English to what is shown.

A text's English wording is its key. Texts are looked up when they are shown, never at import, so
that the language can change while the program runs; what a catalogue lacks is shown in English.
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from crewtrack.phrases import Joined, Phrase
from crewtrack.phrases import later as later

ENGLISH: Final = "en"


class _Shown:
    """The catalogue in use: a program shows one language at a time."""

    def __init__(self) -> None:
        self.name = ENGLISH
        self.texts: Mapping[str, str] = {}


_SHOWN = _Shown()


def say(english: str, **values: object) -> str:
    """A text in the language in use, its ``{names}`` filled in."""
    text = _SHOWN.texts.get(english, english)
    return text.format(**values) if values else text


def told(text: str) -> str:
    """A sentence that was made below the screens, in the language in use, and so are those within
    it; a text that is no phrase stays as it is."""
    match text:
        case Phrase():
            return say(text.template, **{name: _filled(v) for name, v in text.values.items()})
        case Joined():
            return text.separator.join(map(told, text.parts))
        case _:
            return text


def _filled(value: object) -> object:
    return told(value) if isinstance(value, str) else value


def count_of(count: int, one: str, many: str) -> str:
    """``1 sortie``, ``12 sorties``: the wording for one or for many, each with ``{count}``."""
    return say(one if count == 1 else many, count=count)


def number(count: int) -> str:
    """A whole number with its thousands apart: 1,234."""
    return f"{count:,}".replace(",", say(","))


def use(name: str, texts: Mapping[str, str]) -> None:
    """Show texts in another language from now on."""
    _SHOWN.name, _SHOWN.texts = name, texts


def in_use() -> str:
    """The name of the language in use (``en``, ``de``)."""
    return _SHOWN.name


def read_catalogue(path: Path) -> Mapping[str, str]:
    """The texts of a catalogue file: TOML, English wording = the other wording."""
    read = tomllib.loads(path.read_text(encoding="utf-8"))
    return {english: text for english, text in read.items() if isinstance(text, str)}
