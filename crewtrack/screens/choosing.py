"""Which of several choices somebody means who has typed a part of one."""

import unicodedata
from collections.abc import Callable, Iterable, Mapping
from typing import Final

_PLAIN: Final = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ħ": "h", "ı": "i", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe"}
)
"""Letters that don't come apart into a plain one and a mark."""


def folded(text: str) -> str:
    """A text without case and without marks on its letters: what any keyboard can type."""
    if text.isascii():
        return text.casefold()
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(mark for mark in apart if not unicodedata.combining(mark)).translate(_PLAIN)


def meant(typed: str, choices: Mapping[str, str]) -> str:
    """The key of the one choice that a part of its key or of its words points to; empty where
    none does, or several do: what is whole goes before what begins so, and that before a word
    that begins so, and that before any other part."""
    sought = folded(typed.strip())
    if not sought:
        return ""
    for fits in _FITS:
        found = [key for key, told in choices.items() if _any(fits, sought, (key, told))]
        if found:
            return found[0] if len(found) == 1 else ""
    return ""


def _any(fits: Callable[[str, str], bool], sought: str, texts: Iterable[str]) -> bool:
    return any(fits(sought, folded(text)) for text in texts)


_FITS: Final[tuple[Callable[[str, str], bool], ...]] = (
    lambda sought, text: sought == text,
    lambda sought, text: text.startswith(sought),
    lambda sought, text: f" {sought}" in text,
    lambda sought, text: sought in text,
)
