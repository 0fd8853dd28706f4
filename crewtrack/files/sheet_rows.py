"""One sheet: written rows, read into the rows of a kind, with every fault in them.

Files run to a million rows, so they are read in batches, column by column: each text is parsed
once while it is remembered, and equal cells share one value. A row with a fault stays, with None
where a cell could not be read, so that its key can still be referred to.
"""

from array import array
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain
from math import inf
from operator import itemgetter
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell, shown
from crewtrack.cells import cell_text, reader
from crewtrack.checks import column_faults
from crewtrack.errors import Fault
from crewtrack.facts import Choice, Column, InStandard, Key, Kind, Reference, Row, Text, Value
from crewtrack.files.harmless import as_meant
from crewtrack.files.header_row import Header, read_header
from crewtrack.files.written_rows import Batch, Broken
from crewtrack.phrases import phrase

MOST_FAULTS: Final = 10_000
_REMEMBERED: Final = 100_000
_WORDS: Final = (Text, Key, Reference, InStandard, Choice)


@dataclass(frozen=True, slots=True)
class ReadSheet:
    """The rows of one kind, as read. ``lines``: on which line of ``place`` each starts.
    ``faulty``: the indexes of rows in which something was refused. ``whole`` is False where not
    every key in the sheet could be read: then nothing can be said of what refers to it.
    ``absent``: the indexes of the columns that the sheet lacks altogether."""

    kind: Kind
    place: str
    rows: Sequence[Row]
    lines: Sequence[int]
    faulty: frozenset[int]
    whole: bool
    absent: frozenset[int] = frozenset()

    def at(self, index: int) -> str:
        """The place of a row, as a fault names it: ``performances.csv:218``."""
        return f"{self.place}:{self.lines[index]}"


def read_rows(
    kind: Kind, place: str, written: Iterator[Batch], zone: ZoneInfo
) -> tuple[ReadSheet, list[Fault]]:
    """Read a sheet's header and rows. ``written`` may raise ``Broken``, which becomes a fault.

    Past ``MOST_FAULTS`` faults, reading stops, and a last fault says so.
    """
    reading = _Reading(kind, place, zone)
    for step in (partial(reading.read, written), reading.find_duplicates):
        try:
            step()
        except Broken as broken:
            reading.broken(broken)
    return reading.sheet(), reading.faults()


class _Memory(dict[str, Value]):
    """A column's values by their texts, parsed when first met; texts that can't be taken are
    kept apart in ``bad`` and read as None."""

    def __init__(self, column: Column, zone: ZoneInfo) -> None:
        self.name = column.name
        self.bad: dict[str, BadCell] = {}
        self._read: Callable[[str], Value] = reader(column, zone)
        self._words = isinstance(column.type, _WORDS)

    def __missing__(self, text: str) -> Value:
        try:
            value = self._read(as_meant(text.strip()) if self._words else text)
        except BadCell as bad:
            self.bad[text] = bad
            return None
        if len(self) >= _REMEMBERED:
            self.clear()
        self[text] = value
        return value


class _Reading:
    """The state of reading one sheet."""

    def __init__(self, kind: Kind, place: str, zone: ZoneInfo) -> None:
        self.kind = kind
        self.place = place
        self._faults: list[tuple[float, Fault]] = []
        self._memories = [_Memory(column, zone) for column in kind.columns]
        self._rows: list[Row] = []
        self._lines = array("q")
        self._faulty: set[int] = set()
        self._whole = True
        self._absent: frozenset[int] = frozenset()

    def sheet(self) -> ReadSheet:
        faulty = frozenset(self._faulty)
        return ReadSheet(
            self.kind, self.place, self._rows, self._lines, faulty, self._whole, self._absent
        )

    def faults(self) -> list[Fault]:
        """All faults in the order of their lines; those of the whole sheet come last."""
        return [fault for _, fault in sorted(self._faults, key=itemgetter(0))]

    def broken(self, broken: Broken) -> None:
        place = f"{self.place}:{broken.line}" if broken.line else self.place
        fault = Fault(place, "", broken.problem, broken.cure)
        self._faults.append((broken.line or inf, fault))
        self._whole = False

    def read(self, written: Iterator[Batch]) -> None:
        head = next(written, None)
        if head is None:
            columns = ",".join(self.kind.names)
            cure = phrase("its first row names the columns: {columns}", columns=columns)
            raise Broken(0, phrase("it is empty"), cure)
        line = head.lines[0]
        header, faults = read_header(self.kind, head.rows[0], f"{self.place}:{line}")
        self._faults += [(line, fault) for fault in faults]
        places = enumerate(header.position)
        self._absent = frozenset(index for index, position in places if position is None)
        keys = [header.position[self.kind.index(name)] for name in self.kind.key]
        self._whole = None not in keys
        if header.any:
            for batch in chain((_after_header(head),), written):
                self._read_batch(header, batch)

    def _read_batch(self, header: Header, batch: Batch) -> None:
        base = len(self._rows)
        self._lines.extend(batch.lines)
        if any(len(cells) != header.width for cells in batch.rows):
            self._refuse_widths(base, batch.rows, header.width)
        unread = self._refused(header, batch)
        texts = list(zip(*batch.rows, strict=True)) or [()] * header.width
        columns = [
            self._column(memory, texts[position], base, unread)
            if position is not None
            else [column.default] * len(batch.rows)
            for memory, column, position in zip(
                self._memories, self.kind.columns, header.position, strict=True
            )
        ]
        self._rows.extend(zip(*columns, strict=True))
        self._check(columns, base, unread)

    def _refused(self, header: Header, batch: Batch) -> dict[int, set[str]]:
        """Refuse the cells that came without a text; the columns so refused, by row."""
        unread: dict[int, set[str]] = {}
        for (index, position), bad in batch.refused.items():
            name = header.name(self.kind, position)
            unread.setdefault(index, set()).add(name)
            self._refuse(len(self._rows) + index, name, bad.problem, bad.cure)
        return unread

    def _refuse_widths(self, base: int, rows: list[list[str]], width: int) -> None:
        """Refuse rows with too few or too many cells, and bring them to the header's width."""
        for index, cells in enumerate(rows):
            if len(cells) == width:
                continue
            problem = phrase(
                "the row has {count} cells where the header has {width}",
                count=len(cells),
                width=width,
            )
            cure = phrase("keep a comma for each empty cell")
            if len(cells) > width:
                cure = phrase("put quotes around a cell that holds a comma")
            self._refuse(base + index, "", problem, cure)
            cells[width:] = [""] * (width - len(cells))

    def _column(
        self, memory: _Memory, texts: Sequence[str], base: int, unread: dict[int, set[str]]
    ) -> list[Value]:
        values = list(map(memory.__getitem__, texts))
        if memory.bad:
            for index, text in enumerate(texts):
                bad = memory.bad.get(text)
                refused = unread.setdefault(index, set()) if bad else set()
                if bad and memory.name not in refused:
                    refused.add(memory.name)
                    self._refuse(base + index, memory.name, bad.problem, bad.cure)
            memory.bad.clear()
        return values

    def _check(
        self, columns: Sequence[Sequence[Value]], base: int, unread: dict[int, set[str]]
    ) -> None:
        for index, one, other, problem, cure in column_faults(self.kind, columns):
            if not unread.get(index, set()).intersection((one, other)):
                self._refuse(base + index, other, problem, cure)

    def _refuse(self, index: int, field: str, problem: str, cure: str) -> None:
        self._faulty.add(index)
        line = self._lines[index]
        self._faults.append((line, Fault(f"{self.place}:{line}", field, problem, cure)))
        if len(self._faults) >= MOST_FAULTS:
            raise Broken(
                0,
                phrase("reading stopped at {count} faults", count=f"{MOST_FAULTS:,}"),
                phrase("mend those that are listed, and read the file again"),
            )

    def find_duplicates(self) -> None:
        """Refuse every row whose key an earlier row has."""
        columns = [self.kind.index(name) for name in self.kind.key]
        key_of: Callable[[Row], object] = itemgetter(*columns)
        if len(set(map(key_of, self._rows))) == len(self._rows):
            return
        first: dict[object, int] = {}
        for index, row in enumerate(self._rows):
            if any(row[column] is None for column in columns):
                continue
            earlier = first.setdefault(key_of(row), index)
            if earlier != index:
                self._refuse_duplicate(index, self._lines[earlier])

    def _refuse_duplicate(self, index: int, earlier: int) -> None:
        kind, row = self.kind, self._rows[index]
        key = ", ".join(shown(cell_text(row[kind.index(name)])) for name in kind.key)
        field = kind.key[0] if len(kind.key) == 1 else ""
        problem = phrase(
            "{kind} {key} is already in line {line}", kind=phrase(kind.one), key=key, line=earlier
        )
        self._refuse(index, field, problem, phrase("keep one of the two rows"))


def _after_header(head: Batch) -> Batch:
    """The first batch without its first row."""
    refused = {(row - 1, cell): bad for (row, cell), bad in head.refused.items() if row}
    return Batch(head.lines[1:], head.rows[1:], refused)
