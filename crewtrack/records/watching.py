"""Noticing that a record has grown, cheaply enough to look again and again."""

import sqlite3
from pathlib import Path
from threading import Lock

from crewtrack.records.connecting import raw_connection, told
from crewtrack.records.in_use import File, identity

_HEAD = "SELECT coalesce(max(seq), 0) FROM acts"


class Watch:
    """Looks for the place in the chain of a record's last act.

    It keeps one connection of its own from the first look on, since to open one takes a hundred
    times as long as to look; between looks that holds no lock that a reader or a writer waits
    for. Threads take turns.
    """

    def __init__(self, path: Path, busy_seconds: float) -> None:
        self._path = path
        self._busy_seconds = busy_seconds
        self._turn = Lock()
        self._connection: sqlite3.Connection | None = None
        self._file: File | None = None

    def head_seq(self) -> int:
        """The place of the last act that is committed; 0 before the first."""
        with self._turn, told(self._path):
            try:
                return self._look()
            except BaseException:
                self._let_go()
                raise

    def close(self) -> None:
        """Let go of the file."""
        with self._turn:
            self._let_go()

    def _look(self) -> int:
        file = identity(self._path)
        if file != self._file:  # another one was put in its place
            self._let_go()
        if self._connection is None:
            self._connection = raw_connection(self._path, "mode=rw", self._busy_seconds)
            self._connection.execute("PRAGMA query_only=ON").close()
            self._file = file
        ((seq,),) = self._connection.execute(_HEAD).fetchall()
        return int(seq)

    def _let_go(self) -> None:
        if self._connection is not None:
            self._connection.close()
        self._connection = self._file = None
