"""Qualifications that rest on themselves, by way of ``holds``."""

from collections.abc import Iterator, Mapping, Sequence

Loop = tuple[str, ...]


def find_loops(holds: Mapping[str, Sequence[str]]) -> tuple[Loop, ...]:
    """The loops among qualifications, given which others each one names.

    Each loop begins and ends with the same qualification. Where loops share a stretch, not every
    one is listed; none are listed only if there are none.
    """
    loops: list[Loop] = []
    done: set[str] = set()
    for start in holds:
        if start not in done:
            loops.extend(_from(start, holds, done))
    return tuple(loops)


def _from(start: str, holds: Mapping[str, Sequence[str]], done: set[str]) -> Iterator[Loop]:
    """Depth first, on a stack of its own: a chain may be longer than Python's."""
    way = [start]
    ahead = [iter(holds[start])]
    while way:
        following = next(ahead[-1], None)
        if following is None:
            done.add(way.pop())
            ahead.pop()
        elif following in way:
            yield (*way[way.index(following) :], following)
        elif following not in done:
            way.append(following)
            ahead.append(iter(holds.get(following, ())))
