"""Who did what on which sortie: the books of everybody, turned round."""

from bisect import bisect_left
from functools import cached_property
from itertools import repeat
from typing import Final

from crewtrack.engine.evidence import Evidence

Done = tuple[str, str, int]
"""A person, a task, and how many times."""
_BLOCK: Final = 64
"""So many neighbours are looked up together."""


class LogDone:
    """Sorties are named by their places in the evidence. Of a ``long`` history a few are looked
    up by themselves, until all of them are asked for."""

    def __init__(self, evidence: Evidence, long: bool) -> None:
        self._evidence = evidence
        self._whole = not long
        self._blocks: dict[int, list[list[Done]]] = {}

    def of(self, index: int) -> list[Done]:
        """Who did what on one sortie; its neighbours are looked up with it, which are shown
        together as a rule."""
        if self._whole:
            return self.all[index]
        block = index // _BLOCK
        if block not in self._blocks:
            self._blocks[block] = self._from(block * _BLOCK)
        return self._blocks[block][index % _BLOCK]

    def ask_all(self) -> None:
        """From now on all sorties are going to be asked."""
        _ = self.all  # before anybody is told to look there
        self._whole = True

    @cached_property
    def all(self) -> list[list[Done]]:
        """Who did what, by sortie."""
        found: list[list[Done]] = [[] for _ in self._evidence.sorties.key]
        for person, books in self._evidence.books.items():
            for task, done in books.performances.items():
                rows = zip(repeat(person), repeat(task), done.times, strict=False)
                for index, row in zip(done.sortie, rows, strict=False):
                    found[index].append(row)
        return found

    def flown(self, person: str, task: str) -> set[int]:
        """The sorties on which a person did a task, or either of these where the other is
        empty."""
        books = self._evidence.books
        people = books.values() if not person else (books[person],) if person in books else ()
        return {
            index
            for each in people
            for key, done in each.performances.items()
            if task in ("", key)
            for index in done.sortie
        }

    def _from(self, first: int) -> list[list[Done]]:
        found: list[list[Done]] = [[] for _ in range(_BLOCK)]
        for person, books in self._evidence.books.items():
            for task, done in books.performances.items():
                place = bisect_left(done.sortie, first)
                while place < len(done.sortie) and done.sortie[place] < first + _BLOCK:
                    found[done.sortie[place] - first].append((person, task, done.times[place]))
                    place += 1
        return found
