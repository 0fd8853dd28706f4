"""The office: where a record is opened, and the only place that reads the clock."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, Self
from zoneinfo import ZoneInfo, reset_tzpath

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Editions, Standard
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.files.standard_file import read_standard
from crewtrack.office import backup_folder
from crewtrack.phrases import phrase
from crewtrack.records.journal import Head
from crewtrack.records.reading import Reading, StoredEdition
from crewtrack.records.store import Record

if TYPE_CHECKING:
    from crewtrack.records.signatures import SigningKey

# Zones come from the pinned tzdata package alone: a machine's own copy must change no answer.
reset_tzpath(to=())

Clock = Callable[[], datetime]
Progress = Callable[[str, int, int], None]


def now() -> datetime:
    """The present instant."""
    return datetime.now(UTC)


def silent(what: str, done: int, total: int) -> None:
    """Progress that nobody watches."""


@lru_cache(maxsize=64)
def parsed(edition: str, source: str) -> Standard:
    """An edition of the record as a value. RecordUnusable where the program no longer
    understands what it once adopted."""
    try:
        return read_standard(source, f"edition {edition}")
    except Refused as refused:
        raise RecordUnusable(
            phrase(
                "the record's edition {edition} of the standard can't be read by this program"
                " ({fault}); use the version of the program that adopted it, and adopt a corrected"
                " edition",
                edition=repr(edition),
                fault=refused.faults[0],
            )
        ) from refused


def editions_of(stored: tuple[StoredEdition, ...]) -> Editions:
    """The editions as the engine takes them."""
    return Editions(tuple(parsed(edition.edition, edition.source) for edition in stored))


_NO_STANDARD: Final = phrase(
    "the record holds no standard: it was never finished; make another with"
    " 'crewtrack init --standard FILE'"
)


def _not_known_yet(known_at: datetime, now: datetime) -> Fault:
    """The fault of an instant that lies ahead; both in the unit's zone."""
    problem = phrase(
        "{instant} is later than now, {now}: the record can't know yet",
        instant=_minutes(known_at),
        now=_minutes(now),
    )
    return Fault("--known-at", "", problem, phrase("leave it out for all that is recorded"))


def _nothing_known(known_at: datetime, began: datetime) -> Fault:
    """The fault of an instant before the first act; both in the unit's zone."""
    first = _minutes(began + timedelta(seconds=59, microseconds=999_999))
    problem = phrase(
        "the record held nothing yet at {instant}; it begins at {first}",
        instant=_minutes(known_at),
        first=first,
    )
    return Fault("--known-at", "", problem, phrase("ask about that instant or a later one"))


def _minutes(instant: datetime) -> str:
    """An instant in whole minutes, those that have begun left out, with its offset."""
    return instant.isoformat(timespec="minutes")


@dataclass(frozen=True, slots=True)
class View:
    """One consistent state of the record, now or as known at an instant; ``today`` is the date
    in the unit's zone."""

    reading: Reading
    head: Head
    editions: Editions
    today: date

    def reckoning(self) -> Reckoning:
        """The engine, given all that the record holds."""
        return Reckoning(self.reading.evidence(self.editions.zone, self.head.seq), self.editions)


@dataclass(frozen=True, slots=True)
class Session:
    """Who is signed in."""

    person: str
    name: str


class Office:
    """The unit's work on one record.

    ``session`` is whoever is signed in, None for nobody; ``hand`` that person's signing key, for
    the length of one act (``access.signing``).
    """

    def __init__(self, record: Record, clock: Clock = now) -> None:
        self.record = record
        self.clock = clock
        self.session: Session | None = None
        self.hand: SigningKey | None = None
        self.taken: dict[str, Mapping[int, str]] = {}
        """Keys that were ever given, by kind and entry, as far as they were read."""
        self._known: tuple[Head, Reckoning] | None = None

    @classmethod
    def open(cls, where: str | Path, clock: Clock = now) -> Self:
        """Open a record; RecordUnusable says in a sentence why it can't be. One of an older
        program is copied to the folder of its backups before it is brought up to date."""
        record = Record.open(
            Path(where), older_copy=lambda path, _: backup_folder.older_copy(path, clock())
        )
        return cls(record, clock)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def on_waiting(self, told: Callable[[], None]) -> None:
        """Have ``told`` called once a second while an act waits for another program that is
        writing, on the thread that waits."""
        self.record.waiting = told

    def close(self) -> None:
        """Let go of the record."""
        self.record.close()

    @contextmanager
    def view(self, known_at: datetime | None = None) -> Iterator[View]:
        """The record as it stands, or as it stood at an aware instant."""
        with self.record.reading() as reading:
            head = reading.head(known_at)
            stored = reading.editions(head.seq)
            if known_at is not None and not (stored and known_at <= self.clock()):
                raise Refused(self._unknowable(reading, known_at))
            if not stored:
                raise RecordUnusable(_NO_STANDARD)
            editions = editions_of(stored)
            today = self.clock().astimezone(editions.zone).date()
            yield View(reading, head, editions, today)

    def _unknowable(self, reading: Reading, known_at: datetime) -> Fault:
        """Why there is no answer as of an instant before the record's first edition, or later
        than now."""
        stored = reading.editions()
        if not stored:
            raise RecordUnusable(_NO_STANDARD)
        zone, now = editions_of(stored).zone, self.clock()
        asked = known_at.astimezone(zone)
        if known_at > now:
            return _not_known_yet(asked, now.astimezone(zone))
        acts = {act.seq: act.at for act in reading.acts()}
        return _nothing_known(asked, acts[stored[0].act].astimezone(zone))

    def keep(self, head: Head, reckoning: Reckoning) -> None:
        """Have at hand what was reckoned of the record through an act."""
        self._known = head, reckoning

    def known(self, head: Head) -> Reckoning | None:
        """What is at hand of the record through an act; None where that is of another."""
        kept = self._known
        return kept[1] if kept is not None and kept[0] == head else None

    def newest(self) -> int:
        """The place in the chain of the last act, 0 before the first: cheap enough to ask every
        second whether others have recorded something."""
        return self.record.head_seq()

    def zone(self) -> ZoneInfo:
        """The unit's time zone."""
        with self.view() as view:
            return view.editions.zone

    def today(self) -> date:
        """The date in the unit's time zone."""
        with self.view() as view:
            return view.today

    def edition(self, reading: Reading) -> str:
        """The edition of the standard that is in effect today, under which acts are signed."""
        editions = editions_of(reading.editions())
        today = self.clock().astimezone(editions.zone).date()
        return editions.on(today.toordinal()).edition
