"""The task book: for every task of the standard how far one person has come by a day, who signed
each level, and what went wrong."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from crewtrack.engine.days import Horizon
from crewtrack.engine.evidence import Books, SignOff
from crewtrack.engine.requirement import Signed
from crewtrack.engine.signatures import standing
from crewtrack.engine.signed import results
from crewtrack.engine.standard import Standard, Task
from crewtrack.facts import DUTIES, LEVELS
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn

Names = Mapping[str, str]
"""People's names by key."""


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One task. ``passes``: for each level the sign-off that stands for that very level, or
    None; ``reached`` the highest level that stands (a position in ``facts.LEVELS``, -1 for
    none); ``missed`` the last result that was not a pass; ``withdrawn`` the last sign-off that
    was withdrawn by the day."""

    task: str
    title: str
    duty: str
    known: bool
    passes: tuple[SignOff | None, ...]
    reached: int
    missed: SignOff | None
    withdrawn: SignOff | None


def task_lines(books: Books, standard: Standard, on: date) -> tuple[TaskLine, ...]:
    """A line for each task of the standard in effect on the day, by duty, then in its order;
    last, those with sign-offs that it no longer has. Sign-offs dated later count for nothing."""
    day = on.toordinal()
    signed = tuple(one for one in books.signoffs if one.day <= day)
    tasks = sorted(standard.tasks.values(), key=lambda task: _duty_order(task.duty))
    gone = dict.fromkeys(one.task for one in signed if one.task not in standard.tasks)
    lines = [_line(task, True, signed, day) for task in tasks]
    return (*lines, *(_line(Task(key, key), False, signed, day) for key in gone))


def task_table(lines: tuple[TaskLine, ...], names: Names) -> Table:
    """The book as a table."""
    levels = (_level_column(place, level, names) for place, level in enumerate(LEVELS))
    columns = (
        TableColumn(say("Duty"), duty_told, order=lines.index),
        TableColumn(say("Task"), lambda line: safe(line.title), spoken=sentence),
        TableColumn(say("Reached"), reached_told, order=lambda line: line.reached),
        *levels,
        TableColumn(say("Last not passed"), lambda line: _missed(line, names), order=_missed_day),
        TableColumn(say("Last withdrawn"), lambda line: _withdrawn(line, names)),
    )
    return Table(columns, lines, lambda line: line.task)


def _level_column(place: int, level: str, names: Names) -> TableColumn:
    def text(line: TaskLine) -> str:
        return _signed_by(line.passes[place], names)

    def order(line: TaskLine) -> int:
        return _day_of(line.passes[place])

    title = choice_told(level)
    return TableColumn(f"{title[:1].upper()}{title[1:]}", text, order)


def duty_told(line: TaskLine) -> str:
    """The duty that the task belongs to."""
    if not line.known:
        return say("not in this edition")
    return choice_told(line.duty) if line.duty else ""


def reached_told(line: TaskLine) -> str:
    """The highest level that stands, in a word; a dash for none."""
    return choice_told(LEVELS[line.reached]) if line.reached >= 0 else "–"


def sentence(line: TaskLine) -> str:
    """The line as one sentence."""
    if line.reached < 0:
        return say("{task}: nothing signed that stands", task=line.title)
    best = line.passes[line.reached]
    return say(
        "{task}: {level} since {day}",
        task=line.title,
        level=reached_told(line),
        day=_date(best.day) if best else "",
    )


def standing_passes(
    signoffs: Iterable[SignOff], task: Task, day: int
) -> tuple[SignOff | None, ...]:
    """For each level the latest pass at that very level that stands on a day: certified by then
    where the task asks for it, not withdrawn, and not ended by a later failure at the same level
    or a lower one."""
    live = standing(signoffs, day, {task.key: task})
    return tuple(_standing_pass(live, task.key, level) for level in range(len(LEVELS)))


def _standing_pass(live: tuple[SignOff, ...], task: str, level: int) -> SignOff | None:
    found: SignOff | None = None
    for one in results(Signed("", False, task, level, Horizon()), live):
        if one.result == "failed":
            found = None
        elif one.level == level:
            found = one
    return found


def _line(task: Task, known: bool, signed: tuple[SignOff, ...], day: int) -> TaskLine:
    mine = sorted((one for one in signed if one.task == task.key), key=lambda one: one.day)
    passes = standing_passes(mine, task, day)
    gone = [one for one in mine if one.withdrawn is not None and one.withdrawn <= day]
    missed = [one for one in mine if one.result != "passed" and one not in gone]
    return TaskLine(
        task.key,
        task.title,
        task.duty or "",
        known,
        passes,
        max((level for level, one in enumerate(passes) if one), default=-1),
        missed[-1] if missed else None,
        gone[-1] if gone else None,
    )


def _duty_order(duty: str | None) -> int:
    return DUTIES.index(duty) if duty in DUTIES else len(DUTIES)


def _date(day: int) -> date:
    return date.fromordinal(day)


def _day_of(signoff: SignOff | None) -> int:
    return signoff.day if signoff else 0


def _signed_by(signoff: SignOff | None, names: Names) -> str:
    """The date, and who signed."""
    if signoff is None:
        return ""
    return f"{_date(signoff.day)} {safe(names.get(signoff.evaluator, signoff.evaluator))}"


def _missed_day(line: TaskLine) -> int:
    return _day_of(line.missed)


def _missed(line: TaskLine, names: Names) -> str:
    one = line.missed
    if one is None:
        return ""
    return say(
        "{day} {result}, {level}, {name}",
        day=_date(one.day),
        result=choice_told(one.result),
        level=choice_told(LEVELS[one.level]),
        name=safe(names.get(one.evaluator, one.evaluator)),
    )


def _withdrawn(line: TaskLine, names: Names) -> str:
    one = line.withdrawn
    if one is None or one.withdrawn is None:
        return ""
    return say(
        "{day}: that of {given}, {level}, {name}",
        day=_date(one.withdrawn),
        given=_date(one.day),
        level=choice_told(LEVELS[one.level]),
        name=safe(names.get(one.evaluator, one.evaluator)),
    )
