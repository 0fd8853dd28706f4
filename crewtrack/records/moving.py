"""Putting files in place: whole or not at all, and never over another file."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Final

from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.phrases import later, phrase

BESIDE: Final = ("-wal", "-shm", "-journal")
"""What SQLite may put beside a database, by the end of the name."""
_WORKSHOP: Final = ".crewtrack-"


def make_folder(target: Path) -> None:
    """Make the folder that ``target`` is to lie in, where there is none."""
    try:
        target.absolute().parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _no_place(target, error) from error


def _no_place(target: Path, error: OSError) -> RecordUnusable:
    return RecordUnusable(
        phrase(
            "{file} can't be made ({why}); look whether the folder {folder} is there and may be"
            " written in",
            file=target,
            why=error.strerror,
            folder=target.absolute().parent,
        )
    )


@contextmanager
def workshop(target: Path, mark: str = "") -> Iterator[Path]:
    """A name for a file to be made, in a folder of its own beside ``target``; what is left in
    that folder afterwards goes. ``mark`` is a word for ``sweep`` to know it by, should the program
    be killed before."""
    parent = target.absolute().parent
    try:
        prefix = f"{_WORKSHOP}{mark}-" if mark else _WORKSHOP
        folder = Path(tempfile.mkdtemp(prefix=prefix, dir=parent))
    except OSError as error:
        raise _no_place(target, error) from error
    try:
        yield folder / "record"
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def sweep(folder: Path, mark: str, before: datetime) -> None:
    """Remove workshops of that mark that were left since before an instant, as far as they let
    themselves be removed."""
    for left in folder.glob(f"{_WORKSHOP}{mark}-*"):
        with suppress(OSError):
            if left.lstat().st_mtime < before.timestamp() and not left.is_symlink():
                shutil.rmtree(left, ignore_errors=True)


def refuse_existing(path: Path, cure: str = later("name one that is new")) -> None:
    """Refused where something is at ``path``: nothing is ever written over."""
    if path.exists() or path.is_symlink():
        raise Refused(
            Fault(str(path), "", phrase("there is a file of this name already"), phrase(cure))
        )


def place(made: Path, target: Path) -> None:
    """Move a finished file to its name, in one step; Refused where there is one by now."""
    try:
        os.link(made, target)
    except FileExistsError:
        refuse_existing(target)
        raise
    except OSError:  # a file system without hard links
        refuse_existing(target)
        made.rename(target)
    sync_folder(target.absolute().parent)


def sync_folder(folder: Path) -> None:
    """Make the names in a folder last through a loss of power, where the system can."""
    with suppress(OSError, AttributeError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def free_name(path: Path, what: str) -> Path:
    """A name beside ``path`` that tells ``what`` the file is, with a counter from the second
    such file on: ``record.before-restore-2.crewtrack``."""
    names = (
        path.with_name(f"{path.stem}.{what}{'' if n == 1 else f'-{n}'}{path.suffix}")
        for n in count(1)
    )
    return next(name for name in names if not (name.exists() or name.is_symlink()))


def move_aside(path: Path, what: str) -> Path:
    """Give a database and what SQLite put beside it a free name; returns that."""
    aside = free_name(path, what)
    path.rename(aside)
    for end in BESIDE:
        with suppress(FileNotFoundError):
            path.with_name(path.name + end).rename(aside.with_name(aside.name + end))
    sync_folder(path.absolute().parent)
    return aside
