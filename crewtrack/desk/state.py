"""What a window shows: which record, on which day, as known at which instant; one signal when any
of it changes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, datetime
from typing import Concatenate, Final, ParamSpec, TypeVar
from zoneinfo import ZoneInfo

from PySide6.QtCore import QEventLoop, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from crewtrack.desk import opening
from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.sign_dialog import signed
from crewtrack.desk.troubles import trouble_told
from crewtrack.desk.work import Progress, Work, painted_through
from crewtrack.errors import NotBackedUp, RecordUnusable
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens.language import say

_LOOK_MS: Final = 1000
"""How often to look whether anybody else has written."""
_FEW: Final = 5_000
"""With up to so many sorties, an act is over before anybody notices."""

Given = ParamSpec("Given")
Returned = TypeVar("Returned")


def _nobody() -> None:
    """Nobody is told any more."""


class State(QObject):
    """``moved``: another day, another known-at, or the record changed; show all anew.
    ``told``: a sentence for the status line. ``failed``: one for a panel. ``reading``: whether
    the record is being read. ``signed_in``: from now on another person acts."""

    moved = Signal()
    told = Signal(str)
    failed = Signal(str)
    reading = Signal(object)
    _waits = Signal()
    signed_in = Signal()

    def __init__(self, office: Office, snapshot: Snapshot, author: str) -> None:
        super().__init__()
        self.office = office
        self.snapshot = snapshot
        self.author = author
        self.day = snapshot.today
        self.drafts = Drafts(drafts_folder(office.record.path))
        self.over: QWidget | None = None
        """The window over which a passphrase is asked for."""
        self._work: Work | None = None
        self._wanted: tuple[datetime | None] | None = None
        self._trouble = ""
        self._acting = False
        self._read: Snapshot | None = None
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._look)
        self._waits.connect(self._tell_waiting)
        office.on_waiting(self._waits.emit)

    @property
    def known_at(self) -> datetime | None:
        """The instant that is asked about; None for all that is recorded."""
        return self.snapshot.known_at

    @property
    def today(self) -> date:
        """The date in the unit's zone."""
        return self.snapshot.today

    @property
    def zone(self) -> ZoneInfo:
        """The unit's zone."""
        return self.snapshot.editions.zone

    @property
    def acting(self) -> bool:
        """Whether an act is going on while the screen is painted: no moment to leave."""
        return self._acting

    def may_change(self) -> bool:
        """Whether the record may be changed: not while this shows what it said at an earlier
        instant, which is told."""
        if self.known_at is not None:
            told = say("This shows what the record said earlier; go back to now to change it.")
            self.told.emit(told)
        return self.known_at is None

    def watch(self) -> None:
        """From now on, notice what others write."""
        self._timer.start(_LOOK_MS)

    def close(self) -> None:
        """Let go of the record, once nothing reads it any more."""
        self._timer.stop()
        if self._work is not None:
            self._work.wait()
        self.drafts.let_go()
        self.office.on_waiting(_nobody)
        self.office.close()

    def go_to(self, day: date) -> None:
        """Show another day."""
        if day != self.day:
            self.day = day
            self.moved.emit()

    def know_at(self, instant: datetime | None) -> None:
        """Show what the record said at an aware instant; None: all that it says."""
        self._take(instant)

    def refresh(self) -> None:
        """Read the record anew."""
        self._take(self.known_at)

    def act(
        self,
        function: Callable[Concatenate[Office, Given], Returned],
        *args: Given.args,
        **kwargs: Given.kwargs,
    ) -> Returned | None:
        """Run one act of the office and read the record anew; one that is to be signed asks for
        the passphrase. ``Refused`` goes through to the caller, who shows its faults in their
        places; anything else that goes wrong is told in a sentence, and None comes back, as it
        does where nobody signs: what was typed must stay as it is. NotBackedUp goes through too,
        for the caller to ask whether to go on without."""
        try:
            result = self.signed(
                lambda: self._waited(lambda: function(self.office, *args, **kwargs))
            )
        except NotBackedUp:
            raise
        except (RecordUnusable, OSError) as error:
            self.failed.emit(trouble_told(error))
            return None
        self.refresh()
        return result

    def signed(self, run: Callable[[], Returned]) -> Returned | None:
        """What an act returns that may have to be signed: then the passphrase is asked for, and
        it is run again. None where that is called off, and nothing was done."""
        done = signed(self.office, run, self.refresh, self.over)
        if done is None:
            self.told.emit(say("Not signed, so nothing was recorded."))
            return None
        return done[0]

    def catch_up(self) -> None:
        """Read what has been written meanwhile, without a word on it."""
        if self.office.newest() != self.snapshot.head.seq:
            self.refresh()

    def know_session(self) -> None:
        """Somebody has signed in: from now on this is who acts."""
        session = self.office.session
        if session is not None:
            self.author = session.person
            self.signed_in.emit()

    def _waited(self, act: Callable[[], Returned]) -> Returned:
        QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)  # another may be writing
        try:
            return self._acted(act)
        finally:
            QGuiApplication.restoreOverrideCursor()

    def _acted(self, act: Callable[[], Returned]) -> Returned:
        """Of a long history, what an act changes takes longer to work out than a screen may stand
        still: it goes on being painted meanwhile, and what is typed waits."""
        if len(self.snapshot.reckoning.evidence.sorties.key) <= _FEW:
            return act()
        self.told.emit(say("Saving…"))
        with self._as_acting():
            return painted_through(act)

    def _tell_waiting(self) -> None:
        """Say that an act waits for another program, and paint it: an act that is not painted
        through holds the screen's thread."""
        self.told.emit(say("Another program is writing to the record; waiting…"))
        if self._acting:
            return
        with self._as_acting():
            QGuiApplication.processEvents(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)

    @contextmanager
    def _as_acting(self) -> Iterator[None]:
        """What is read while the screen is painted within is put off until after it."""
        self._acting = True
        try:
            yield
        finally:
            self._acting = False
            QTimer.singleShot(0, self, self._late)

    def _late(self) -> None:
        """What was read while an act was going on is shown after it."""
        if self._read is not None and not self._acting:
            read, self._read = self._read, None
            self._taken(read)

    def _take(self, known_at: datetime | None) -> None:
        """Read the record off the screen's thread; asked again meanwhile, read once more."""
        if self._work is not None:
            self._wanted = (known_at,)
            return
        self.reading.emit(True)

        def read(progress: Progress) -> Snapshot:
            return opening.taken(self.office, known_at, progress)

        # Without a parent: what it reads for may be gone when it ends, and would take it along.
        self._work = Work(read)
        self._work.done.connect(self._taken)
        self._work.failed.connect(self._not_taken)
        self._work.start()

    def _taken(self, snapshot: Snapshot) -> None:
        if self._acting:
            self._read = snapshot
            return
        followed = self.day == self.today
        self.snapshot = snapshot
        if followed:
            self.day = snapshot.today
        self._trouble = ""
        self._ended()
        self.moved.emit()

    def _not_taken(self, error: Exception) -> None:
        told = trouble_told(error)
        if told != self._trouble:
            self._trouble = told
            self.failed.emit(told)
        self._ended()

    def _ended(self) -> None:
        if self._work is not None:
            self._work.wait()
            self._work.deleteLater()
            self._work = None
        self.reading.emit(False)
        if self._wanted is not None:
            (known_at,), self._wanted = self._wanted, None
            self._take(known_at)

    def _look(self) -> None:
        """Whether others have written, or another day has begun."""
        if self._work is not None or self._acting:
            return
        try:
            newest, today = self.office.newest(), self.office.today()
        except (RecordUnusable, OSError) as error:
            self._not_taken(error)
            return
        moved_on = self.known_at is None and newest != self.snapshot.head.seq
        if moved_on or today != self.today:
            if moved_on and not self._trouble:
                self.told.emit(say("The record was changed elsewhere; this shows it as it is now."))
            self.refresh()
