"""Recording: facts taken in, corrected and struck out by hand. One call is one act, all of it or
nothing, every fault told."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Editions
from crewtrack.errors import Fault, Refused
from crewtrack.facts import (
    AIRCRAFT,
    CERTIFICATIONS,
    RECORDED,
    SIGNOFFS,
    SORTIES,
    VESSELS,
    WAIVERS,
    Kind,
    Row,
)
from crewtrack.office.changes import Change, Changes, changed_standings
from crewtrack.office.drafting import Draft, Step, drafted
from crewtrack.office.duties import Written
from crewtrack.office.entries import Entry, Order, Strike, ordered
from crewtrack.office.office import Office, editions_of
from crewtrack.office.reliefs import relief_faults
from crewtrack.office.rights import demand_for
from crewtrack.phrases import phrase
from crewtrack.records.acting import Act
from crewtrack.records.evidence_of import evidence_of
from crewtrack.records.finding import find, people_of
from crewtrack.records.reading import Current

_FLOWN: Final = (SORTIES, VESSELS, AIRCRAFT)
"""What stands in people's books by way of sorties."""


def record(office: Office, given: Sequence[Entry | Strike], order: Order) -> Changes:
    """Record facts, corrections and strikes in one act, and say what that changed.

    Refused lists every fault, at ``fault_place`` or ``strike_place`` of what it is in, or at no
    place where it is in the order. What is recorded just so already is passed over; where that
    is all, nothing is written.
    """
    order, faults = ordered(order, office.zone())
    instant = office.clock()
    with office.record.act(order.act_kind, order.author, instant, order.reason) as act:
        editions = editions_of(act.editions())
        draft = drafted(act, given, editions.zone)
        faults += _unexplained(draft, order) + draft.faults
        if faults:
            raise Refused(*faults)
        if not draft.steps:
            return Changes()
        demand_for(office, act, order.author, [_written_of(step) for step in draft.steps])
        people = _touched(act, draft.steps)
        _write(act, draft.steps)
        _check_reliefs(act, draft, editions)
        today = instant.astimezone(editions.zone).date()
        standings = _standings(office, act, people, editions, today)
    past = act.past
    return Changes(
        past.digest if past else None,
        past.seq if past else None,
        _counted(step for step in draft.steps if step.new),
        _counted(step for step in draft.steps if step.row is not None and not step.new),
        _counted(step for step in draft.steps if step.row is None),
        tuple(sorted(people)),
        standings,
    )


def _written_of(step: Step) -> Written:
    """What a step writes, as rights are asked about it."""
    before = None if step.held is None or step.held.struck else step.held.row
    return Written(step.kind, before, step.row, step.place)


def _unexplained(draft: Draft, order: Order) -> list[Fault]:
    known = [step.held for step in draft.steps if step.held is not None]
    if order.reason is not None or not known:
        return []
    if all(held.struck for held in known):
        problem = phrase("bringing back what was struck out needs a reason")
        cure = phrase("say why, or give the new one another key")
        return [Fault("", "reason", problem, cure)]
    problem = phrase("a correction needs a reason")
    return [Fault("", "reason", problem, phrase("say why it changes"))]


def _write(act: Act, steps: Sequence[Step]) -> None:
    """What is referred to comes before what refers to it, and goes after it."""
    for kind in RECORDED:
        act.add(kind, [row for row, held in _written(kind, steps) if held is None])
        revised = [(held, row) for row, held in _written(kind, steps) if held is not None]
        act.revise(kind, [(held.entry, held.number, row) for held, row in revised])
    for kind in reversed(RECORDED):
        struck = [one.held for one in steps if one.kind is kind and one.row is None and one.held]
        act.strike(kind, [(held.entry, held.number) for held in struck])


def _written(kind: Kind, steps: Sequence[Step]) -> Iterator[tuple[Row, Current | None]]:
    return ((step.row, step.held) for step in steps if step.kind is kind and step.row is not None)


def _check_reliefs(act: Act, draft: Draft, editions: Editions) -> None:
    """Waivers and extensions are judged on the record as it would be after the act."""
    sheet = draft.sheet(WAIVERS)
    if not sheet.rows:
        return
    people = {str(row[WAIVERS.index("person")]) for row in sheet.rows}
    (evidence,) = evidence_of(act, people, editions.zone, act.seq)
    faults = relief_faults(sheet, range(len(sheet.rows)), evidence, editions)
    if faults:
        raise Refused(*faults)


def _standings(
    office: Office, act: Act, people: Iterable[str], editions: Editions, today: date
) -> tuple[Change, ...]:
    """What the act, which is written but not chained yet, does to people's standings."""
    some = frozenset(people)
    before = office.known(act.before)
    seqs = (act.seq,) if before is not None else (act.seq - 1, act.seq)
    reckoned = [Reckoning(one, editions) for one in evidence_of(act, some, editions.zone, *seqs)]
    return changed_standings(before or reckoned[0], reckoned[-1], some, today)


def _touched(act: Act, steps: Iterable[Step]) -> frozenset[str]:
    """Everybody whose books the act changes; to be asked before it is written."""
    found: set[str] = set()
    for step in steps:
        if "person" in step.kind.names:
            person = step.kind.index("person")
            found.update(str(row[person]) for row in step.rows)
        if step.kind is CERTIFICATIONS:
            found |= {_signed_off(act, row) for row in step.rows}
        if step.kind in _FLOWN and step.held is not None:
            found |= people_of(act, step.kind, str(step.held.row[0]))
    return frozenset(found)


def _signed_off(act: Act, certification: Row) -> str:
    """Whose sign-off a certification is of."""
    held = find(act, SIGNOFFS, (certification[CERTIFICATIONS.index("signoff")],))
    return "" if held is None else str(held.row[SIGNOFFS.index("person")])


def _counted(steps: Iterable[Step]) -> Mapping[str, int]:
    return dict(Counter(step.kind.name for step in steps))
