"""Qualifications that rest on themselves, by way of ``holds``."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, islice
from typing import Final

Loop = tuple[str, ...]

_MOST: Final = 500


def find_loops(holds: Mapping[str, Sequence[str]]) -> tuple[Loop, ...]:
    """The loops among qualifications, given which others each one names.

    Each loop begins and ends with the same qualification. Where loops share a stretch, not every
    one is listed; none are listed only if there are none. Up to 500 are.
    """
    done: set[str] = set()
    found = chain.from_iterable(_from(start, holds, done) for start in holds if start not in done)
    return tuple(islice(found, _MOST))


def _from(start: str, holds: Mapping[str, Sequence[str]], done: set[str]) -> Iterator[Loop]:
    """Depth first, on a stack of its own: a chain may be longer than Python's."""
    way = [start]
    on_way = {start}
    ahead = [iter(holds[start])]
    while way:
        following = next(ahead[-1], None)
        if following is None:
            on_way.discard(way[-1])
            done.add(way.pop())
            ahead.pop()
        elif following in on_way:
            yield (*way[way.index(following) :], following)
        elif following not in done:
            way.append(following)
            on_way.add(following)
            ahead.append(iter(holds.get(following, ())))
