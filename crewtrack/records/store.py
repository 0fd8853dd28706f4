"""A unit's record: one SQLite file, opened, read and added to.

``with Record.open(path) as record: …`` is how all else begins.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Self
from uuid import uuid4

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DBAPIError

from crewtrack.records import copying, migrating, moving, sealing
from crewtrack.records.acting import Act
from crewtrack.records.connecting import (
    Patience,
    engine_for,
    fetch,
    roll_back,
    snapshot,
    told,
    transaction,
)
from crewtrack.records.journal import Draft
from crewtrack.records.opening import look_at_file, look_inside
from crewtrack.records.pairing import look_beside
from crewtrack.records.reading import Reading
from crewtrack.records.watching import Watch

BUSY_SECONDS = 10.0
"""How long to wait for another program that is writing."""


def _untold() -> None:
    """Nobody is there to be told of a wait."""


def _new_id() -> str:
    return str(uuid4())


def _beside(path: Path, revision: str) -> Path:
    return moving.free_name(path, f"revision-{revision}")


def create(path: Path, cure: str = "name one that is new") -> None:
    """Make an empty record, and the folders it is to lie in; Refused, with the cure, where a file
    is there."""
    moving.refuse_existing(path, cure)
    moving.make_folder(path)
    with told(path), moving.workshop(path) as made:
        made.touch()
        engine = engine_for(made, BUSY_SECONDS)
        migrating.make_tables(engine)
        engine.dispose()
        moving.place(made, path)


class Record:
    """A record that is open. Readers see one consistent state each; one writes at a time.

    It may be used from several threads at once. Each reading and each act has a connection of its
    own, opened when it begins and closed when it ends (the pool keeps none), so that no two share
    a transaction: one that reads sees nothing of an act before that is committed, and never waits
    for it; of two that write, the second waits up to ``busy_seconds``, and ``waiting`` is called,
    on its thread, once a second of that. SQLite itself, and the
    driver without its check for the opening thread, allow a connection to pass between threads,
    but what ``reading`` and ``act`` give belongs to one thread at a time, and whatever it yields
    lazily is to be used up within. Close the record when nobody is within either.
    """

    def __init__(
        self, path: Path, engine: Engine, new_id: Callable[[], str], busy_seconds: float
    ) -> None:
        self.path = path
        self._engine = engine
        self._new_id = new_id
        self._busy_seconds = busy_seconds
        self.waiting: Callable[[], None] = _untold
        self._watch = Watch(path, busy_seconds)

    @classmethod
    def open(
        cls,
        path: Path,
        *,
        busy_seconds: float = BUSY_SECONDS,
        new_id: Callable[[], str] = _new_id,
        older_copy: Callable[[Path, str], Path] = _beside,
    ) -> Self:
        """Open the record at ``path``; an older one is copied, the copy checked, and then brought
        up to date. ``older_copy`` names the copy, by the record's path and its schema revision.

        RecordUnusable, in one sentence that says what to do, where it can't be used.
        ``new_id`` gives each act its own id.
        """
        look_at_file(path)
        look_beside(path)
        engine = engine_for(path, busy_seconds)
        older = look_inside(engine, path)
        if older:
            kept = older_copy(path, older)
            with told(path, kept):
                copying.copy_checked(path, kept)
            with told(path):
                migrating.migrate(engine)
        return cls(path, engine, new_id, busy_seconds)

    def close(self) -> None:
        """Let go of the file."""
        self._watch.close()
        self._engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def head_seq(self) -> int:
        """The place in the chain of the last act committed, by whomever; 0 before the first.

        Cheap enough for a timer, and safe from any thread: it waits for no writer, and looks by a
        connection of its own that stays open until ``close``. While that is open, the record is
        in use: it can't be replaced by ``restore``.
        """
        return self._watch.head_seq()

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """Read from one state of the record, whatever is written meanwhile."""
        with told(self.path), snapshot(self._engine) as connection:
            yield Reading(connection)

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write to what is no part of the journal: the wrappings of keys. All or nothing."""
        with told(self.path), transaction(self._engine, self._patience()) as connection:
            yield connection

    @contextmanager
    def act(
        self, kind: str, author: str, instant: datetime, reason: str | None = None
    ) -> Iterator[Act]:
        """One act, all or nothing: chained to the journal and committed on leaving normally,
        undone on an exception and after ``cancel``. One that records nothing leaves no trace.

        Afterwards ``past`` is the act as the journal holds it, None where there is none.
        """
        draft = Draft(self._new_id(), instant, author, kind, reason)
        with told(self.path), transaction(self._engine, self._patience()) as connection:
            act = Act(connection, draft)
            yield act
            if act.cancelled:
                roll_back(connection)
            else:
                act.chain()

    def _patience(self) -> Patience:
        return Patience(self._busy_seconds, self.waiting)

    @contextmanager
    def sealing(self, author: str, instant: datetime, reason: str) -> Iterator[Act]:
        """An act within which facts may be sealed (``Act.seal``): all or nothing, as any other.
        Call ``clear`` afterwards."""
        draft = Draft(self._new_id(), instant, author, sealing.KIND, reason)
        with (
            told(self.path),
            transaction(self._engine, self._patience(), *sealing.PRAGMAS) as connection,
        ):
            act = Act(connection, draft)
            yield act
            act.chain()
            sealing.check_references(connection)

    def clear(self) -> bool:
        """Leave nothing in the file of what is no longer in the record: the file is written anew,
        and its log emptied. False where others who have the record open, or a full disk, kept it
        from that; what was sealed is then gone once all of them have closed it, since it was
        overwritten when it was sealed, and what lies in the log goes with the log."""
        try:
            with self._engine.connect() as connection:
                connection.exec_driver_sql("VACUUM")
                ((busy, _, _),) = fetch(connection, "PRAGMA wal_checkpoint(TRUNCATE)")
                return not busy
        except DBAPIError:
            return False
