"""A language for tests: English in capitals. A small letter on a screen that shows it is one that
no catalogue was asked for."""

import re
from collections.abc import Iterator, Mapping

_NAME_OR_LETTER = re.compile(r"\{[^}]*\}|[^\W\d_]")


class Shouted(Mapping[str, str]):
    """A catalogue that has every text: its letters in capitals, its ``{names}`` as they are."""

    def __getitem__(self, english: str) -> str:
        return _NAME_OR_LETTER.sub(
            lambda found: found[0] if found[0].startswith("{") else found[0].upper(), english
        )

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 0


def said_small(text: str) -> str:
    """The small letters of a text."""
    return "".join(mark for mark in text if mark.islower())
