"""What an act is going to write, checked against the record."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.errors import Fault
from crewtrack.facts import DISPUTES, RECORDED, Kind, Row
from crewtrack.office.disputed_facts import disputed_faults
from crewtrack.office.entries import (
    Entry,
    Strike,
    checked,
    fault_place,
    named,
    strike_place,
)
from crewtrack.office.given_rows import FactKey, FormRows
from crewtrack.office.references import References
from crewtrack.phrases import count_of, joined, phrase
from crewtrack.records.acting import Act
from crewtrack.records.finding import find, referring
from crewtrack.records.reading import Current
from crewtrack.records.stored import layout

_TOLD: Final = 5


@dataclass(frozen=True, slots=True)
class Step:
    """One fact that an act writes: a new one where none is ``held``, one that is corrected (or
    brought back, where it was struck out), or one that is struck out, which has no ``row``."""

    place: str
    kind: Kind
    held: Current | None
    row: Row | None

    @property
    def new(self) -> bool:
        """Whether the fact is not there yet, or no longer."""
        return self.held is None or self.held.struck

    @property
    def rows(self) -> tuple[Row, ...]:
        """The fact as it is on record, and as it will be."""
        held = None if self.held is None else self.held.row
        return tuple(row for row in (held, self.row) if row is not None)


@dataclass(slots=True)
class Draft:
    """All that is going to be written, what was refused, and every fault found so far."""

    act: Act
    zone: ZoneInfo
    steps: list[Step] = field(default_factory=list)
    refused: list[Step] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    _given: dict[tuple[str, FactKey], str] = field(default_factory=dict)

    def take(self, entry: Entry, place: str) -> None:
        """Check one entry by itself and against the fact that it is about."""
        kind, held = entry.kind, None
        row, faults, unread = checked(kind, entry.row, self.zone, place)
        if unread.isdisjoint(kind.key):
            key = layout(kind).key_of(row)
            held = find(self.act, kind, key)
            faults += self._repeated(kind, key, place)
            faults += self._contradicted(entry, key, held, place)
        self._put(Step(place, kind, held, row), faults)

    def strike(self, strike: Strike, place: str) -> None:
        """Check that a fact is there to be struck out, and is the one that was seen."""
        kind, key = strike.kind, strike.key
        held = find(self.act, kind, key)
        faults = self._repeated(kind, key, place)
        if held is None:
            faults.append(_not_there(kind, key, place))
        elif held.struck or held.number != strike.revision:
            faults.append(self._overtaken(kind, key, place))
        self._put(Step(place, kind, held, None), faults)

    def check_references(self) -> None:
        """Find what leads nowhere, and what would after a strike."""
        given = [step for step in (*self.steps, *self.refused) if step.row is not None]
        sheets = [sheet for kind in RECORDED if (sheet := _sheet(kind, given)).rows]
        struck = [step for step in self.steps if step.row is None and len(step.kind.key) == 1]
        gone = {
            kind.name: [row[0] for step in struck if step.kind is kind for row in step.rows]
            for kind in RECORDED
        }
        references = References(self.act, sheets, gone, _in_form)
        for sheet in sheets:
            self.faults += references.faults(sheet)
        for step in struck:
            self.faults += self._still_named(step)
        for step in self.steps:
            if step.kind is DISPUTES and step.new and step.row is not None:
                self.faults += disputed_faults(self.act, step.row, step.place)

    def sheet(self, kind: Kind) -> FormRows:
        """The rows of a kind that are going to be written."""
        return _sheet(kind, self.steps)

    def _put(self, step: Step, faults: Sequence[Fault]) -> None:
        self.faults += faults
        if faults:
            self.refused.append(step)
        elif step.new or (step.held and step.held.row != step.row):
            self.steps.append(step)

    def _repeated(self, kind: Kind, key: FactKey, place: str) -> list[Fault]:
        earlier = self._given.setdefault((kind.name, key), place)
        if earlier == place:
            return []
        problem = phrase(
            "{fact} is given already, as {place}", fact=named(kind, key), place=earlier
        )
        return [Fault(place, kind.key[-1], problem, phrase("keep one of the two"))]

    def _contradicted(
        self, entry: Entry, key: FactKey, held: Current | None, place: str
    ) -> list[Fault]:
        """Why an entry can't be taken, by what the record holds under its key. A new fact may
        have the key of one that is struck out: then that is brought back."""
        if held is None:
            return [] if entry.revision is None else [_not_there(entry.kind, key, place)]
        if entry.revision is not None:
            overtaken = entry.revision != held.number
            return [self._overtaken(entry.kind, key, place)] if overtaken else []
        if held.struck:
            return []
        problem = phrase("{fact} is recorded already", fact=named(entry.kind, key))
        cure = phrase("correct that one, or give this one another key")
        return [Fault(place, entry.kind.key[-1], problem, cure)]

    def _overtaken(self, kind: Kind, key: FactKey, place: str) -> Fault:
        """Somebody else was faster."""
        last = self.act.revisions(kind, key)[-1]
        at = last.act.at.astimezone(self.zone).isoformat(" ", "minutes")
        values = {"author": last.act.author, "fact": named(kind, key), "instant": at}
        problem = (
            phrase("{author} struck out {fact} meanwhile, at {instant}", **values)
            if last.struck
            else phrase("{author} changed {fact} meanwhile, at {instant}", **values)
        )
        cure = phrase("look at what it says now, and change that")
        return Fault(place, kind.key[-1], problem, cure)

    def _still_named(self, struck: Step) -> list[Fault]:
        """What refers to a fact, save what this act strikes out or writes anew."""
        written = {(step.kind.name, step.held.entry) for step in self.steps if step.held}
        left = dict.fromkeys(
            named(kind, layout(kind).key_of(held.row))
            for row in struck.rows
            for kind, held in referring(self.act, struck.kind, str(row[0]))
            if (kind.name, held.entry) not in written
        )
        if not left:
            return []
        problem = count_of(
            len(left), "{facts} refers to it", "{facts} refer to it", facts=_few(tuple(left))
        )
        cure = phrase("strike that out too, or correct it first")
        return [Fault(struck.place, struck.kind.key[0], problem, cure)]


def drafted(act: Act, given: Iterable[Entry | Strike], zone: ZoneInfo) -> Draft:
    """All that is given, checked; instants without an offset are in ``zone``. Faults come in the
    order in which it was given."""
    draft = Draft(act, zone)
    counts: Counter[tuple[type, str]] = Counter()
    places: dict[str, int] = {}
    for each in given:
        counted = (type(each), each.kind.name)
        counts[counted] += 1
        if isinstance(each, Entry):
            place = fault_place(each.kind, counts[counted])
            draft.take(each, place)
        else:
            place = strike_place(each.kind, counts[counted])
            draft.strike(each, place)
        places[place] = len(places)
    draft.check_references()
    draft.faults.sort(key=lambda fault: places[fault.place])
    return draft


def _sheet(kind: Kind, steps: Iterable[Step]) -> FormRows:
    found = [(step.row, step.place) for step in steps if step.kind is kind and step.row is not None]
    return FormRows(kind, tuple(row for row, _ in found), tuple(place for _, place in found))


def _not_there(kind: Kind, key: FactKey, place: str) -> Fault:
    problem = phrase("no {fact} is recorded", fact=named(kind, key))
    cure = phrase("a key stays: record a new one, strike out the old")
    return Fault(place, kind.key[-1], problem, cure)


def _in_form(_: str) -> str:
    return phrase("choose one that is there, or record it first")


def _few(names: Sequence[str]) -> str:
    first = joined(", ", names[:_TOLD])
    if len(names) <= _TOLD:
        return first
    return phrase("{some} and {count} more", some=first, count=len(names) - _TOLD)
