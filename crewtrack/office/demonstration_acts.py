"""How the demonstration's facts came into the record: by whom, when, in which portions.

The officer brought the first years' paper in once a year, then kept up by the quarter; a card
turned up late, a value was corrected, and a sign-off withdrawn.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from operator import itemgetter
from typing import Final

from crewtrack.facts import KINDS, PERFORMANCES, SIGNOFFS, SORTIES, Kind, Row
from crewtrack.office.demonstration_rows import ZONE, editions, generated
from crewtrack.office.demonstration_scenario import Scenario, months_after

Rows = Mapping[str, list[Row]]

_EVENING: Final = time(20, 40)
"""When the officer sits down to the record, by the clock on the wall."""
_BEFORE: Final = timedelta(days=20)
"""How long before it takes effect an edition is adopted."""
_DATED_BY: Final = {
    "people": "joined",
    "assignments": "from",
    "signoffs": "date",
    "certificates": "issued",
    "waivers": "from",
    "standdowns": "from",
}


@dataclass(frozen=True, slots=True)
class Adoption:
    """An edition was adopted; ``name`` is what it is called in faults, ``source`` its text."""

    instant: datetime
    name: str
    source: str
    reason: str | None


@dataclass(frozen=True, slots=True)
class Import:
    """Rows by kind were taken in; with a reason where they revise what the record held."""

    instant: datetime
    rows: Rows
    reason: str | None = None


def adoptions(on: date) -> tuple[Adoption, ...]:
    """Each edition, some weeks before its first day; from the second on with a reason."""
    reason: str = generated(on)[0].papers["record"]["second-reason"]
    return tuple(
        Adoption(_evening(first - _BEFORE), f"edition of {first}", text, reason if number else None)
        for number, (first, text) in enumerate(editions(on))
    )


def imports(on: date) -> tuple[Import, ...]:
    """All imports, in the order of their instants."""
    scenario, rows = generated(on)
    return tuple(sorted(_imports(scenario, rows), key=lambda one: one.instant))


def _imports(scenario: Scenario, rows: Rows) -> Iterator[Import]:
    told = scenario.papers["record"]
    plain = [months_after(scenario.start, 12 * (n + 1)) for n in range(told["yearly"])]
    plain += [scenario.before(days) for days in told["imports"]]
    first_told = _first_told(scenario, rows)
    corrected = _corrected(scenario, rows)
    since, last = date.min, scenario.before(1)
    for through in (*plain, last):
        portion = _portion(rows, first_told, (since, date.max if through == last else through))
        if through < scenario.before(told["correction"]):
            portion = _as_first_written(portion, corrected)
        yield Import(_evening(through), portion)
        since = through
    correction = scenario.before(told["correction"])
    yield Import(_evening(correction), {"sorties": [corrected]}, told["late-reason"])
    yield from _withdrawals(rows)


def _portion(
    rows: Rows, first_told: Callable[[Kind, Row], date], period: tuple[date, date]
) -> Rows:
    """What became known after the first day of the period, through the last one."""
    after, through = period
    return {
        kind.name: [
            _unwithdrawn(kind, row)
            for row in rows[kind.name]
            if after < first_told(kind, row) <= through
        ]
        for kind in KINDS
    }


def _first_told(scenario: Scenario, rows: Rows) -> Callable[[Kind, Row], date]:
    """The day from which each fact can be in an import: not before the person joined, and later
    for a card that was found late."""
    flown = {str(row[0]): _flown(row) for row in rows["sorties"]}
    told = scenario.papers["record"]
    lost = max(day for day in flown.values() if day <= scenario.before(told["late-card"]))
    found = scenario.before(told["imports"][-1])
    joined = {member.key: member.joined for member in scenario.members}
    days = {key: found if day == lost else day for key, day in flown.items()}

    def first_told(kind: Kind, row: Row) -> date:
        if kind is SORTIES or kind is PERFORMANCES:
            return days[str(row[0])]
        sortie = row[kind.index("sortie")] if kind is SIGNOFFS else None
        if sortie is not None:
            return days[str(sortie)]
        day = row[kind.index(_DATED_BY[kind.name])] if kind.name in _DATED_BY else None
        person = joined[str(row[kind.index("person")])] if "person" in kind.names else None
        return max(one for one in (day, person, scenario.start) if isinstance(one, date))

    return first_told


def _corrected(scenario: Scenario, rows: Rows) -> Row:
    """The sortie whose sea state was first written a degree too high."""
    latest = scenario.before(scenario.papers["record"]["corrected"])
    sea = SORTIES.index("sea")
    able = [row for row in rows["sorties"] if _flown(row) <= latest and row[sea] is not None]
    return max(able, key=itemgetter(SORTIES.index("launched")))


def _flown(sortie: Row) -> date:
    """The local day of a sortie's launch."""
    launched = sortie[SORTIES.index("launched")]
    assert isinstance(launched, datetime)
    return launched.date()


def _as_first_written(portion: Rows, corrected: Row) -> Rows:
    sea = SORTIES.index("sea")
    degree = corrected[sea]
    assert isinstance(degree, int)
    wrong: Row = (*corrected[:sea], degree + 1, *corrected[sea + 1 :])
    sorties = [wrong if row is corrected else row for row in portion["sorties"]]
    return {**portion, "sorties": sorties}


def _unwithdrawn(kind: Kind, row: Row) -> Row:
    """A sign-off as it stood before it was withdrawn."""
    if kind is not SIGNOFFS:
        return row
    first = SIGNOFFS.index("withdrawn")
    return (*row[:first], *(None for _ in row[first:]))


def _withdrawals(rows: Rows) -> Iterator[Import]:
    for row in rows["signoffs"]:
        day = row[SIGNOFFS.index("withdrawn")]
        if isinstance(day, date):
            reason = str(row[SIGNOFFS.index("withdrawn_reason")])
            yield Import(_evening(day), {"signoffs": [row]}, reason)


def _evening(day: date) -> datetime:
    return datetime.combine(day, _EVENING, ZONE)
