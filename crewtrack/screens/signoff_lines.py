"""One person's sign-offs, all that were ever recorded: what each says, and where it stands on a
day."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

from crewtrack.engine.wording import signer_told
from crewtrack.facts import CERTIFICATIONS, LEVELS, SIGNOFFS, Row
from crewtrack.office.attestation import UNSIGNED, Attested
from crewtrack.office.own_name import certifier
from crewtrack.office.signing import marks_of
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import signoff_marks
from crewtrack.screens.columns import on_one_line, safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say, told
from crewtrack.screens.tables import Table, TableColumn

_SHORT: Final = 8
"""So much of a key's name tells it from the unit's others."""


@dataclass(frozen=True, slots=True)
class SignOffLine:
    """One sign-off; ``title`` is the task's, ``evaluator`` the name of whoever signed.
    ``attested`` says what the signature is worth. ``certifier`` is the duty whose second signature
    its day's edition asks for, None where it asks for none; ``certified`` the day of that, and who
    gave it, None where nobody has."""

    row: Row
    title: str
    evaluator: str
    on: date
    attested: Attested = UNSIGNED
    certifier: str | None = None
    certified: tuple[date, str] | None = None

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
    def waits(self) -> bool:
        """Whether it is a pass that counts only once it is certified, and by the day it is not."""
        if self.certifier is None or self.value("result") != "passed":
            return False
        return self.certified is None or self.certified[0] > self.on

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


def with_signatures(lines: tuple[SignOffLine, ...], snapshot: Snapshot) -> tuple[SignOffLine, ...]:
    """The same with who signed each, and whose second signature it has or waits for."""
    seconds, stands = snapshot.by_key(CERTIFICATIONS), snapshot.attested()
    return tuple(
        replace(
            line,
            attested=stands.get(line.key, UNSIGNED),
            certifier=certifier(snapshot.editions, line.row),
            certified=_second(seconds.get((line.key,))),
        )
        for line in lines
    )


def _second(row: Row | None) -> tuple[date, str] | None:
    if row is None:
        return None
    day, by = row[CERTIFICATIONS.index("date")], row[CERTIFICATIONS.index("by")]
    return (day, str(by)) if isinstance(day, date) else None


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
        TableColumn(say("Signature"), attested_told),
        TableColumn(say("Certified"), certified_told),
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
    if line.withdrawn:
        return say("withdrawn")
    if line.certifier is not None and line.waits:
        duty = told(signer_told(line.certifier))
        return say("waits for certification by {duty}", duty=duty)
    return say("counts")


def attested_told(line: SignOffLine) -> str:
    """What its signature is worth."""
    by = safe(line.attested.by)
    match line.attested.how:
        case "signed":
            return say("signed by {person}, key {key}", person=by, key=line.attested.key[:_SHORT])
        case "paper":
            return say("from paper, attested by {person}", person=by)
        case _:
            return say("not signed")


def certified_told(line: SignOffLine) -> str:
    """When and by whom it was certified; empty where it was not."""
    return "" if line.certified is None else f"{line.certified[0]}, {safe(line.certified[1])}"


def remarks_told(line: SignOffLine) -> str:
    """The evaluator's own words, on one line."""
    return on_one_line(marks_of(line.value("remarks")).words)


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
