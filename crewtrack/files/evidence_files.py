"""Files of evidence in: which file is which kind, and all that they hold, with every fault.

What can be named: CSV files called after a kind (``people.csv``, capitals do not matter), a
folder that holds such files, and XLSX workbooks whose sheets are called after kinds. A folder
gives its CSV files only: a workbook in it has to be named itself, since people keep copies. Each
kind may come once. Files that a folder hides (a leading dot or ``~``) are left out.
"""

import gc
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import likely, shown
from crewtrack.errors import Fault
from crewtrack.facts import KINDS, Kind
from crewtrack.files.sheet_rows import ReadSheet, read_rows
from crewtrack.files.written_rows import Batch, Broken, comma_rows
from crewtrack.phrases import Phrase, phrase

Progress = Callable[[str, int, int], None]
"""Told the place, how much of it is read and how much there is (bytes of CSV, rows of a sheet)."""

_BY_NAME: Final = {kind.name: kind for kind in KINDS}
_WORKBOOKS: Final = (".xlsx", ".xlsm")
_OTHER_SHEETS: Final = (".xls", ".ods", ".numbers", ".tsv", ".txt", ".xlsb")


@dataclass(frozen=True, slots=True)
class ReadEvidence:
    """All that was read: one sheet at most of each kind, each after the kinds it refers to."""

    sheets: tuple[ReadSheet, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Source:
    """Rows of one kind that can be read: where from, and the way to open them."""

    kind: Kind
    place: str
    path: Path
    open: Callable[[], Iterator[Batch]]


@dataclass(frozen=True, slots=True)
class Reading:
    """What goes along with looking for files: faults found and workbooks opened add up in it."""

    progress: Progress
    faults: list[Fault]
    opened: ExitStack


def read(paths: Sequence[Path], zone: ZoneInfo, progress: Progress) -> ReadEvidence:
    """Read everything that the paths name; instants without an offset are read in ``zone``.

    Nothing raises for what the files hold: what is wrong with them comes back as faults. What
    refers to other facts, or to the standard, is not judged here.
    """
    faults: list[Fault] = []
    sheets = []
    with ExitStack() as opened, _without_collector():
        sources = _once_each(_sources(paths, Reading(progress, faults, opened)), faults)
        for source in sorted(sources, key=lambda source: KINDS.index(source.kind)):
            sheet, found = read_rows(source.kind, source.place, source.open(), zone)
            sheets.append(sheet)
            faults += found
    return ReadEvidence(tuple(sheets), tuple(faults))


@contextmanager
def _without_collector() -> Iterator[None]:
    """Keep the cycle collector still: it would walk the growing rows over and over, which takes
    a third of the time, and rows hold no cycles."""
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_enabled:
            gc.enable()


def _sources(paths: Iterable[Path], reading: Reading) -> Iterator[Source]:
    for path in paths:
        try:
            yield from _path_sources(path, reading)
        except OSError as error:
            problem = phrase("it can't be read ({why})", why=error.strerror)
            reading.faults.append(Fault(str(path), "", problem))


def _path_sources(path: Path, reading: Reading) -> Iterator[Source]:
    if path.is_dir():
        yield from _folder_sources(path, reading)
    elif not path.exists():
        reading.faults.append(Fault(str(path), "", phrase("no such file or folder")))
    elif path.suffix.casefold() in _WORKBOOKS:
        yield from _workbook_sources(path, reading)
    else:
        yield from _comma_source(path, reading)


def _folder_sources(path: Path, reading: Reading) -> Iterator[Source]:
    files = sorted(file for file in path.iterdir() if file.name[0] not in ".~")
    commas = [file for file in files if file.suffix.casefold() == ".csv"]
    if not commas:
        workbook = next((f.name for f in files if f.suffix.casefold() in _WORKBOOKS), "")
        named = phrase("name the workbook itself: {file}", file=workbook)
        problem = phrase("the folder holds no file of evidence")
        cure = named if workbook else _known_files()
        reading.faults.append(Fault(str(path), "", problem, cure))
    for file in commas:
        yield from _comma_source(file, reading)


def _comma_source(path: Path, reading: Reading) -> Iterator[Source]:
    if path.suffix.casefold() in _OTHER_SHEETS:
        problem = phrase("{suffix} files can't be read", suffix=path.suffix)
        cure = phrase("save it as CSV UTF-8 or as .xlsx")
        reading.faults.append(Fault(path.name, "", problem, cure))
        return
    kind = _BY_NAME.get(path.stem.casefold()) if path.suffix.casefold() == ".csv" else None
    if kind is None:
        problem = phrase("no kind of evidence has this name")
        near = likely(path.stem, _BY_NAME, ".csv")
        reading.faults.append(Fault(path.name, "", problem, near or _known_files()))
        return
    yield Source(
        kind, path.name, path, partial(comma_rows, path, partial(reading.progress, path.name))
    )


def _workbook_sources(path: Path, reading: Reading) -> Iterator[Source]:
    from crewtrack.files.workbook import Workbook  # it brings openpyxl

    try:
        book = reading.opened.enter_context(Workbook.open(path))
    except Broken as broken:
        reading.faults.append(Fault(path.name, "", broken.problem, broken.cure))
        return
    for name in book.names:
        kind = _BY_NAME.get(name.strip().casefold())
        place = f"{path.name}!{name}"
        if kind is not None:
            rows = partial(book.rows, kind, name, partial(reading.progress, place))
            yield Source(kind, place, path, rows)
        elif not book.is_empty(name):
            sheets = phrase("the sheets are {names}", names=", ".join(_BY_NAME))
            problem = phrase("no kind of evidence is called {name}", name=shown(name))
            reading.faults.append(Fault(place, "", problem, likely(name, _BY_NAME) or sheets))


def _once_each(sources: Iterable[Source], faults: list[Fault]) -> list[Source]:
    """One source of each kind; a second is refused, unless it is the very same file again."""
    first: dict[str, Source] = {}
    for source in sources:
        earlier = first.setdefault(source.kind.name, source)
        same = (source.path.resolve(), source.place) == (earlier.path.resolve(), earlier.place)
        if not same:
            problem = phrase(
                "{kind} come from {file} already", kind=source.kind.name, file=_told(earlier)
            )
            cure = phrase("put all of them into one file")
            faults.append(Fault(_told(source), "", problem, cure))
    return list(first.values())


def _told(source: Source) -> str:
    """A place that tells two files of one name apart."""
    return f"{source.path}{source.place.removeprefix(source.path.name)}"


def _known_files() -> Phrase:
    return phrase("the files are {names}", names=", ".join(f"{name}.csv" for name in _BY_NAME))
