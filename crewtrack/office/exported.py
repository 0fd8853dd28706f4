"""A journal that was exported, checked without the record: every line, every digest, the chain.

Who signed what, and had the right to, is judged by ``attested``, which is given the acts as they
are read here.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KEYS
from crewtrack.files.journal_file import lines
from crewtrack.office.duties import IMPORT
from crewtrack.office.exported_act import OpenAct
from crewtrack.office.exported_seals import Sealed
from crewtrack.office.office import Progress, silent
from crewtrack.phrases import later, phrase
from crewtrack.records.digests import NO_DIGEST
from crewtrack.records.exported_lines import (
    ActLine,
    Fact,
    LineWrong,
    RowLine,
    edition_of,
    fact_of,
    read_line,
    seal_of,
    wrote_of,
)
from crewtrack.records.recorded_acts import BY_NAME, FLOWN, RecordedAct
from crewtrack.records.tables import EDITIONS, SEALS
from crewtrack.records.verifying import Break, said_of

_BEGINNINGS: Final = (b'{"act":', b'{"kind":', b'{"sealed":')
_MOST: Final = 1_000
"""Breaks after which reading stops: something else is wrong then."""
_AT_ONCE: Final = 10_000


class ExportedJournal:
    """``breaks`` are complete once all of ``acts`` are used up."""

    def __init__(self, path: Path, progress: Progress = silent) -> None:
        self.breaks: list[Break] = []
        self._path = path
        self._progress = progress
        self._open: OpenAct | None = None
        self._before, self._expected = NO_DIGEST, 1
        self._identified = False
        self._sealed = Sealed()
        self._revisions: dict[int, int] = {}

    def acts(self) -> Iterator[RecordedAct]:
        """The acts with their rows, in the order of the file; Refused where it is no journal."""
        self._refuse_other_files()
        for number, line in enumerate(lines(self._path), start=1):
            if number % _AT_ONCE == 0:
                self._progress(later("lines"), number, 0)
            read = self._read(number, line)
            if isinstance(read, ActLine):
                yield from self._close()
                self._begin(read)
            else:
                self._take(number, read)
            if len(self.breaks) >= _MOST:
                self._tell(number, phrase("after this line nothing more was read"))
                break
        yield from self._close()
        self.breaks += self._sealed.left()

    def _refuse_other_files(self) -> None:
        """A journal may be damaged; what has no line of one is none."""
        for line in lines(self._path):
            if line is not None and line.startswith(_BEGINNINGS):
                return
        cure = phrase("name the journal.jsonl of an export")
        raise Refused(Fault(str(self._path), "", phrase("this is no journal"), cure))

    def _read(self, number: int, line: bytes | None) -> ActLine | RowLine | None:
        if line is None:
            self._tell(number, phrase("it is longer than any line of a journal"))
            return None
        try:
            return read_line(line)
        except LineWrong as wrong:
            self._tell(number, wrong.args[0])
            return None

    def _tell(self, number: int, problem: str) -> None:
        past = None if self._open is None else self._open.line.past
        seq, said = (None, "") if past is None else (past.seq, said_of(past))
        self.breaks.append(Break(seq, "line", str(number), problem, said))

    def _begin(self, line: ActLine) -> None:
        past = line.past
        self._identified = self._identified or KEYS.name in line.told
        self._open = OpenAct(line, self._identified and past.kind != IMPORT)
        if past.seq != self._expected:
            self._of_act("", phrase("stands where act {number} should", number=self._expected))
        if past.previous != self._before:
            self._of_act("", phrase("is not chained to the act before it"))
        if not line.own_digest:
            self._of_act("", phrase("its digest is not that of what it holds"))
        self._before, self._expected = past.digest, past.seq + 1

    def _of_act(self, kind: str, problem: str) -> None:
        if self._open is not None:
            past = self._open.line.past
            self.breaks.append(Break(past.seq, kind, "", problem, said_of(past)))

    def _close(self) -> Iterator[RecordedAct]:
        act = self._open
        if act is None:
            return
        for kind, problem in act.wrong():
            self._of_act(kind, problem)
        yield act.done()

    def _take(self, number: int, row: RowLine | None) -> None:
        """Take in a row of the act that is open; None for a line that can't be read."""
        act = self._open
        if act is None:
            if row is not None:
                self._tell(number, phrase("it belongs to no act"))
            return
        act.count(row)
        if row is None:
            return
        try:
            self._keep(act, number, row)
        except LineWrong as wrong:
            act.whole = False
            self._tell(number, wrong.args[0])

    def _keep(self, act: OpenAct, number: int, row: RowLine) -> None:
        """Keep what matters of a row."""
        if row.sealed:
            self._sealed.add(act.line.past, row)
        elif row.kind == EDITIONS:
            act.editions.append(edition_of(row, act.line.past.seq))
        elif row.kind == SEALS and not self._sealed.take(seal_of(row)):
            self._tell(number, phrase("it seals what is not sealed"))
        elif (fact := fact_of(row)) is not None:
            self._keep_fact(act, number, row, fact)

    def _keep_fact(self, act: OpenAct, number: int, row: RowLine, fact: Fact) -> None:
        kind, key, revision = fact
        self._follow(number, hash((kind.name, key)), revision)
        if kind in FLOWN and revision == 1:
            if act.judged:
                act.flown.append(wrote_of(kind, row))
        elif kind not in BY_NAME:
            act.wrote.append(wrote_of(kind, row))

    def _follow(self, number: int, fact: int, revision: int) -> None:
        """Each revision follows the one before: a fact is sealed with all of its revisions."""
        if revision != self._revisions.get(fact, 0) + 1:
            self._tell(number, phrase("it does not follow the revision before it"))
        self._revisions[fact] = revision
