"""Evidence and standards from short notation, for tests.

A line tells one flight: its day (launch at noon, each line a minute later) or local instant, the
tasks done on it, and whatever else was recorded, in any order::

    2026-03-22 hand-recovery x2 drill 45min drifting night sea3 wind12
    2026-03-22T23:50 deck-launch by:K-02 under:K-09 aircraft:light-quad vessel:rib as:S-17

Performers default to ``K-01``. Sign-offs, certificates, waivers, stand-downs and assignments have
lines of their own; see the functions that read them. Spans are written ``2026-01-01..2026-02-01``,
or ``2026-01-01..`` where open.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import (
    NOT_RECORDED,
    Assignment,
    Books,
    Certificate,
    Evidence,
    Performances,
    Person,
    SignOff,
    Sorties,
    StandDown,
    Waiver,
)
from crewtrack.facts import LEVELS, LIGHTS, RELIEFS, RESULTS, WAYS

PERFORMER = "K-01"
_NUMBERS = {
    "sea": "sea",
    "wind": "wind",
    "from": "wind_from",
    "heading": "heading",
    "speed": "speed",
    "set": "set",
    "drift": "drift",
    "lat": "lat",
    "lon": "lon",
}
_NUMBER = re.compile(rf"({'|'.join(_NUMBERS)})(-?[0-9.]+)")


@dataclass(frozen=True)
class Done:
    """One person doing one task on a flight."""

    task: str
    person: str = PERFORMER
    times: int = 1
    supervisor: str | None = None


@dataclass(frozen=True)
class Flight:
    """One sortie with all that was done on it; ``launched`` is aware."""

    launched: datetime
    done: tuple[Done, ...] = ()
    key: str = ""
    minutes: int = 30
    drill: bool = False
    vessel: str | None = None
    aircraft: str | None = None
    way: int = NOT_RECORDED
    light: int = NOT_RECORDED
    numbers: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Bio:
    """What is known of one person besides the flights, in lines of notation."""

    key: str = PERFORMER
    assigned: Sequence[str] = ()
    signed: Sequence[str] = ()
    certificates: Sequence[str] = ()
    waivers: Sequence[str] = ()
    standdowns: Sequence[str] = ()
    joined: str | None = None
    left: str | None = None
    born: str | None = None


def day(text: str) -> int:
    """The ordinal of an ISO date."""
    return date.fromisoformat(text).toordinal()


def flight(line: str, zone: str = "UTC", noon_plus: int = 0) -> Flight:
    """Read one line; ``noon_plus`` minutes past noon where it has no time of day."""
    when, *words = line.split()
    told: dict[str, object] = {"times": 1, "supervisor": None, "person": PERFORMER}
    tasks: list[str] = []
    numbers: dict[str, float] = {}
    for word in words:
        if found := _NUMBER.fullmatch(word):
            numbers[_NUMBERS[found[1]]] = float(found[2])
        elif not _told(word, told):
            tasks.append(word)
    of_each = {name: told.pop(name) for name in ("person", "times", "supervisor")}
    done = tuple(Done(task, **of_each) for task in tasks)  # type: ignore[arg-type] # read above
    launched = _instant(when, ZoneInfo(zone), noon_plus)
    return Flight(launched, done, numbers=numbers, **told)  # type: ignore[arg-type] # read above


def _told(word: str, told: dict[str, object]) -> bool:
    """Take a word that says something of the flight; False if it is a task's key."""
    name, _, value = word.partition(":")
    names = {"by": "person", "under": "supervisor", "as": "key"}
    if value:
        told[names.get(name, name)] = value
    elif word == "drill":
        told["drill"] = True
    elif word in WAYS:
        told["way"] = WAYS.index(word)
    elif word in LIGHTS:
        told["light"] = LIGHTS.index(word)
    elif found := re.fullmatch(r"x([0-9]+)", word):
        told["times"] = int(found[1])
    elif found := re.fullmatch(r"([0-9]+)min", word):
        told["minutes"] = int(found[1])
    else:
        return False
    return True


def _instant(when: str, zone: ZoneInfo, noon_plus: int) -> datetime:
    if "T" in when:
        read = datetime.fromisoformat(when)
    else:
        read = datetime.fromisoformat(f"{when}T12:00") + timedelta(minutes=noon_plus)
    # In UTC: two instants of one zone would be compared by the clock on the wall.
    return (read if read.tzinfo else read.replace(tzinfo=zone)).astimezone(UTC)


def flights(lines: Iterable[str], zone: str = "UTC") -> tuple[Flight, ...]:
    """Read lines, in the order in which the flights are entered."""
    return tuple(flight(line, zone, place) for place, line in enumerate(lines))


def evidence(flown: Sequence[Flight], bios: Sequence[Bio] = (), zone: str = "UTC") -> Evidence:
    """All that is known, ready for the engine: flights by day, launch instant and key, whatever
    the order they are given in; a person for everybody named."""
    keyed = [f if f.key else replace(f, key=f"S-{i:03}") for i, f in enumerate(flown, 1)]
    local = ZoneInfo(zone)
    ordered = sorted(keyed, key=lambda f: (f.launched.astimezone(local).date(), f.launched, f.key))
    places = {f.key: place for place, f in enumerate(ordered)}
    recorded = [(places[f.key], done) for f in keyed for done in f.done]
    by_person: dict[str, list[tuple[int, int, Done]]] = {bio.key: [] for bio in bios}
    for order, (place, done) in enumerate(recorded):
        by_person.setdefault(done.person, []).append((place, order, done))
    known = {bio.key: bio for bio in bios}
    books = {
        key: _books(known.get(key, Bio(key)), _performances(by_person[key]), places)
        for key in sorted(by_person)
    }
    return Evidence(_sorties(ordered, local), books)


def _sorties(flown: Sequence[Flight], zone: ZoneInfo) -> Sorties:
    def number(name: str) -> tuple[float | None, ...]:
        return tuple(f.numbers.get(name) for f in flown)

    return Sorties(
        key=tuple(f.key for f in flown),
        day=tuple(f.launched.astimezone(zone).date().toordinal() for f in flown),
        launched=tuple(int(f.launched.astimezone(UTC).timestamp()) for f in flown),
        minutes=tuple(f.minutes for f in flown),
        drill=tuple(f.drill for f in flown),
        vessel=tuple(f.vessel for f in flown),
        aircraft=tuple(f.aircraft for f in flown),
        way=tuple(f.way for f in flown),
        light=tuple(f.light for f in flown),
        sea=tuple(int(f.numbers.get("sea", NOT_RECORDED)) for f in flown),
        lat=number("lat"),
        lon=number("lon"),
        wind_from=number("wind_from"),
        wind=number("wind"),
        heading=number("heading"),
        speed=number("speed"),
        set=number("set"),
        drift=number("drift"),
    )


def _performances(rows: list[tuple[int, int, Done]]) -> dict[str, Performances]:
    """One person's, by task; each row is (place of the sortie, place in the record, what)."""
    by_task: dict[str, list[tuple[int, int, Done]]] = {}
    for row in sorted(rows, key=lambda row: row[:2]):
        by_task.setdefault(row[2].task, []).append(row)
    return {task: _columns(some) for task, some in by_task.items()}


def _columns(rows: list[tuple[int, int, Done]]) -> Performances:
    return Performances(
        sortie=tuple(sortie for sortie, _, _ in rows),
        order=tuple(order for _, order, _ in rows),
        times=tuple(done.times for _, _, done in rows),
        supervisor=tuple(done.supervisor for _, _, done in rows),
    )


def _books(bio: Bio, performances: dict[str, Performances], places: Mapping[str, int]) -> Books:
    born = date.fromisoformat(bio.born) if bio.born else None
    joined = day(bio.joined) if bio.joined else None
    left = day(bio.left) if bio.left else None
    return Books(
        person=Person(bio.key, bio.key, joined, left, born),
        assignments=tuple(_assignment(line) for line in bio.assigned),
        performances=performances,
        signoffs=tuple(_signoff(line, i, places) for i, line in enumerate(bio.signed, 1)),
        certificates=tuple(_certificate(line, i) for i, line in enumerate(bio.certificates, 1)),
        waivers=tuple(_waiver(line, i) for i, line in enumerate(bio.waivers, 1)),
        standdowns=tuple(_standdown(line, i) for i, line in enumerate(bio.standdowns, 1)),
    )


def _span(text: str) -> tuple[int, int]:
    first, last = text.split("..")
    return day(first), day(last) if last else FOREVER


def _assignment(line: str) -> Assignment:
    """``deck-pilot 2026-01-01..``"""
    qualification, span = line.split()
    return Assignment(qualification, *_span(span))


def _signoff(line: str, place: int, places: Mapping[str, int]) -> SignOff:
    """``2024-03-10 hand-recovery [passed] [alone] [on:S-001] [withdrawn:2025-01-01] [as:E-1]
    [certified:2024-03-20] [signer:K-98]``"""
    when, task, *words = line.split()
    told = dict(word.split(":") for word in words if ":" in word)
    result = next((word for word in words if word in RESULTS), "passed")
    level = next((word for word in words if word in LEVELS), "alone")
    return SignOff(
        key=told.get("as", f"E-{place:03}"),
        task=task,
        day=day(when),
        level=LEVELS.index(level),
        result=result,
        evaluator="K-99",
        sortie=places[told["on"]] if "on" in told else None,
        withdrawn=day(told["withdrawn"]) if "withdrawn" in told else None,
        certified=day(told["certified"]) if "certified" in told else None,
        certified_by=told.get("signer"),
    )


def _certificate(line: str, place: int) -> Certificate:
    """``medical 2024-02-29 [expires:2025-02-28] [revoked:2024-06-01] [as:C-1]``"""
    kind, issued, *words = line.split()
    told = dict(word.split(":") for word in words)
    key = told.pop("as", f"C-{place:03}")
    return Certificate(key, kind, day(issued), **{name: day(text) for name, text in told.items()})


def _waiver(line: str, place: int) -> Waiver:
    """``deck-pilot recency 2026-01-01..2026-02-01 [extension] [as:W-1] [why:yard] [by:K-99]``"""
    qualification, requirement, span, *words = line.split()
    kind = next((word for word in words if word in RELIEFS), "waiver")
    key = _key(words, f"W-{place:03}")
    return Waiver(key, qualification, requirement, *_span(span), kind, *_grounds(words))


def _standdown(line: str, place: int) -> StandDown:
    """``deck-pilot 2026-01-01.. [as:D-1] [why:injury] [by:K-99]``; ``all`` for every one."""
    what, span, *words = line.split()
    key = _key(words, f"D-{place:03}")
    return StandDown(key, None if what == "all" else what, *_span(span), *_grounds(words))


def _grounds(words: list[str]) -> tuple[str, str]:
    """The reason and who decided it."""
    told = dict(word.split(":") for word in words if ":" in word)
    return told.get("why", ""), told.get("by", "")


def _key(words: list[str], default: str) -> str:
    return next((word[3:] for word in words if word.startswith("as:")), default)
