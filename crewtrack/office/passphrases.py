"""Which passphrases are taken: long enough, and none of the commonest. Nothing is asked of the
letters in them (NIST SP 800-63B-4, section 3.1.1)."""

import re
from functools import cache
from typing import Final
from unicodedata import normalize

from crewtrack.errors import Fault
from crewtrack.office.shipped import shipped
from crewtrack.phrases import later, phrase

SHORTEST: Final = 15
LONGEST: Final = 256

_SEEN: Final = 6
"""Fewer different letters than this make no passphrase."""


def normal(passphrase: str) -> str:
    """The one form in which a passphrase is used: NFC, so that it is the same from every
    keyboard. Blanks in it are meant."""
    return normalize("NFC", passphrase)


def passphrase_faults(passphrase: str, *about: str) -> tuple[Fault, ...]:
    """Why a new passphrase can't be taken; ``about`` are the person's key and name."""
    given = normal(passphrase)
    told = _told(given, about)
    if told is None:
        return ()
    return (Fault("", "passphrase", *told),)


def _told(given: str, about: tuple[str, ...]) -> tuple[str, str] | None:
    try:
        given.encode()
    except UnicodeEncodeError:
        return phrase("it holds half a letter"), phrase("type it anew")
    if len(given) < SHORTEST:
        problem = phrase("it has {count} letters", count=len(given))
        told = later("take {least} or more: four or five words that belong to nobody")
        return problem, phrase(told, least=SHORTEST)
    if len(given) > LONGEST:
        problem = phrase("it has {count} letters", count=len(given))
        return problem, phrase("take {most} at most", most=LONGEST)
    plain = _plain(given)
    known = {_plain(word) for word in about if len(_plain(word)) > 1}
    if plain in _commonest() or len(set(plain)) < _SEEN or plain in known:
        problem = phrase("it is one of those that are tried first")
        return problem, phrase("take words that nobody would guess together")
    return None


@cache
def _commonest() -> frozenset[str]:
    lines = shipped("passphrases", "commonest.txt").read_text(encoding="utf-8").splitlines()
    return frozenset(map(_plain, lines))


def _plain(text: str) -> str:
    """Without what is added to a common one to make it look different."""
    return re.sub(r"[\s\W_]+", "", text.casefold())
