"""Keys for new facts, in the way in which the unit has given them so far."""

import re
from collections import Counter
from collections.abc import Sequence
from itertools import islice
from typing import Final

from crewtrack.facts import Kind
from crewtrack.office.snapshot import Snapshot

_NUMBERED: Final = re.compile(r"(.*?)([0-9]+)", re.DOTALL)
_LATEST: Final = 25
"""So many of the newest keys show what the unit does now, whatever it did years ago."""


def next_key(snapshot: Snapshot, kind: Kind, prefix: str) -> str:
    """A key that no fact of a kind ever had, of those recorded by now: one more than the greatest
    that begins as most of the newest do (``S-0193`` after ``S-0192``), else the first of the
    prefix (``S-0001``)."""
    return following(snapshot.taken_keys(kind), prefix)


def following(keys: Sequence[str], prefix: str) -> str:
    """The key that comes after ``keys``, which are in the order of entry."""
    numbered = (found[1] for found in map(_NUMBERED.fullmatch, reversed(keys)) if found)
    latest = Counter(islice(numbered, _LATEST))
    begins, digits = prefix, "0000"
    if latest:
        begins = latest.most_common(1)[0][0]
        digits = _greatest(keys, begins)
    taken, number = set(keys), int(digits) + 1
    while (key := f"{begins}{number:0{len(digits)}}") in taken:
        number += 1
    return key


def _greatest(keys: Sequence[str], begins: str) -> str:
    """The digits of the greatest number that follows ``begins`` in any of the keys. Those of one
    length are compared as they are written: there may be a hundred thousand of them."""
    greatest: dict[int, str] = {}
    skipped = len(begins)
    for key in keys:
        if key.startswith(begins):
            end = key[skipped:]
            if end > greatest.get(len(end), "") and end.isascii() and end.isdigit():
                greatest[len(end)] = end
    return max(greatest.values(), key=int)
