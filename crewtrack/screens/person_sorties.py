"""One person's sorties: what was done on each, how often, under whom, and in which conditions."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from crewtrack.engine.conditions import Conditions
from crewtrack.engine.evidence import NOT_RECORDED, Books, Evidence
from crewtrack.engine.standard import Standard
from crewtrack.facts import LIGHTS, PERFORMANCES, WAYS, Row
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import count_of, say
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class Part:
    """One task on a sortie."""

    task: str
    title: str
    times: int
    supervisor: str | None


@dataclass(frozen=True, slots=True)
class SortieLine:
    """One sortie: its place in the evidence, its key, its day, the clock at launch in the unit's
    zone; ``later`` where it is dated after the day."""

    place: int
    key: str
    day: date
    clock: str
    minutes: int
    drill: bool
    parts: tuple[Part, ...]
    later: bool


@dataclass(frozen=True, slots=True)
class Seen:
    """What the lines are read from: the evidence, the standard in effect, the unit's zone."""

    evidence: Evidence
    standard: Standard
    zone: ZoneInfo


Counted = tuple[int | None, int | None]
"""Attempts and wave-offs, None where not recorded."""
Counts = Callable[[str, str], Counted]
"""The same by the keys of a sortie and a task."""


def counted_in(row: Row) -> Counted:
    """What a performance says of attempts and wave-offs."""
    attempts, waveoffs = (row[PERFORMANCES.index(name)] for name in ("attempts", "waveoffs"))
    return _whole(attempts), _whole(waveoffs)


def sortie_lines(seen: Seen, books: Books, on: date) -> tuple[SortieLine, ...]:
    """A person's sorties, the newest first."""
    done: dict[int, list[Part]] = {}
    for task, performed in books.performances.items():
        title = seen.standard.tasks[task].title if task in seen.standard.tasks else task
        columns = (performed.sortie, performed.times, performed.supervisor)
        for place, times, supervisor in zip(*columns, strict=True):
            done.setdefault(place, []).append(Part(task, title, times, supervisor))
    return tuple(_line(seen, place, tuple(done[place]), on) for place in sorted(done, reverse=True))


def sortie_table(
    lines: tuple[SortieLine, ...], seen: Seen, names: Mapping[str, str], counts: Counts
) -> Table:
    """The sorties as a table; conditions and counts are asked of the rows that are looked at."""
    conditions = Conditions(seen.evidence.sorties, seen.standard)
    stands = TableColumn(say("On the day"), _stands, order=lambda line: line.later)
    columns = (
        TableColumn(say("Date"), lambda line: str(line.day), order=lambda line: -line.place),
        TableColumn(say("Launched"), lambda line: line.clock),
        TableColumn(
            say("Minutes"), lambda line: str(line.minutes), lambda line: line.minutes, right=True
        ),
        *((stands,) if any(line.later for line in lines) else ()),
        TableColumn(say("Light"), lambda line: light_told(conditions, line.place)),
        TableColumn(say("Conditions"), lambda line: conditions_told(conditions, seen, line)),
        TableColumn(say("Tasks"), lambda line: parts_told(line, counts), order=_titles),
        TableColumn(say("Supervisor"), lambda line: _supervisors(line, names)),
        TableColumn(say("Sortie"), lambda line: safe(line.key)),
    )
    return Table(columns, lines, lambda line: line.key)


def parts_told(line: SortieLine, counts: Counts) -> str:
    """All that was done on a sortie."""
    return "; ".join(part_told(part, counts(line.key, part.task)) for part in line.parts)


def part_told(part: Part, counted: Counted) -> str:
    """One task: how often it was done, in how many attempts where these were more, with how many
    wave-offs."""
    attempts, waveoffs = counted
    told = safe(part.title)
    if part.times != 1:
        told = say("{task} × {times}", task=told, times=part.times)
    beside = []
    if attempts is not None and attempts != part.times:
        beside.append(count_of(attempts, "{count} attempt", "{count} attempts"))
    if waveoffs:
        beside.append(say("{count} waved off", count=waveoffs))
    return f"{told} ({', '.join(beside)})" if beside else told


def light_told(conditions: Conditions, place: int) -> str:
    """The light at launch, and at recovery where that is another; empty where not known."""
    launch, recovery = (conditions.light(place, moment) for moment in ("launch", "recovery"))
    if launch == NOT_RECORDED:
        return ""
    told = choice_told(LIGHTS[launch])
    return told if recovery == launch else f"{told} → {choice_told(LIGHTS[recovery])}"


def conditions_told(conditions: Conditions, seen: Seen, line: SortieLine) -> str:
    """Setting, way, sea and wind, as far as they were recorded."""
    sorties, place = seen.evidence.sorties, line.place
    parts = [say("drill") if line.drill else say("live")]
    if sorties.way[place] != NOT_RECORDED:
        parts.append(choice_told(WAYS[sorties.way[place]]))
    if sorties.sea[place] != NOT_RECORDED:
        parts.append(say("sea {degree}", degree=sorties.sea[place]))
    parts += _wind(sorties.wind[place], conditions.apparent(place))
    if sorties.vessel[place]:
        parts.append(safe(sorties.vessel[place] or ""))
    return ", ".join(parts)


def _wind(wind: float | None, apparent: float | None) -> list[str]:
    if wind is None:
        return []
    told = [say("wind {knots} kn", knots=f"{wind:g}")]
    if apparent is not None and apparent != round(wind, 1):
        told.append(say("{knots} kn over the deck", knots=f"{apparent:g}"))
    return told


def _line(seen: Seen, place: int, parts: tuple[Part, ...], on: date) -> SortieLine:
    sorties = seen.evidence.sorties
    launched = datetime.fromtimestamp(sorties.launched[place], UTC).astimezone(seen.zone)
    return SortieLine(
        place,
        sorties.key[place],
        date.fromordinal(sorties.day[place]),
        f"{launched.hour:02}:{launched.minute:02}",
        sorties.minutes[place],
        sorties.drill[place],
        parts,
        sorties.day[place] > on.toordinal(),
    )


def _titles(line: SortieLine) -> str:
    return "; ".join(part.title for part in line.parts).casefold()


def _supervisors(line: SortieLine, names: Mapping[str, str]) -> str:
    keys = dict.fromkeys(part.supervisor for part in line.parts if part.supervisor)
    return ", ".join(safe(names.get(key, key)) for key in keys)


def _stands(line: SortieLine) -> str:
    return say("later, does not count yet") if line.later else say("counts")


def _whole(value: object) -> int | None:
    return value if isinstance(value, int) else None
