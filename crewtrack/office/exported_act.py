"""An act of an exported journal while its rows come in, one line after the other."""

from dataclasses import dataclass, field

from crewtrack.phrases import Phrase, phrase
from crewtrack.records.digests import Tally
from crewtrack.records.exported_lines import ActLine, RowLine, in_order
from crewtrack.records.reading import StoredEdition
from crewtrack.records.recorded_acts import RecordedAct, Wrote


@dataclass(slots=True)
class OpenAct:
    """``judged`` is whether what it logs of sorties matters; ``whole`` whether all of its rows
    could be read."""

    line: ActLine
    judged: bool
    wrote: list[Wrote] = field(default_factory=list)
    flown: list[Wrote] = field(default_factory=list)
    editions: list[StoredEdition] = field(default_factory=list)
    whole: bool = True
    _tallies: dict[str, Tally] = field(default_factory=dict)
    _astray: set[str] = field(default_factory=set)
    _ends: list[tuple[int, str]] = field(init=False)
    _count: int = 0

    def __post_init__(self) -> None:
        """Where the rows of each kind end, counted from the first of all."""
        end, self._ends = 0, []
        for kind in in_order(self.line.told):
            end += self.line.told[kind]["count"]
            self._ends.append((end, kind))

    def count(self, row: RowLine | None) -> None:
        """Count a row to the act; None for one that can't be read."""
        while self._ends and self._count >= self._ends[0][0]:
            self._ends.pop(0)
        self._count += 1
        turn = self._ends[0][1] if self._ends else None
        if row is None:
            self.whole = False
            return
        self._tallies.setdefault(row.kind, Tally()).add([row.digest])
        if row.kind != turn:
            self._astray.add(row.kind)

    def wrong(self) -> list[tuple[str, Phrase]]:
        """Kinds of which the rows are not those that the act recorded, and how."""
        told = self.line.told
        found = []
        for kind in in_order(dict.fromkeys((*told, *self._tallies))):
            if kind not in told:
                found.append((kind, phrase("the act did not record these rows")))
            elif self._tallies.get(kind, Tally()).told() != told[kind] or kind in self._astray:
                found.append((kind, phrase("its rows are not those that the act recorded")))
        return found

    def done(self) -> RecordedAct:
        """The act, to be judged."""
        flown = tuple(self.flown)
        return RecordedAct(self.line.past, self.line.told, tuple(self.wrote),
                           tuple(self.editions), lambda: flown, self.whole)  # fmt: skip
