"""Retention: how long the unit keeps what is recorded, by which rule, and what is past that."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Final

from crewtrack.engine.days import Duration, Horizon
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.facts import POLICIES, SORTIES
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office, Progress, View, silent
from crewtrack.office.recording import record
from crewtrack.office.resting import spared
from crewtrack.phrases import later, phrase
from crewtrack.records.aging import Aged, Aging, FactName, aging
from crewtrack.records.finding import find
from crewtrack.records.journal import Head
from crewtrack.records.reading import Reading
from crewtrack.records.sealing import sealed_facts

POLICY: Final = "retention"
"""The key of the policy that names the period."""
ACT: Final = "policy"
"""The kind of the act that names it."""
FEW_SORTIES, FEW_PAST = 5_000, 100
"""With up to so many sorties, and facts past the period, what standings rest on is found before
anybody notices."""


@dataclass(frozen=True, slots=True)
class Retention:
    """What the unit has decided: ``period`` as it was written ("P5Y"), and the rule it follows.
    ``revision`` is the number of the revision that says so."""

    period: str
    rule: str
    revision: int = 1

    def cutoff(self, today: int) -> int:
        """The first day that is not past the period."""
        horizon = Horizon(Duration.parse(self.period))
        return horizon.earliest(today) or today


@dataclass(frozen=True, slots=True)
class PastFact:
    """One fact that is past retention, with all that goes with it: ``count`` facts. ``person``
    whose it is, if anybody's; ``last`` the last day on which it mattered; ``why`` it can't be
    sealed, empty where it can."""

    kind: str
    key: str
    person: str | None
    last: date
    count: int
    why: str = ""
    entries: Mapping[str, tuple[int, ...]] = field(default_factory=dict, repr=False)


@dataclass(frozen=True, slots=True)
class Past:
    """What is past retention: all that last mattered before ``cutoff``, the oldest first, in the
    record through ``head``."""

    retention: Retention
    cutoff: date
    head: Head
    facts: tuple[PastFact, ...]

    @property
    def sealable(self) -> tuple[PastFact, ...]:
        """Those that can be sealed."""
        return tuple(one for one in self.facts if not one.why)


@dataclass(frozen=True, slots=True)
class RetentionTold:
    """For a page: ``past`` facts are past retention, ``needed`` of them are still needed (None
    where that takes too long to find out); ``sealed`` facts have been sealed so far."""

    retention: Retention | None
    past: int
    needed: int | None
    sealed: int


def retention_of(reading: Reading) -> Retention | None:
    """What the unit has decided; None where it has named no period."""
    held = find(reading, POLICIES, (POLICY,))
    if held is None or held.struck:
        return None
    period, rule = str(held.row[1]), str(held.row[2] or "")
    if _period_faults(period):
        told = phrase("the record's retention period {period} can't be read", period=repr(period))
        raise RecordUnusable(told)
    return Retention(period, rule, held.number)


def named_period(office: Office) -> Retention | None:
    """The same of a record as it stands."""
    with office.record.reading() as reading:
        return retention_of(reading)


def name_period(office: Office, period: str, rule: str, order: Order) -> Changes:
    """Name the period, or another one: an ISO 8601 duration of whole months or years, and the
    rule that asks for it. A chief does it, with ``access.signing`` around, where people sign in;
    to change it takes a reason."""
    period, rule = period.strip(), rule.strip()
    faults = _period_faults(period)
    if not rule:
        cure = phrase("name the regulation and its section, or the unit's own decision")
        faults.append(Fault("", "rule", phrase("the rule that it follows is missing"), cure))
    if faults:
        raise Refused(*faults)
    with office.record.reading() as reading:
        held = find(reading, POLICIES, (POLICY,))
    revision = None if held is None or held.struck else held.number
    entry = Entry(POLICIES, (POLICY, period, rule), revision)
    try:
        return record(office, [entry], replace(order, act_kind=ACT))
    except Refused as refused:
        columns = {"value": "period"}
        raise Refused(
            *(replace(one, place="", field=columns.get(one.field, one.field))
              for one in refused.faults)
        ) from refused  # fmt: skip


def _period_faults(period: str) -> list[Fault]:
    problem = phrase("{period} is no period in months or years", period=repr(period))
    try:
        read = Duration.parse(period)
    except ValueError as error:
        return [Fault("", "period", problem, str(error))]
    if read.days:
        return [Fault("", "period", problem, phrase("write whole months or years: P18M, P5Y"))]
    return []


def past(
    office: Office, wanted: Collection[FactName] | None = None, progress: Progress = silent
) -> Past:
    """What is past the period, and of each whether it can be sealed: all of what can, together.
    Where only some facts (kinds' names and keys) are ``wanted``, all others count as staying.

    Refused where no period is named. ``progress`` may break it off.
    """
    with office.view() as view:
        held = retention_of(view.reading)
        if held is None:
            problem = phrase("the unit has named no retention period")
            raise Refused(Fault("", "period", problem, phrase("name one, and its rule, first")))
        found, cutoff = _aging(view, held)
        if wanted is not None:
            found = _only(found, frozenset(wanted))
        why: Mapping[FactName, str] = {}
        if found.past:
            progress(later("reading"), 0, 0)
            why = spared(view.reckoning(), found, cutoff, progress)
    facts = [_told(one, why) for one in found.past]
    facts.sort(key=lambda one: (one.last, one.kind, one.key))
    return Past(held, date.fromordinal(cutoff), view.head, tuple(facts))


def _aging(view: View, held: Retention) -> tuple[Aging, int]:
    cutoff = held.cutoff(view.today.toordinal())
    return aging(view.reading, view.editions.zone, cutoff), cutoff


def _only(found: Aging, wanted: frozenset[FactName]) -> Aging:
    """Some of it, as if all else had to stay."""
    going = tuple(one for one in found.past if (one.kind, one.key) in wanted)
    left = (one for one in found.past if (one.kind, one.key) not in wanted)
    by_left = {to: (one.kind, one.key) for one in left for to in one.names}
    return Aging(going, {**by_left, **found.staying})


def _told(one: Aged, why: Mapping[FactName, str]) -> PastFact:
    told = why.get((one.kind, one.key), "")
    return PastFact(one.kind, one.key, one.person, one.last, one.count, told, one.entries)


def retention_told(office: Office) -> RetentionTold:
    """The same for a page, soon enough for one."""
    with office.view() as view:
        held = retention_of(view.reading)
        sealed = sealed_facts(view.reading.connection)
        if held is None:
            return RetentionTold(None, 0, None, sealed)
        found, cutoff = _aging(view, held)
        count = sum(one.count for one in found.past)
        if not count or count > FEW_PAST or view.reading.count(SORTIES) > FEW_SORTIES:
            return RetentionTold(held, count, None if count else 0, sealed)
        why = spared(view.reckoning(), found, cutoff, silent)
    needed = sum(one.count for one in found.past if (one.kind, one.key) in why)
    return RetentionTold(held, count, needed, sealed)
