"""One edition of the standard, line by line, as a page lays it out."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from crewtrack.engine.requirement import AllOf, AnyOf, Requirement
from crewtrack.engine.standard import Editions, Standard, Task
from crewtrack.engine.wording import length
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import count_of, say, told
from crewtrack.screens.rule_words import rule_told
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class Line:
    """One line: a heading, a title, what is said under it, or what stands beside the matter;
    ``depth`` is how far in it stands."""

    kind: Literal["heading", "title", "said", "beside"]
    text: str
    depth: int = 0


def effective_told(editions: Editions, standard: Standard, on: date) -> str:
    """From when an edition is in effect, and whether it is on a day."""
    if editions.on(on.toordinal()) is standard:
        return say("from {day}: in effect", day=standard.effective)
    if standard.effective > on:
        return say("from {day}: not yet", day=standard.effective)
    return say("from {day}: no longer", day=standard.effective)


def edition_table(editions: Editions, on: date) -> Table:
    """The editions, and which of them is in effect on a day."""
    columns = (
        TableColumn(say("Edition"), lambda one: safe(one.edition)),
        TableColumn(say("In effect"), lambda one: effective_told(editions, one, on),
                    order=lambda one: one.effective),
    )  # fmt: skip
    return Table(columns, editions.standards, lambda one: one.edition)


def edition_lines(standard: Standard) -> tuple[Line, ...]:
    """All that an edition says."""
    return (
        *_head(standard),
        *_qualifications(standard),
        *_crews(standard),
        Line("heading", say("Tasks")),
        *(line for task in standard.tasks.values() for line in _task(task, standard)),
    )


def general(standard: Standard) -> tuple[tuple[str, str], ...]:
    """What an edition sets for everything: a name, and what it is set to."""
    place = standard.position
    where = say("no position") if place is None else f"{place.lat:g}, {place.lon:g}"
    return (
        (say("Title"), safe(standard.title)),
        (say("Unit"), safe(standard.unit)),
        (say("In effect from"), standard.effective.isoformat()),
        (say("Time zone"), standard.zone),
        (say("Position for the light (north, east)"), where),
        (say("Shown as due before its last day"), told(length(standard.notice))),
        (say("Night begins"), dark_told(standard)),
        (say("Longest waiver"), told(length(standard.waiver_limit))),
    )


def dark_told(standard: Standard) -> str:
    """When night begins under an edition."""
    match standard.dark:
        case "half-hour":
            return say("half an hour after sunset, until half an hour before sunrise")
        case "hour":
            return say("an hour after sunset, until an hour before sunrise")
        case _:
            return say("with the sun more than 6° below the horizon (civil)")


def minimum_told(count: int) -> str:
    """The least number of people current."""
    if not count:
        return say("no minimum")
    return count_of(count, "at least {count} person current", "at least {count} people current")


def crew_told(standard: Standard, key: str) -> str:
    """A crew's seats, each with what it asks for."""
    crew = standard.crews[key]
    return "; ".join(
        say("{seat}: {qualification}", seat=safe(seat.seat),
            qualification=safe(standard.qualifications[seat.holds].title))
        for seat in crew.seats
    )  # fmt: skip


def crew_minimum(count: int) -> str:
    """The least number of crews that can go out at once."""
    if not count:
        return say("no minimum")
    return count_of(count, "at least {count} whole crew", "at least {count} whole crews")


def task_told(task: Task, standard: Standard) -> str:
    """Whose task it is, which light counts, who may do it alone, who may sign it off, and whose
    second signature a pass needs."""
    parts = [
        say("duty: {duty}", duty=choice_told(task.duty)) if task.duty else "",
        say("the light at launch counts")
        if task.moment == "launch"
        else say("the light at recovery counts"),
        say("alone with: {qualification}", qualification=_title(standard, task.needs))
        if task.needs
        else "",
        say("signed off and supervised by: {qualification}",
            qualification=_title(standard, task.evaluator))
        if task.evaluator
        else "",
        say("a pass counts once certified by: {duty}", duty=choice_told(task.certified_by))
        if task.certified_by
        else "",
    ]  # fmt: skip
    return ", ".join(part for part in parts if part)


def _title(standard: Standard, key: str) -> str:
    known = standard.qualifications.get(key)
    return safe(known.title if known else key)


def _head(standard: Standard) -> Iterator[Line]:
    yield Line("heading", say("Edition {edition}", edition=safe(standard.edition)))
    for name, value in general(standard):
        yield Line("said", say("{name}: {value}", name=name, value=value))


def _qualifications(standard: Standard) -> Iterator[Line]:
    yield Line("heading", say("Qualifications"))
    for one in standard.qualifications.values():
        yield Line("title", safe(one.title))
        duty = choice_told(one.duty) if one.duty else say("any duty")
        yield Line("beside", f"{duty}, {minimum_told(one.minimum)}")
        for need in one.needs:
            yield from _need(need, standard, 1)


def _need(need: Requirement, standard: Standard, depth: int) -> Iterator[Line]:
    sentence = safe(rule_told(need, standard))
    text = say("{rule} ({id})", rule=sentence, id=need.id) if need.named else sentence
    yield Line("said", text, depth)
    if isinstance(need, AnyOf | AllOf):
        for one in need.needs:
            yield from _need(one, standard, depth + 1)


def _crews(standard: Standard) -> Iterator[Line]:
    if not standard.crews:
        return
    yield Line("heading", say("Crews"))
    for key, crew in standard.crews.items():
        yield Line("title", safe(crew.title))
        yield Line("beside", crew_minimum(crew.minimum))
        yield Line("said", crew_told(standard, key), 1)


def _task(task: Task, standard: Standard) -> Iterator[Line]:
    yield Line("title", safe(task.title))
    yield Line("beside", task_told(task, standard))
    yield from (Line("said", safe(one), 1) for one in task.criteria)
