"""Rows as they are written in a file, before anything is known of what they mean.

They come in batches, since files are long. What ends the reading of a file early raises
``Broken``, after the rows before it.
"""

import csv
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from io import TextIOWrapper
from itertools import islice
from operator import itemgetter
from pathlib import Path
from typing import Final

from crewtrack.bad_cell import BadCell
from crewtrack.phrases import phrase

# Few enough that a batch stays in the processor's cache: half the time of batches of 8,192.
BATCH: Final = 256
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")
_FIRST_BYTES = 4096
_REPORT_EVERY = 64  # batches
_LONGEST_CELL: Final = 131_072  # characters; the csv module's own limit, set anew against others
_BREAK = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True)
class Batch:
    """Some consecutive rows, none of them without any text.

    ``lines`` holds the line on which each row starts, counted from 1, the header row included.
    ``refused`` are cells that can't even be read as text, by their row and cell in the batch.
    """

    lines: Sequence[int]
    rows: list[list[str]]
    refused: Mapping[tuple[int, int], BadCell] = field(default_factory=dict)


class Broken(Exception):
    """A file can't be read any further; ``line`` is 0 where the fault is the whole file's."""

    def __init__(self, line: int, problem: str, cure: str = "") -> None:
        super().__init__(line, problem, cure)
        self.line = line
        self.problem = problem
        self.cure = cure


def comma_rows(path: Path, progress: Callable[[int, int], None]) -> Iterator[Batch]:
    """The rows of a CSV file (RFC 4180): UTF-8 with or without a byte order mark, any of the
    three line ends, line breaks within quotes; lines without any text are left out.

    A byte that is not UTF-8 comes through as a lone surrogate (``surrogateescape``), so that the
    cell that holds it can be named. ``progress`` is told bytes read and bytes in all.
    """
    try:
        _refuse_other_encodings(path)
        size = path.stat().st_size
        with path.open("rb") as raw:
            file = TextIOWrapper(raw, "utf-8-sig", "surrogateescape", newline="")
            for count, batch in enumerate(_batches(file)):
                yield batch
                if count % _REPORT_EVERY == 0:
                    progress(raw.tell(), size)
        progress(size, size)
    except OSError as error:
        raise Broken(0, phrase("it can't be read ({why})", why=error.strerror)) from error


def _batches(text: Iterable[str]) -> Iterator[Batch]:
    csv.field_size_limit(_LONGEST_CELL)
    reader = csv.reader(text, strict=True)
    line, more = 1, True
    while more:
        rows: list[list[str]] = []
        broken = None
        try:
            rows.extend(islice(reader, BATCH))
        except csv.Error as error:
            broken = str(error)
        more = len(rows) == BATCH
        starts, following = _starts(rows, line, reader.line_num)
        lines, rows = _without_blanks(starts, rows)
        if rows:
            yield Batch(lines, rows)
        if broken:
            raise Broken(following, *_told(broken, reader.line_num - following))
        line = following


def _starts(rows: list[list[str]], line: int, line_num: int) -> tuple[Sequence[int], int]:
    """The line on which each row starts, the first one on ``line``, and the one after them all;
    ``line_num`` is the reader's count of lines."""
    if line + len(rows) == line_num + 1:
        return range(line, line_num + 1), line_num + 1
    starts = []
    for cells in rows:
        starts.append(line)
        line += 1 + len(_BREAK.findall(",".join(cells)))
    return starts, line


def _without_blanks(
    lines: Sequence[int], rows: list[list[str]]
) -> tuple[Sequence[int], list[list[str]]]:
    """The lines and rows without those that hold no text: empty lines, and lines of commas only,
    which spreadsheets leave at the end of a file."""
    if all(rows) and all(map(str.strip, map(itemgetter(0), rows))):
        return lines, rows
    kept = [index for index, cells in enumerate(rows) if any(map(str.strip, cells))]
    return [lines[index] for index in kept], [rows[index] for index in kept]


def _told(error: str, lines: int) -> tuple[str, str]:
    """The csv module's words for what it stumbled over, so many lines after its row began, in
    ours."""
    if "expected after" in error:
        return (
            phrase("something follows a closing quote"),
            phrase('put the whole cell in quotes, and write a quote inside it twice: ""'),
        )
    if "field limit" in error and not lines:
        return (
            phrase("a cell holds more than {count} characters", count=f"{_LONGEST_CELL:,}"),
            phrase("no cell needs so many; shorten it"),
        )
    return (
        phrase("a quote is opened in this row and never closed"),
        phrase('close it with " at the end of the cell, and write a quote inside it twice: ""'),
    )


def _refuse_other_encodings(path: Path) -> None:
    with path.open("rb") as file:
        first = file.read(_FIRST_BYTES)
    if first.startswith(_UTF_16) or first.count(0) > len(first) // 4:
        raise Broken(
            0,
            phrase("it is not UTF-8 text (it looks like UTF-16)"),
            phrase("save it as CSV UTF-8"),
        )
    if first.startswith(b"PK\x03\x04"):
        raise Broken(
            0,
            phrase("it is a workbook or an archive, not CSV"),
            phrase("name it .xlsx, or save as CSV"),
        )
