"""One person's sign-offs, all that were ever recorded: what each says, and where it stands on a
day."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from crewtrack.facts import LEVELS, SIGNOFFS, Row
from crewtrack.office.signing import marks_of
from crewtrack.screens import signoff_marks
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class SignOffLine:
    """One sign-off; ``title`` is the task's, ``evaluator`` the name of whoever signed."""

    row: Row
    title: str
    evaluator: str
    on: date

    def value(self, name: str) -> Any:
        """The value of a column."""
        return self.row[SIGNOFFS.index(name)]

    @property
    def key(self) -> str:
        """The sign-off's own key."""
        return str(self.row[0])

    @property
    def later(self) -> bool:
        """Whether it is dated after the day."""
        return bool(self.value("date") > self.on)

    @property
    def withdrawn(self) -> bool:
        """Whether it no longer counts on the day."""
        day = self.value("withdrawn")
        return day is not None and day <= self.on


def signoff_lines(
    rows: Iterable[Row], person: str, on: date, titles: Mapping[str, str], names: Mapping[str, str]
) -> tuple[SignOffLine, ...]:
    """A person's sign-offs, the newest first; ``titles`` of tasks and ``names`` of people, by
    key."""
    places = [SIGNOFFS.index(name) for name in ("person", "task", "date", "evaluator")]
    who, task, day, by = places
    mine = sorted((row for row in rows if row[who] == person), key=lambda row: str(row[day]))
    return tuple(
        SignOffLine(
            row,
            titles.get(str(row[task]), str(row[task])),
            names.get(str(row[by]), str(row[by])),
            on,
        )
        for row in reversed(mine)
    )


def signoff_table(lines: tuple[SignOffLine, ...]) -> Table:
    """The sign-offs as a table."""
    columns = (
        TableColumn(say("Date"), lambda line: str(line.value("date"))),
        TableColumn(say("Task"), lambda line: safe(line.title), spoken=sentence),
        TableColumn(
            say("Level"),
            lambda line: choice_told(line.value("level")),
            order=lambda line: LEVELS.index(line.value("level")),
        ),
        TableColumn(say("Result"), lambda line: choice_told(line.value("result"))),
        TableColumn(say("On the day"), stands_told),
        TableColumn(say("Evaluator"), lambda line: safe(line.evaluator)),
        TableColumn(
            say("Criteria"),
            lambda line: signoff_marks.counted(line.value("remarks")),
            spoken=lambda line: signoff_marks.told(line.value("remarks")) or say("none marked"),
        ),
        TableColumn(say("Remarks"), remarks_told),
        TableColumn(say("Withdrawn"), withdrawn_told),
        TableColumn(say("Sortie"), lambda line: safe(line.value("sortie") or "")),
        TableColumn(say("Key"), lambda line: safe(line.key)),
    )
    return Table(columns, lines, lambda line: line.key)


def stands_told(line: SignOffLine) -> str:
    """Whether it counts on the day."""
    if line.later:
        return say("later, does not count yet")
    return say("withdrawn") if line.withdrawn else say("counts")


def remarks_told(line: SignOffLine) -> str:
    """The evaluator's own words, on one line."""
    return safe(" ".join(marks_of(line.value("remarks")).words.split()))


def withdrawn_told(line: SignOffLine) -> str:
    """When, by whom and why it was withdrawn; empty where it was not."""
    day = line.value("withdrawn")
    if day is None:
        return ""
    parts = (str(day), line.value("withdrawn_by"), line.value("withdrawn_reason"))
    return ", ".join(safe(part) for part in parts if part)


def sentence(line: SignOffLine) -> str:
    """The sign-off as one sentence."""
    return say(
        "{task}, {level}: {result} on {day}, {evaluator}, {stands}",
        task=line.title,
        level=choice_told(line.value("level")),
        result=choice_told(line.value("result")),
        day=line.value("date"),
        evaluator=line.evaluator,
        stands=stands_told(line),
    )
