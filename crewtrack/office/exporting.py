"""Export: the whole record as files that give the same answers when they are taken in again."""

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path

from crewtrack.errors import Fault, Refused
from crewtrack.facts import KINDS
from crewtrack.files.evidence_writer import write
from crewtrack.office.office import Office, Progress, silent
from crewtrack.records.journal_lines import journal_lines
from crewtrack.records.reading import StoredEdition

JOURNAL = "journal.jsonl"


def export(office: Office, folder: Path, progress: Progress = silent) -> tuple[Path, ...]:
    """Write the files of evidence, ``standard-EDITION.toml`` for each edition, and the journal;
    returns their paths. Refused where one of them is there already."""
    with office.view() as view, _naming(folder):
        editions = view.reading.editions()
        standards = _standards(editions)
        names = [*(f"{kind.name}.csv" for kind in KINDS), *standards, JOURNAL]
        _check(folder, names)
        written = []
        for number, kind in enumerate(KINDS):
            progress(f"{kind.name}.csv", number, len(names))
            written.append(write(folder, kind, view.reading.rows(kind)))
        for name, source in standards.items():
            path = folder / name
            path.write_text(source, encoding="utf-8", newline="")
            written.append(path)
        progress(JOURNAL, len(written), len(names))
        written.append(_write_journal(folder / JOURNAL, journal_lines(view.reading)))
    return tuple(written)


@contextmanager
def _naming(folder: Path) -> Iterator[None]:
    """Within, an error of the system that names no file, as that a disk is full, names the
    folder."""
    try:
        yield
    except OSError as error:
        if error.filename is None:
            error.filename = str(folder)
        raise


def _standards(editions: Iterable[StoredEdition]) -> dict[str, str]:
    """The texts of the editions by file names that every system takes and tells apart; an
    edition's own name stands inside its file."""
    named: dict[str, str] = {}
    for edition in editions:
        plain = re.sub(r"[^a-z0-9._-]+", "_", edition.edition.lower())
        names = (f"standard-{plain}{f'-{n}' if n > 1 else ''}.toml" for n in count(1))
        named[next(name for name in names if name not in named)] = edition.source
    return named


def _check(folder: Path, names: list[str]) -> None:
    """The folder can be written to, and nothing in it would be written over."""
    cure = "name an empty folder, or a new one"
    if folder.exists() and not folder.is_dir():
        raise Refused(Fault(str(folder), "", "this is a file", cure))
    folder.mkdir(parents=True, exist_ok=True)
    there = [name for name in names if (folder / name).exists()]
    if there:
        raise Refused(Fault(str(folder), "", f"{there[0]} is there already", cure))


def _write_journal(path: Path, lines: Iterator[str]) -> Path:
    with path.open("w", encoding="utf-8", newline="\n") as file:
        for line in lines:
            file.write(line + "\n")
    return path
