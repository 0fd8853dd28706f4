"""What is sealed in an exported journal: that an act sealed each row of which only the digest is
left, and none of the others."""

from collections import Counter
from collections.abc import Iterator

from crewtrack.phrases import phrase
from crewtrack.records.exported_lines import RowLine, Seal
from crewtrack.records.journal import PastAct
from crewtrack.records.verifying import Break, said_of


class Sealed:
    """The sealed rows that no act has been seen to seal yet."""

    def __init__(self) -> None:
        self._waiting: Counter[Seal] = Counter()
        self._said: dict[int, str] = {}

    def add(self, past: PastAct, row: RowLine) -> None:
        """Note a row of an act that is sealed."""
        self._waiting[Seal(past.seq, row.kind, row.digest.hex())] += 1
        self._said[past.seq] = said_of(past)

    def take(self, seal: Seal) -> bool:
        """Note that an act sealed a row; whether there was one."""
        there = self._waiting[seal] > 0
        self._waiting[seal] -= there
        return there

    def left(self) -> Iterator[Break]:
        """The kinds and acts of which something is sealed that no act sealed."""
        problem = phrase("rows of it are sealed, and no act sealed them")
        for of, kind in dict.fromkeys((one.of, one.kind) for one in +self._waiting):
            yield Break(of, kind, "", problem, self._said[of])
