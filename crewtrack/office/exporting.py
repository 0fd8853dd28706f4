"""Export: the whole record as files that give the same answers when they are taken in again."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from functools import partial
from itertools import count
from pathlib import Path
from typing import Final, TypeVar

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KINDS
from crewtrack.files.evidence_writer import write
from crewtrack.office.office import Office, Progress, silent
from crewtrack.office.rights import may
from crewtrack.phrases import phrase
from crewtrack.records import moving
from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.reading import Reading, StoredEdition

JOURNAL = "journal.jsonl"

_Line = TypeVar("_Line")

_AT_ONCE: Final = 10_000
"""Lines of a file between two words of progress."""


def export(office: Office, folder: Path, progress: Progress = silent) -> tuple[Path, ...]:
    """Write the files of evidence, ``standard-EDITION.toml`` for each edition, and the journal;
    returns their paths. What is struck out stands in the journal alone.

    Refused where one of the files is there already. They get their names once all of them are
    written: where anything fails, or ``progress`` raises, nothing is left.
    """
    with office.view() as view, _naming(folder):
        may(office, view.reading, "export")
        standards = _standards(view.reading.editions())
        names = [*(f"{kind.name}.csv" for kind in KINDS), *standards, JOURNAL]
        with _folder_for(folder, names), moving.room(folder) as room:
            _write(view.reading, standards, room, progress)
            return _placed(room, folder, names)


def _write(reading: Reading, standards: Mapping[str, str], room: Path, progress: Progress) -> None:
    total = len(KINDS) + len(standards) + 1
    for number, kind in enumerate(KINDS):
        tell = partial(progress, f"{kind.name}.csv", number, total)
        write(room, kind, _telling(reading.rows(kind), tell))
    for name, source in standards.items():
        (room / name).write_text(source, encoding="utf-8", newline="")
    tell = partial(progress, JOURNAL, total - 1, total)
    _write_journal(room / JOURNAL, _telling(journal_lines(reading), tell))


def _telling(rows: Iterable[_Line], tell: Callable[[], None]) -> Iterator[_Line]:
    """The rows, with a word at the start and then now and again."""
    tell()
    for number, row in enumerate(rows, start=1):
        yield row
        if number % _AT_ONCE == 0:
            tell()


@contextmanager
def _naming(folder: Path) -> Iterator[None]:
    """Within, an error of the system that names no file, as that a disk is full, or one that has
    no name of its own yet, names the folder."""
    try:
        yield
    except OSError as error:
        if error.filename is None or moving.ROOM in str(error.filename):
            error.filename = str(folder)
        raise


def _placed(room: Path, folder: Path, names: Sequence[str]) -> tuple[Path, ...]:
    """Give the files their names: all of them, or none."""
    placed: list[Path] = []
    try:
        for name in names:
            moving.place(room / name, folder / name)
            placed.append(folder / name)
    except BaseException:
        for path in placed:
            path.unlink(missing_ok=True)
        raise
    return tuple(placed)


def _standards(editions: Iterable[StoredEdition]) -> dict[str, str]:
    """The texts of the editions by file names that every system takes and tells apart; an
    edition's own name stands inside its file."""
    named: dict[str, str] = {}
    for edition in editions:
        plain = re.sub(r"[^a-z0-9._-]+", "_", edition.edition.lower())
        names = (f"standard-{plain}{f'-{n}' if n > 1 else ''}.toml" for n in count(1))
        named[next(name for name in names if name not in named)] = edition.source
    return named


@contextmanager
def _folder_for(folder: Path, names: Sequence[str]) -> Iterator[None]:
    """The folder can be written to, and nothing in it would be written over. What had to be made
    of it goes again where anything fails."""
    cure = phrase("name an empty folder, or a new one")
    if folder.exists() and not folder.is_dir():
        raise Refused(Fault(str(folder), "", phrase("this is a file"), cure))
    there = [name for name in names if (folder / name).exists()]
    if there:
        raise Refused(
            Fault(str(folder), "", phrase("{file} is there already", file=there[0]), cure)
        )
    made = [path for path in (folder, *folder.parents) if not path.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        for path in made:
            with suppress(OSError):
                path.rmdir()
        raise


def _write_journal(path: Path, lines: Iterator[str]) -> None:
    with path.open("w", encoding="utf-8", newline="\n") as file:
        for line in lines:
            file.write(line + "\n")
