"""The journal, as a person looks it through: who did what, when and why, and what it recorded."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.facts import Kind, Row, Value
from crewtrack.office.closed import closed
from crewtrack.office.office import Office, editions_of
from crewtrack.records.journal import PastAct
from crewtrack.records.reading import Reading
from crewtrack.records.recorded import Recorded
from crewtrack.records.sealing import last_sealing, sealed_kinds

_AT_ONCE: Final = 500
EDITIONS: Final = "editions"
"""What the counts of an act call the editions of the standard."""
_GRACE: Final = timedelta(minutes=1)
"""So much earlier than an act before it an act may be dated: it is dated when it begins, and may
have to wait then while others write."""
SEALED: Final = "seals"
"""What they call rows that were sealed."""


@dataclass(frozen=True, slots=True)
class JournalAct:
    """One act. ``at`` is in the unit's zone; ``counts`` how many rows it recorded, by kind of
    fact and ``editions``; ``digest`` 64 hex digits; ``after`` an act before it in the chain that
    is dated later than it is (None: there is none), so that a clock went back between them."""

    seq: int
    at: datetime
    author: str
    kind: str
    reason: str
    counts: Mapping[str, int]
    digest: str
    after: int | None = None

    @property
    def count(self) -> int:
        """How many rows it recorded."""
        return sum(self.counts.values())


@dataclass(frozen=True, slots=True)
class Sought:
    """Which acts: those with a text in their author, kind or reason, of a kind (empty: any), and
    from a first day through a last one, in the unit's zone (None: no bound)."""

    text: str = ""
    kind: str = ""
    first: date | None = None
    last: date | None = None

    def takes(self, act: JournalAct) -> bool:
        """Whether an act is one of those, its text aside."""
        day = act.at.date()
        return (
            (not self.kind or act.kind == self.kind)
            and (self.first is None or day >= self.first)
            and (self.last is None or day <= self.last)
        )


@dataclass(frozen=True, slots=True)
class RecordedFact:
    """A fact as an act recorded it. ``before`` is its row before the act, None where it was new;
    ``struck`` where the act struck it out; ``closed`` where what it says is not open to whoever
    is signed in, and the rows are empty."""

    kind: Kind
    key: tuple[Value, ...]
    revision: int
    struck: bool
    row: Row
    before: Row | None
    closed: bool = False


@dataclass(frozen=True, slots=True)
class SealedFacts:
    """Rows of a kind that an act sealed: how many, and the days, in the unit's zone, on which the
    first and the last of them had been recorded."""

    kind: str
    count: int
    first: date
    last: date


@dataclass(frozen=True, slots=True)
class ActDetail:
    """What one act recorded: ``total`` facts, the first of them in ``facts``, and the names of
    the editions it adopted; what it sealed; and the place in the chain of the last act that sealed
    any of what it recorded itself."""

    total: int
    facts: tuple[RecordedFact, ...]
    editions: tuple[str, ...]
    sealed: tuple[SealedFacts, ...] = ()
    sealed_by: int | None = None


def acts_back(
    office: Office, sought: Sought, before: int | None = None, most: int = 200
) -> tuple[JournalAct, ...]:
    """Up to ``most`` acts, the newest first, of those before a place in the chain (None: of
    all)."""
    with office.view() as view:
        found: list[JournalAct] = []
        for act in _all_back(view.reading, view.editions.zone, sought.text, before):
            if sought.takes(act):
                found.append(act)
                if len(found) >= most:
                    break
        return tuple(found)


@dataclass(frozen=True, slots=True)
class SetBack:
    """Acts that are dated earlier than one before them in the chain, ``after``: from the
    ``first`` of them to the ``last``, ``count`` in all."""

    after: int
    first: int
    last: int
    count: int


def clock_set_back(office: Office) -> tuple[SetBack, ...]:
    """Where a clock went back, in the order of the chain. It breaks nothing: the chain, not the
    clock, says what came first."""
    with office.record.reading() as reading:
        odd = reading.set_back(_GRACE)
    acts: dict[int, list[int]] = {}
    for seq, after in odd.items():
        acts.setdefault(after, []).append(seq)
    return tuple(SetBack(after, some[0], some[-1], len(some)) for after, some in acts.items())


def act_kinds(office: Office) -> tuple[str, ...]:
    """The kinds of act that the journal holds, in the order in which they first came."""
    with office.record.reading() as reading:
        return tuple(dict.fromkeys(act.kind for act in reading.acts()))


def act_detail(office: Office, seq: int, most: int = 200) -> ActDetail:
    """What an act recorded, with what was recorded before where it revised something."""
    with office.record.reading() as reading:
        total, rows = reading.recorded_by(seq, most)
        shut = {one.kind.name for one in rows if closed(office, reading, one.kind) is not None}
        facts = tuple(_fact(reading, one, one.kind.name in shut) for one in rows)
        editions = tuple(one.edition for one in reading.editions() if one.act == seq)
        sealed_by = last_sealing(reading.connection, seq)
        return ActDetail(total, facts, editions, _sealed(reading, seq), sealed_by)


def _sealed(reading: Reading, seq: int) -> tuple[SealedFacts, ...]:
    found = sealed_kinds(reading.connection, seq)
    if not found:
        return ()
    zone = editions_of(reading.editions()).zone
    return tuple(
        SealedFacts(
            one.kind,
            one.count,
            one.first.astimezone(zone).date(),
            one.last.astimezone(zone).date(),
        )
        for one in found
    )


def _fact(reading: Reading, one: Recorded, shut: bool) -> RecordedFact:
    if shut:
        return RecordedFact(one.kind, one.key, one.revision, one.struck, (), None, closed=True)
    before = _before(reading, one)
    return RecordedFact(one.kind, one.key, one.revision, one.struck, one.row, before)


def _before(reading: Reading, one: Recorded) -> Row | None:
    """The row of the revision before; None where there is none."""
    if one.revision == 1:
        return None
    earlier = (
        held.row for held in reading.revisions(one.kind, one.key) if held.number == one.revision - 1
    )
    return next(earlier, None)


def _all_back(
    reading: Reading, zone: ZoneInfo, text: str, before: int | None
) -> Iterator[JournalAct]:
    """All acts with a text, the newest first, read a few at a time."""
    odd = reading.set_back(_GRACE)
    while acts := reading.acts_back(before, _AT_ONCE, text):
        yield from (_told(act, zone, odd.get(act.seq)) for act in acts)
        before = acts[-1].seq


def _told(act: PastAct, zone: ZoneInfo, after: int | None) -> JournalAct:
    counts = {name: int(held["count"]) for name, held in json.loads(act.facts).items()}
    at = act.at.astimezone(zone)
    return JournalAct(
        act.seq, at, act.author, act.kind, act.reason or "", counts, act.digest, after
    )
