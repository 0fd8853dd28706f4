"""The demonstration unit's papers, as rows: people, craft, assignments, certificates, waivers,
stand-downs, and the sign-offs that no training day brings."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from random import Random
from typing import Any

from crewtrack.facts import DUTIES, SIGNOFFS, Row
from crewtrack.office.demonstration_scenario import (
    CertificateKind,
    Member,
    Scenario,
    months_after,
)


def people(scenario: Scenario) -> list[Row]:
    """Everybody, in the order of the scenario."""
    return [
        (one.key, one.name, one.joined, one.left, one.born, one.email, _in_order(one.duties))
        for one in scenario.members
    ]


def _in_order(duties: Sequence[str]) -> tuple[str, ...]:
    return tuple(duty for duty in DUTIES if duty in duties)


def assignments(scenario: Scenario) -> list[Row]:
    """Who is to hold what."""
    return [
        (member.key, one.qualification, one.first, one.last)
        for member in scenario.members
        for one in member.assigned
    ]


def vessels(scenario: Scenario) -> list[Row]:
    """The boats."""
    return [(one.key, one.name, one.kind, one.size) for one in scenario.vessels]


def aircraft(scenario: Scenario) -> list[Row]:
    """The aircraft."""
    return [(one.key, one.name, one.kind, one.size) for one in scenario.aircraft]


def certificates(scenario: Scenario, chance: Random) -> list[Row]:
    """Each person's certificates of each kind, in the order of issue."""
    rows: list[Row] = []
    for member in scenario.members:
        for kind in scenario.certificates:
            if not _keeps(member, kind):
                continue
            periods = sorted(
                (issued, expires)
                for issued, expires in _periods(member, kind, scenario, chance)
                if member.left is None or issued <= member.left
            )
            for number, (issued, expires) in enumerate(periods, start=1):
                key = f"{kind.prefix}-{member.key[2:]}-{number}"
                serial = f"{kind.prefix} {chance.randrange(10_000, 99_999)}"
                rows.append((key, member.key, kind.kind, issued, expires, None, serial))
    return rows


def _keeps(member: Member, kind: CertificateKind) -> bool:
    duties = {one.qualification for one in member.assigned}
    return any(seat in member.seats for seat in kind.seats) or kind.duty in duties


def _periods(
    member: Member, kind: CertificateKind, scenario: Scenario, chance: Random
) -> Iterator[tuple[date, date | None]]:
    """Backwards from the last one: each issued a few weeks before the next one down ends."""
    if not kind.months:
        since = min(member.seats[seat][0] for seat in kind.seats if seat in member.seats)
        yield since - timedelta(days=12), None
        return
    joined = member.joined or scenario.start
    ends = scenario.on + timedelta(days=60 + chance.randrange(30 * kind.months - 90))
    for told in scenario.papers["ends"]:
        if (told["person"], told["kind"]) == (member.key, kind.kind):
            ends = scenario.before(told["day"])
            if "renewed" in told:
                renewed = scenario.before(told["renewed"])
                yield renewed, months_after(renewed, kind.months)
    while True:
        issued = months_after(ends, -kind.months)
        yield issued, ends if kind.expires else None
        if issued < joined:
            return
        ends = issued + timedelta(days=5 + chance.randrange(40))


def signoffs(scenario: Scenario, made: Sequence[Row]) -> list[Row]:
    """Those that training brought and the others, by date, with their keys."""
    date_column = SIGNOFFS.index("date")
    told = [_signoff(one, scenario) for one in scenario.papers["signoffs"]]
    by_date = sorted((*made, *told), key=lambda row: str(row[date_column]))
    return [(f"E-{number:03}", *row[1:]) for number, row in enumerate(by_date, start=1)]


def _signoff(told: Mapping[str, Any], scenario: Scenario) -> Row:
    withdrawn = scenario.before(told["withdrawn"]) if "withdrawn" in told else None
    return (
        "",
        told["person"],
        told["task"],
        scenario.before(told["day"]),
        "alone",
        "passed",
        told["evaluator"],
        None,
        told["remarks"],
        withdrawn,
        told.get("by"),
        told.get("reason"),
    )


def waivers(scenario: Scenario, signed: Sequence[Row]) -> list[Row]:
    """The waivers, and the extension of a yearly evaluation from the day after it ran out."""
    rows: list[Row] = [
        (
            *(one["waiver"], one["person"], one["qualification"], one["requirement"]),
            *(scenario.before(one["from"]), scenario.before(one["through"])),
            *(one["reason"], one["by"], "waiver"),
        )
        for one in scenario.papers["waivers"]
    ]
    told = scenario.papers["extension"]
    passed = _last_pass(told["person"], told["task"], signed)
    return [
        *rows,
        (
            *(told["waiver"], told["person"], told["qualification"], told["requirement"]),
            months_after(passed, told["months"]).replace(day=1),
            scenario.before(told["through"]),
            *(told["reason"], told["by"], "extension"),
        ),
    ]


def _last_pass(person: str, task: str, signed: Sequence[Row]) -> date:
    who, what, level, result = map(SIGNOFFS.index, ("person", "task", "level", "result"))
    passes = [
        row[SIGNOFFS.index("date")]
        for row in signed
        if (row[who], row[what], row[result]) == (person, task, "passed")
        and row[level] in ("alone", "evaluator")
    ]
    last = passes[-1]
    assert isinstance(last, date)
    return last


def standdowns(scenario: Scenario) -> list[Row]:
    """The stand-downs, past and present."""
    return [
        (
            *(one["standdown"], one["person"], one.get("qualification")),
            scenario.before(one["from"]),
            scenario.before(one["through"]) if "through" in one else None,
            *(one["reason"], one["by"]),
        )
        for one in scenario.papers["standdowns"]
    ]
