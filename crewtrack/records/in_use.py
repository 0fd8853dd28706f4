"""Which files this process has open as records.

Where locks are POSIX's, closing any handle on a file drops every lock that the process holds on
it, SQLite's too; another program then takes itself for the last one there and does away with the
log that is in use. So nobody may look into such a file by other means than SQLite.
"""

import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from typing import Final

File = tuple[int, int]
"""A file, by whatever name: its device and its number there."""

_TURN: Final = Lock()
_HELD: Final[Counter[File]] = Counter()


def identity(path: Path) -> File | None:
    """Which file a path leads to; None where there is none, which opening it will tell."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def take(path: Path) -> File | None:
    """Say that the file at ``path`` is going to be open; give what comes back to ``let_go``."""
    with _TURN:
        file = identity(path)
        if file is not None:
            _HELD[file] += 1
        return file


def let_go(file: File | None) -> None:
    """Say that one who had the file open has it no longer."""
    with _TURN:
        if file is not None:
            _HELD[file] -= 1
            if not _HELD[file]:
                del _HELD[file]


class HoldingConnection(sqlite3.Connection):
    """A connection that holds its file until it is closed."""

    held: File | None = None

    def close(self) -> None:
        """Let go of the file."""
        super().close()
        let_go(self.held)
        self.held = None


@contextmanager
def looking(path: Path) -> Iterator[bool]:
    """Whether the file may be looked into; within, nobody here begins to use it."""
    with _TURN:
        yield identity(path) not in _HELD
