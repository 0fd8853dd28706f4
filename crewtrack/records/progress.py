"""How far long work has come, told while it goes on."""

from collections.abc import Callable

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it is done, and how much there is. May raise what it likes
to break the work off: then nothing is left of it."""


def silent(what: str, done: int, total: int) -> None:
    """Progress that nobody watches."""
