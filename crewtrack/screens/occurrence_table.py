"""Occurrences as a table, and in words who may read them."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from crewtrack.errors import Fault
from crewtrack.facts import OCCURRENCES, Row
from crewtrack.office.occurrences import newest_first
from crewtrack.screens.columns import on_one_line, safe
from crewtrack.screens.fact_form import sentence as cured
from crewtrack.screens.fields import choice_told, label
from crewtrack.screens.language import say
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class OccurrenceLine:
    """One occurrence; ``zone`` is the unit's."""

    row: Row
    zone: ZoneInfo

    def value(self, name: str) -> Any:
        """The value of a column."""
        return self.row[OCCURRENCES.index(name)]

    @property
    def key(self) -> str:
        """The occurrence's own key."""
        return str(self.row[0])

    @property
    def at(self) -> datetime:
        """When it happened, on the clocks of the unit's zone."""
        happened: datetime = self.value("happened")
        return happened.astimezone(self.zone)

    @property
    def open(self) -> bool:
        """Whether nobody has answered it yet."""
        return self.value("answered") is None


def occurrence_lines(rows: Iterable[Row], zone: ZoneInfo) -> tuple[OccurrenceLine, ...]:
    """A line for each, the one that happened last first."""
    return tuple(OccurrenceLine(row, zone) for row in newest_first(tuple(rows)))


def of_person(
    lines: Iterable[OccurrenceLine], person: str, sorties: Collection[str]
) -> tuple[OccurrenceLine, ...]:
    """Those that a person reported, and those on sorties that the person was on."""
    return tuple(
        line
        for line in lines
        if line.value("reported_by") == person or line.value("sortie") in sorties
    )


def occurrence_table(lines: tuple[OccurrenceLine, ...]) -> Table:
    """The occurrences as a table."""
    columns = (
        TableColumn(label(OCCURRENCES, "happened"), when, lambda one: one.at, spoken=sentence),
        TableColumn(label(OCCURRENCES, "harm"), harm_told, spoken=sentence),
        TableColumn(label(OCCURRENCES, "answer"), answer_told, spoken=sentence),
        TableColumn(label(OCCURRENCES, "sortie"), _sortie, spoken=sentence),
        TableColumn(say("Conditions"), conditions_told, spoken=sentence),
        TableColumn(label(OCCURRENCES, "reported_by"), reporter_told, spoken=sentence),
        TableColumn(
            label(OCCURRENCES, "what"), lambda one: on_one_line(one.value("what")), spoken=sentence
        ),
    )
    return Table(columns, lines, lambda line: line.key)


def when(line: OccurrenceLine) -> str:
    """The day and the clock."""
    return f"{line.at:%Y-%m-%d %H:%M}"


def harm_told(line: OccurrenceLine) -> str:
    """Whether somebody was hurt or something damaged."""
    return ", ".join(map(choice_told, line.value("harm") or ())) or say("neither")


def answer_told(line: OccurrenceLine) -> str:
    """The answer, by whom and when."""
    if line.open:
        return say("open")
    return say(
        "{person}, {day}: {words}",
        person=safe(line.value("answered_by")),
        day=line.value("answered"),
        words=on_one_line(line.value("answer")),
    )


def conditions_told(line: OccurrenceLine) -> str:
    """The boat's way and the sea, as far as they were told."""
    way, sea = line.value("way"), line.value("sea")
    parts = [choice_told(way)] if way else []
    return ", ".join([*parts, *([say("sea {degree}", degree=sea)] if sea is not None else ())])


def reporter_told(line: OccurrenceLine) -> str:
    """Who reported it."""
    return safe(line.value("reported_by") or say("without a name"))


def sentence(line: OccurrenceLine) -> str:
    """The occurrence in one sentence."""
    return say(
        "{when}, {harm}, {who}: {what}; answer: {answer}",
        when=when(line),
        harm=harm_told(line),
        who=reporter_told(line),
        what=on_one_line(line.value("what")),
        answer=answer_told(line),
    )


def closed_told(fault: Fault) -> str:
    """Why somebody may not read occurrences, and who may."""
    return say("Occurrences are closed to you: {why}", why=cured(fault.problem, fault.cure))


def readers_told(identified: bool) -> str:
    """Who reads what is reported here."""
    if identified:
        return say("Officers and chiefs read occurrences, nobody else.")
    return say("Nobody is identified on this record: everybody can read occurrences.")


def harmless_told() -> str:
    """What a report means for whoever is in it."""
    return say("A report changes nobody's standing.")


def _sortie(line: OccurrenceLine) -> str:
    return safe(line.value("sortie") or "")
