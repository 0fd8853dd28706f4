"""The demonstration unit as its scenario file describes it, set around one day.

The file (assets/demo/scenario.toml) counts in days before the day that the demonstration is made
for; here they have become calendar dates.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from crewtrack.engine.days import Duration
from crewtrack.office.shipped import shipped

YEARS_OF_SORTIES = 3
COURSE = timedelta(days=24)
"""How long the opening course lasts, with the visiting evaluator aboard."""

PAPERS = ("ends", "signoffs", "waivers", "extension", "standdowns", "record")
Period = tuple[date, date | None]


@dataclass(frozen=True, slots=True)
class Assigned:
    """A qualification that somebody is to hold, from a day, perhaps through one."""

    qualification: str
    first: date
    last: date | None


@dataclass(frozen=True, slots=True)
class Member:
    """One of the people. ``attendance`` is how many of ten training days; ``seats`` maps a seat
    to the closed period in which it is taken; ``unsigned`` are qualifications nobody has signed
    for, ``unrenewed`` those signed for only once."""

    key: str
    name: str
    born: date
    email: str
    duties: tuple[str, ...]
    joined: date | None
    left: date | None
    attendance: int
    away: tuple[Period, ...]
    seats: Mapping[str, Period]
    assigned: tuple[Assigned, ...]
    unsigned: tuple[str, ...]
    unrenewed: tuple[str, ...]

    def sits(self, seat: str, day: date) -> bool:
        """Whether this is one of the person's seats on a day."""
        period = self.seats.get(seat)
        return period is not None and within(period, day)

    def holds(self, qualification: str, day: date) -> bool:
        """Whether the person is assigned to a qualification on a day."""
        return any(
            one.qualification == qualification and within((one.first, one.last), day)
            for one in self.assigned
        )


@dataclass(frozen=True, slots=True)
class Evaluations:
    """The sign-offs that a qualification takes, renewed ``every`` so many months (0: once)."""

    qualification: str
    tasks: tuple[str, ...]
    want: str | None
    every: int


@dataclass(frozen=True, slots=True)
class Failure:
    """An evaluation that somebody did not pass."""

    person: str
    task: str
    want: str
    day: date


@dataclass(frozen=True, slots=True)
class CertificateKind:
    """A certificate, and who keeps it: those in one of ``seats`` or assigned to ``duty``."""

    kind: str
    prefix: str
    months: int
    expires: bool
    seats: tuple[str, ...]
    duty: str | None


@dataclass(frozen=True, slots=True)
class Craft:
    """A boat or an aircraft; ``size`` is its length in metres or its mass in kilograms."""

    key: str
    name: str
    kind: str
    size: float


@dataclass(frozen=True, slots=True)
class Scenario:
    """Everything the generator is given. ``start`` is the first training day, ``second`` the
    first day of the second edition; ``wind`` and ``dark`` are by month, January first;
    ``papers`` is what the file says of papers and of the record, in its own words."""

    on: date
    start: date
    second: date
    officer: Member
    chief: Member
    members: tuple[Member, ...]
    vessels: tuple[Craft, ...]
    aircraft: tuple[Craft, ...]
    evaluations: tuple[Evaluations, ...]
    failures: tuple[Failure, ...]
    certificates: tuple[CertificateKind, ...]
    harbour: tuple[float, float]
    wind: tuple[float, ...]
    dark: tuple[float, ...]
    words: Mapping[str, tuple[str, ...]]
    papers: Mapping[str, Any]

    def before(self, days: int) -> date:
        """The day so many days before the one that the demonstration is made for."""
        return self.on - timedelta(days=days)


def within(period: Period, day: date) -> bool:
    """Whether a day lies in a closed period; None is open."""
    return period[0] <= day and (period[1] is None or day <= period[1])


def frozen(day: date) -> bool:
    """Whether the harbour is closed by ice: 16 January to 27 March."""
    return (1, 16) <= (day.month, day.day) <= (3, 27)


def months_after(day: date, months: int) -> date:
    """The same day so many months on, or that month's last where it has no such day; a negative
    number goes back."""
    index = day.year * 12 + day.month - 1 + months
    first = date(index // 12, index % 12 + 1, 1)
    return min(first + timedelta(days=day.day - 1), _month_last(first))


def _month_last(first: date) -> date:
    return date.fromordinal(Duration(months=1).after(first.toordinal()) - 1)


def first_training_day(on: date) -> date:
    """Three years before, or sooner where ice would spoil the opening course."""
    start = months_after(on, -12 * YEARS_OF_SORTIES)
    if frozen(start) or frozen(start + COURSE):
        return date(start.year - (start.month < 12), 12, 1)
    return start


def second_edition_day(on: date) -> date:
    """The latest first of January or of July that is at least 200 days past."""
    latest = on - timedelta(days=200)
    return date(latest.year, 7 if latest.month >= 7 else 1, 1)


def read_scenario(on: date) -> Scenario:
    """The scenario set around a day."""
    raw = tomllib.loads(shipped("demo", "scenario.toml").read_text(encoding="utf-8"))
    start = first_training_day(on)
    days = {"start": start, "course": start + COURSE, "second": second_edition_day(on)}
    domain = raw["unit"]["domain"]
    members = tuple(_member(one, on, days, domain) for one in raw["people"])
    by_key = {member.key: member for member in members}
    return Scenario(
        on,
        days["start"],
        days["second"],
        by_key[raw["unit"]["officer"]],
        by_key[raw["unit"]["chief"]],
        members,
        tuple(Craft(c["vessel"], c["name"], c["kind"], c["length_m"]) for c in raw["vessels"]),
        tuple(Craft(c["aircraft"], c["name"], c["kind"], c["mass_kg"]) for c in raw["aircraft"]),
        tuple(_evaluations(one) for one in raw["evaluations"]),
        tuple(
            Failure(one["person"], one["task"], one["want"], on - timedelta(days=one["day"]))
            for one in raw["failures"]
        ),
        tuple(_certificate(one) for one in raw["certificates"]),
        (raw["unit"]["harbour"]["lat"], raw["unit"]["harbour"]["lon"]),
        tuple(raw["weather"]["wind"]),
        tuple(raw["weather"]["dark"]),
        {name: tuple(words) for name, words in raw["words"].items()},
        {name: raw[name] for name in PAPERS},
    )


def _member(raw: Mapping[str, Any], on: date, days: Mapping[str, date], domain: str) -> Member:
    def day(told: int | str) -> date:
        return days[told] if isinstance(told, str) else on - timedelta(days=told)

    visiting = raw.get("visiting", False)
    joined = day(raw.get("joined", "start"))
    since, until = raw.get("seat_from", {}), raw.get("seat_until", {})
    return Member(
        key=raw["person"],
        name=raw["name"],
        born=on - timedelta(days=round(raw["age"] * 365.2425) + 3 * raw["age"]),
        email=f"{raw['person'].lower()}@{domain}",
        duties=tuple(raw["duties"]),
        joined=None if visiting else joined,
        left=days["course"] if visiting else None,
        attendance=raw["attendance"],
        away=tuple((day(first), day(last)) for first, last in raw.get("away", ())),
        seats={
            seat: (
                day(since[seat]) if seat in since else joined,
                day(until[seat]) if seat in until else None,
            )
            for seat in raw["seats"]
        },
        assigned=tuple(
            Assigned(one[0], day(one[1]), day(one[2]) if len(one) > 2 else None)
            for one in raw["assigned"]
        ),
        unsigned=tuple(raw.get("unsigned", ())),
        unrenewed=tuple(raw.get("unrenewed", ())),
    )


def _evaluations(raw: Mapping[str, Any]) -> Evaluations:
    return Evaluations(
        raw["qualification"], tuple(raw["tasks"]), raw.get("want"), raw.get("every", 0)
    )


def _certificate(raw: Mapping[str, Any]) -> CertificateKind:
    return CertificateKind(
        raw["kind"],
        raw["prefix"],
        raw["months"],
        raw.get("expires", False),
        tuple(raw.get("seats", ())),
        raw.get("duty"),
    )
