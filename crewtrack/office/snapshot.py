"""One state of the record, kept in memory: what screens ask over and over, on any day."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, datetime

from crewtrack.engine.absences import stand_downs
from crewtrack.engine.evidence import Waiver
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Editions, Standard
from crewtrack.engine.standings import Explanation, HistoryRow, Roster, Standing, StoodDown
from crewtrack.errors import Fault
from crewtrack.facts import Kind, Row, Value
from crewtrack.office.able import identified
from crewtrack.office.attestation import Attested, attestations
from crewtrack.office.closed import check_open, closed, may_be_closed
from crewtrack.office.given_rows import FactKey
from crewtrack.office.office import Office, Progress, silent
from crewtrack.phrases import later
from crewtrack.records import reading
from crewtrack.records.finding import rows_of, taken_since
from crewtrack.records.journal import Head
from crewtrack.records.stored import layout

Revision = reading.Revision
"""One revision of a fact: ``number``, ``row``, ``struck``, and the ``act`` that recorded it."""


class Snapshot:
    """The record through ``head``, whatever is written later.

    ``known_at`` is the instant that was asked about, None where that was now; ``today`` the date
    in the unit's zone when it was taken. What the engine needs is read at once, rows of facts
    when they are first asked for; both are kept. May be asked from one thread at a time. Facts
    that are not open to whoever is signed in (``closed``) are refused.
    """

    def __init__(
        self, office: Office, head: Head, known_at: datetime | None, today: date, told: Reckoning
    ) -> None:
        self._office = office
        self.head = head
        self.known_at = known_at
        self.today = today
        self.reckoning = told
        self._history: tuple[HistoryRow, ...] | None = None
        self._rows: dict[str, tuple[Row, ...]] = {}
        self._by_key: dict[str, Mapping[FactKey, Row]] = {}
        self._attested: Mapping[str, Attested] | None = None
        self._told: dict[tuple[str, tuple[str, ...]], Mapping[str, tuple[Value, ...]]] = {}

    @property
    def editions(self) -> Editions:
        """All editions of the standard that the record held."""
        return self.reckoning.editions

    @property
    def unit(self) -> str:
        """The unit's name, as today's edition writes it."""
        return self.standard(self.today).unit

    def standard(self, on: date) -> Standard:
        """The edition in effect on a day."""
        return self.editions.on(on.toordinal())

    def roster(self, on: date) -> Roster:
        """People on the books × qualifications of the edition on a day, and why each lapsed one
        is lapsed."""
        board = self.board(on)
        lapsed = (row for row in board.rows if row.word == "lapsed")
        lapses = (self.explain(row.person, row.qualification, on) for row in lapsed)
        return replace(board, lapses=tuple(lapses))

    def board(self, on: date) -> Roster:
        """The same without the explanations of what is lapsed, which take as long as all else
        many times over."""
        reckoning, rows = self.reckoning, self.reckoning.standings(on)
        standard, people = self.standard(on), reckoning.people(on)
        books = reckoning.evidence.books
        return Roster(
            on=on,
            known_at=self.known_at,
            unit=standard.unit,
            edition=standard.edition,
            head=self.head.digest,
            people=tuple(books[key].person for key in people),
            qualifications=self.editions.qualifications_on(on.toordinal()),
            rows=rows,
            lapses=(),
            reliefs=_reliefs(reckoning, rows),
            standdowns=tuple(
                StoodDown(key, down)
                for key in people
                for down in stand_downs(books[key], on.toordinal())
            ),
        )

    def explain(self, person: str, qualification: str, on: date) -> Explanation:
        """One standing, opened down to its evidence; KeyError for an unknown person."""
        return self.reckoning.explain(person, qualification, on)

    def history(self) -> tuple[HistoryRow, ...]:
        """The spans of every person × qualification with an assignment."""
        if self._history is None:
            self._history = self.reckoning.history()
        return self._history

    def rows(self, kind: Kind) -> tuple[Row, ...]:
        """Every fact of a kind, in the order of entry."""
        self._check_open(kind)
        if kind.name not in self._rows:
            with self._office.record.reading() as record:
                self._rows[kind.name] = tuple(record.rows(kind, self.head.seq))
        return self._rows[kind.name]

    def by_key(self, kind: Kind) -> Mapping[FactKey, Row]:
        """The same by the values of their key columns."""
        self._check_open(kind)
        if kind.name not in self._by_key:
            key_of = layout(kind).key_of
            self._by_key[kind.name] = {key_of(row): row for row in self.rows(kind)}
        return self._by_key[kind.name]

    def rows_of(self, kind: Kind, keys: Iterable[FactKey]) -> Mapping[FactKey, Row]:
        """The facts with a few keys, read without all others."""
        self._check_open(kind)
        with self._office.record.reading() as record:
            return rows_of(record, kind, keys, self.head.seq)

    def told(self, kind: Kind, names: tuple[str, ...]) -> Mapping[str, tuple[Value, ...]]:
        """Some columns of every fact of a kind that has a single key column, by its key: texts,
        choices and references. Many times as fast as all of their rows, and kept."""
        self._check_open(kind)
        if (kind.name, names) not in self._told:
            with self._office.record.reading() as record:
                keys, *columns = record.columns(kind, (*kind.key, *names), self.head.seq)
            values = zip(*columns, strict=True)
            self._told[kind.name, names] = dict(zip(map(str, keys), values, strict=True))
        return self._told[kind.name, names]

    def attested(self) -> Mapping[str, Attested]:
        """Who stands for each sign-off, by its key."""
        if self._attested is None:
            self._attested = attestations(self._office)
        return self._attested

    def revisions(self, kind: Kind, key: FactKey) -> tuple[Revision, ...]:
        """All revisions of one fact, the first one first; none where it was not recorded yet."""
        self._check_open(kind)
        with self._office.record.reading() as record:
            held = record.revisions(kind, key)
        return tuple(one for one in held if one.act.seq <= self.head.seq)

    def taken_keys(self, kind: Kind) -> tuple[str, ...]:
        """The keys ever given to facts of a kind that has a single key column, in the order of
        entry: by now, since no two may be alike."""
        known = self._office.taken.get(kind.name, {})
        with self._office.record.reading() as record:
            self._office.taken[kind.name] = known = taken_since(record, kind, known)
        return tuple(known.values())

    def closed(self, kind: Kind) -> Fault | None:
        """Why whoever is signed in may not read facts of a kind; None where they may."""
        with self._office.record.reading() as record:
            return closed(self._office, record, kind)

    @property
    def identified(self) -> bool:
        """Whether people sign in to this record by now."""
        with self._office.record.reading() as record:
            return identified(record)

    def _check_open(self, kind: Kind) -> None:
        if not may_be_closed(kind):
            return
        with self._office.record.reading() as record:
            check_open(self._office, record, kind)


def take(office: Office, known_at: datetime | None = None, progress: Progress = silent) -> Snapshot:
    """The record as it stands, or as it stood at an aware instant."""
    progress(later("reading"), 0, 0)
    with office.view(known_at) as view:
        return Snapshot(office, view.head, known_at, view.today, view.reckoning())


def history_of(office: Office, kind: Kind, key: FactKey) -> tuple[Revision, ...]:
    """All revisions of one fact by now, the first one first: their numbers, rows and acts (by
    whom, when and why)."""
    with office.record.reading() as record:
        check_open(office, record, kind)
        return record.revisions(kind, key)


def _reliefs(reckoning: Reckoning, rows: tuple[Standing, ...]) -> tuple[Waiver, ...]:
    """The waivers and extensions that any of the rows rests on, by key."""
    used = {key for row in rows for key in row.by_waiver}
    waivers = (one for books in reckoning.evidence.books.values() for one in books.waivers)
    return tuple(sorted((one for one in waivers if one.key in used), key=lambda one: one.key))
