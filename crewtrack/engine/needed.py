"""Of what could be left out of one person's evidence, what can't be, since standings rest on it.

Whether something may go depends on what else goes, so it is found by trying: first without all of
it, then with the newest of it put back until nothing changes, then without what of that was put
back for nothing. What comes out never changes anything, whatever the rules are; that it is as
little as could be is not promised, and where there is too much to try, all that was put back
stays.
"""

from collections.abc import Callable, Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

Piece = TypeVar("Piece", bound=Hashable)

_MOST, _LEAST, _WORK = 300, 16, 60_000
"""Trials to leave something out after all: at most, at least, and so that all together they look
at no more than so much."""


@dataclass(frozen=True, slots=True)
class Need:
    """A qualification that would change without a piece; ``alone`` where it was tried by itself,
    and not among others."""

    qualification: str
    alone: bool


@dataclass(slots=True)
class Needed(Generic[Piece]):
    """The search. ``pieces`` are those that could go, the newest first; ``changed`` tells a
    qualification that would change where only some of them stayed, empty for none; ``size`` how
    much a trial looks at, be it kept or not."""

    pieces: Sequence[Piece]
    changed: Callable[[Collection[Piece]], str]
    size: int = 0
    tried: int = 0
    found: dict[Piece, Need] = field(default_factory=dict)

    def search(self) -> Mapping[Piece, Need]:
        """The pieces that stay, each with what rests on it; none where all of them can go."""
        why = self._try(())
        if not why:
            return {}
        kept = list(self.pieces[: self._enough(why)])
        self.found = {piece: self.found.get(piece, Need(why, False)) for piece in kept}
        self._prune(kept)
        return self.found

    def _try(self, kept: Collection[Piece]) -> str:
        self.tried += 1
        return self.changed(kept)

    def _enough(self, why: str) -> int:
        """How many of the newest have to stay at the least."""
        total, low, high = len(self.pieces), 0, 1
        while high < total and self._try(self.pieces[:high]):
            low, high = high, high * 2
        high = min(high, total)
        while high - low > 1:
            middle = (low + high) // 2
            if self._try(self.pieces[:middle]):
                low = middle
            else:
                high = middle
        return high

    def _prune(self, kept: list[Piece]) -> None:
        """Leave out what can go after all, in blocks that get smaller, the oldest first."""
        budget = self.tried + max(_LEAST, min(_MOST, _WORK // max(self.size, len(self.pieces))))
        size = max(1, len(kept) // 2)
        while True:
            for last in range(len(kept), 0, -size):
                if self.tried >= budget:
                    return
                block = kept[max(0, last - size) : last]
                rest = [*kept[: max(0, last - size)], *kept[last:]]
                self._judge(block, self._try(rest))
                if block[0] not in self.found:
                    kept[max(0, last - size) : last] = []
            if size == 1:
                return
            size //= 2

    def _judge(self, block: Sequence[Piece], why: str) -> None:
        for piece in block:
            if why:
                self.found[piece] = Need(why, len(block) == 1)
            else:
                del self.found[piece]
