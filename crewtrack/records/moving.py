"""Putting files in place: whole or not at all, and never over another file."""

import errno
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import Final

from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.phrases import later, phrase

BESIDE: Final = ("-wal", "-shm", "-journal")
"""What SQLite may put beside a database, by the end of the name."""


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
def workshop(target: Path) -> Iterator[Path]:
    """A name for a file to be made, in a folder of its own beside ``target``; what is left in
    that folder afterwards goes."""
    parent = target.absolute().parent
    try:
        made = _new_room(parent)
    except OSError as error:
        raise _no_place(target, error) from error
    with _kept(*made) as folder:
        yield folder / "record"


@contextmanager
def room(parent: Path) -> Iterator[Path]:
    """A folder within ``parent`` to work in; it goes afterwards. One that a killed program left
    there goes when the next is made."""
    with _kept(*_new_room(parent)) as folder:
        yield folder


ROOM: Final = ".crewtrack-"
_LOCK: Final = "lock"
"""A file in every room, locked as long as whoever made the room lives."""


@contextmanager
def _kept(folder: Path, lock: sqlite3.Connection) -> Iterator[Path]:
    try:
        with closing(lock):
            yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _new_room(parent: Path) -> tuple[Path, sqlite3.Connection]:
    _clear_away(parent)
    while True:
        folder = Path(tempfile.mkdtemp(prefix=ROOM, dir=parent))
        # Somebody who clears away at this very moment may take it for one that was left.
        with suppress(FileNotFoundError, sqlite3.OperationalError):
            (folder / _LOCK).touch()
            lock = _locked(folder)
            if (folder / _LOCK).exists():
                return folder, lock
            lock.close()
        if folder.exists():
            shutil.rmtree(folder, ignore_errors=True)
            raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK), str(folder))


def _locked(folder: Path) -> sqlite3.Connection:
    """Whoever has this has the room. SQLite's own lock, since it is the same on every system and
    goes with the program that holds it."""
    lock = sqlite3.connect(folder / _LOCK, timeout=0, isolation_level=None)
    try:
        lock.execute("BEGIN EXCLUSIVE").close()
    except sqlite3.Error:
        lock.close()
        raise
    return lock


def _clear_away(parent: Path) -> None:
    """Do away with rooms whose makers are gone."""
    for folder in parent.glob(f"{ROOM}*"):
        if folder.is_dir() and not folder.is_symlink() and _is_left(folder):
            shutil.rmtree(folder, ignore_errors=True)


def _is_left(folder: Path) -> bool:
    """Whether nobody works in a room any more. The lock is there first and goes with the rest."""
    try:
        if all(path.name != _LOCK for path in folder.iterdir()):
            return True
        _locked(folder).close()
    except (OSError, sqlite3.Error):
        return False
    return True


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
