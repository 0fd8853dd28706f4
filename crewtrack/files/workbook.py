"""XLSX workbooks in: their sheets, row by row.

A workbook is an archive that could unpack to anything, so what its parts may hold is bounded
before it is opened; sheets are read row by row, the other parts whole.
"""

import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import islice, repeat
from pathlib import Path
from types import TracebackType
from typing import Any, Final, cast
from zipfile import BadZipFile
from zlib import error as DamagedStream  # noqa: N812  (a class, whatever its name)

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException
from openpyxl.workbook.workbook import Workbook as Book
from openpyxl.worksheet._read_only import ReadOnlyWorksheet

from crewtrack.bad_cell import BadCell, shown
from crewtrack.facts import Instant, Kind
from crewtrack.files.workbook_archive import CURE, formulas_in
from crewtrack.files.workbook_cells import BookCell, refuse_unworked, text_of
from crewtrack.files.written_rows import BATCH, Batch, Broken
from crewtrack.phrases import phrase

MOST_ROWS: Final = 1_048_576
"""The rows of the largest sheet that a spreadsheet program writes."""

_MOST_CELLS: Final = 1000  # in a row; the widest kind has twenty columns
# All that the library raises over an archive or a part that is not as it should be; a part that
# is not XML raises a SyntaxError.
_UNREADABLE: Final = (
    BadZipFile,
    InvalidFileException,
    DamagedStream,
    AttributeError,
    EOFError,
    LookupError,
    NotImplementedError,
    RuntimeError,
    SyntaxError,
    TypeError,
    ValueError,
)
Cells = tuple[BookCell, ...]
_Row = tuple[int, Cells, Cells | None]  # its line, its values and, where there are any, formulas


class Workbook:
    """An open workbook. ``names`` are those of its sheets, in order."""

    def __init__(self, values: Book, formulas: Book | None) -> None:
        self._values = values
        self._formulas = formulas
        self.names: tuple[str, ...] = tuple(sheet.title for sheet in values.worksheets)

    @classmethod
    def open(cls, path: Path) -> "Workbook":
        """Open a workbook; ``Broken`` where it is damaged, locked by a password or too large."""
        try:
            with_formulas = formulas_in(path)
            values = _load(path, data_only=True)
            return cls(values, _load(path, data_only=False) if with_formulas else None)
        except OSError as error:
            problem = phrase("it can't be read ({why})", why=error.strerror or error)
            raise Broken(0, problem) from error
        except _UNREADABLE as error:
            raise Broken(0, phrase("it is not a workbook that can be read"), CURE) from error

    def __enter__(self) -> "Workbook":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._values.close()
        if self._formulas is not None:
            self._formulas.close()

    def is_empty(self, name: str) -> bool:
        """Whether a sheet holds nothing at all."""
        rows = (row for _, row, _ in self._written(name))
        try:
            return not any(cell.value is not None for row in rows for cell in row)
        except Broken:
            return False

    def rows(self, kind: Kind, name: str, progress: Callable[[int, int], None]) -> Iterator[Batch]:
        """The rows of a sheet that holds a kind, as texts, all as wide as the first; ``progress``
        is told rows read and, as far as the sheet says, rows in all."""
        total = cast(ReadOnlyWorksheet, self._values[name]).max_row or 0
        sheet = _SheetTexts(kind)
        written = self._written(name)
        while read := list(islice(written, BATCH)):
            batch = sheet.batch(read)
            if batch.rows:
                yield batch
            progress(read[-1][0], max(total, read[-1][0]))

    def _written(self, name: str) -> Iterator[_Row]:
        formulas: Iterator[Cells | None] = repeat(None)
        if self._formulas is not None:
            formulas = (cells for _, cells in _cells(self._formulas, name))
        for line, cells in _cells(self._values, name):
            yield line, cells, next(formulas, None)


class _SheetTexts:
    """The texts of one sheet's rows; the first row with any text says how wide they are, and
    which columns hold instants."""

    def __init__(self, kind: Kind) -> None:
        self._kind = kind
        self._width = 0
        self._instants: frozenset[int] = frozenset()

    def batch(self, read: list[_Row]) -> Batch:
        lines: list[int] = []
        rows: list[list[str]] = []
        refused: dict[tuple[int, int], BadCell] = {}
        for line, values, formulas in read:
            texts, bad = _texts(values, formulas, self._instants)
            if texts and not self._width:
                self._take_header(texts)
            if texts:
                self._fit(texts, bad)
                refused.update(((len(rows), position), each) for position, each in bad.items())
                lines.append(line)
                rows.append(texts)
        return Batch(lines, rows, refused)

    def _take_header(self, texts: list[str]) -> None:
        names = {column.name for column in self._kind.columns if isinstance(column.type, Instant)}
        self._width = len(texts)
        self._instants = frozenset(
            position for position, text in enumerate(texts) if text.strip().casefold() in names
        )

    def _fit(self, texts: list[str], bad: dict[int, BadCell]) -> None:
        """Bring a row to the header's width; what stands beyond it is refused."""
        if len(texts) > self._width:
            bad[self._width] = BadCell(
                phrase("{text} stands to the right of the last column", text=shown(texts[-1])),
                phrase("name its column in the header row, or take it out"),
            )
        texts[self._width :] = [""] * (self._width - len(texts))


def _texts(
    values: Cells, formulas: Cells | None, instants: frozenset[int]
) -> tuple[list[str], dict[int, BadCell]]:
    """A row's texts, without the empty ones at its end, and the cells that can't be text."""
    texts: list[str] = []
    bad: dict[int, BadCell] = {}
    for position, cell in enumerate(values):
        try:
            if formulas is not None:
                refuse_unworked(formulas[position], cell)
            texts.append(text_of(cell, position in instants))
        except BadCell as each:
            bad[position] = each
            texts.append("")
    while texts and not texts[-1].strip() and len(texts) - 1 not in bad:
        texts.pop()
    return texts, bad


def _cells(book: Book, name: str) -> Iterator[tuple[int, Cells]]:
    """A sheet's cells, row by row. What the sheet says of its own size is not believed."""
    sheet = cast(ReadOnlyWorksheet, book[name])
    sheet.reset_dimensions()
    _narrow(sheet)
    rows, line = iter(sheet.rows), 0
    while True:
        some, error = _some(rows)
        for row in some:
            line += 1
            if line > MOST_ROWS:
                problem = phrase("it has more than {count} rows", count=f"{MOST_ROWS:,}")
                raise Broken(0, problem, phrase("split it, or use CSV"))
            yield line, row
        if error is not None:
            raise Broken(line + 1, phrase("the workbook is damaged here"), CURE) from error
        if not some:
            return


def _some(rows: Iterator[Cells]) -> tuple[list[Cells], Exception | None]:
    """The next rows, and what the library raised over the one after them; a few hundred at once,
    since quieting it takes longer than reading a row."""
    some: list[Cells] = []
    with _quiet():
        try:
            some.extend(islice(rows, BATCH))
        except _UNREADABLE as error:
            return some, error
    return some, None


def _narrow(sheet: ReadOnlyWorksheet) -> None:
    """Have the library leave out the cells far to the right, before it makes the thousands of
    empty ones up to them, in every row."""
    whole = getattr(sheet, "_get_row")  # noqa: B009 - not in its stubs

    def narrowed(row: list[dict[str, Any]], *places: Any) -> Cells:
        near = [cell for cell in row if cell["column"] <= _MOST_CELLS]
        return cast(Cells, whole(near, *places))

    setattr(sheet, "_get_row", narrowed)  # noqa: B010


def _load(path: Path, data_only: bool) -> Book:
    with _quiet():
        return load_workbook(path, read_only=True, data_only=data_only, keep_links=False)


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep the library's warnings, of styles and the like, from the user's terminal."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield
