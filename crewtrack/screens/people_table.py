"""The list of people: who is on the books on a day, and who was or will be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from crewtrack.engine.evidence import Books, Person
from crewtrack.engine.spans import as_date
from crewtrack.engine.standing import on_the_books
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import count_of, say
from crewtrack.screens.tables import Table, TableColumn


@dataclass(frozen=True, slots=True)
class PersonLine:
    """One person in the list; ``away`` says why they are not on the books that day."""

    person: Person
    away: str

    @property
    def key(self) -> str:
        """The unit's key of the person."""
        return self.person.key


def people_lines(
    books: Mapping[str, Books], on: date, everybody: bool = False, sought: str = ""
) -> tuple[PersonLine, ...]:
    """Those on the books on a day, or everybody, by key; ``sought`` are words that must all
    stand in the key, the name or a duty, in any case."""
    words = sought.casefold().split()
    lines = (PersonLine(one.person, _away(one, on)) for _, one in sorted(books.items()))
    return tuple(
        line
        for line in lines
        if (everybody or not line.away) and _has_all(words, _searched(line.person))
    )


def people_table(lines: tuple[PersonLine, ...]) -> Table:
    """The list as a table."""
    columns: tuple[TableColumn, ...] = (
        TableColumn(say("Key"), lambda line: safe(line.key)),
        TableColumn(say("Name"), lambda line: safe(line.person.name), spoken=_sentence),
        TableColumn(say("Duties"), lambda line: duties_told(line.person)),
        TableColumn(say("Books"), lambda line: line.away),
    )
    if not any(line.away for line in lines):
        columns = columns[:-1]
    return Table(columns, lines, lambda line: line.key)


def counted(lines: tuple[PersonLine, ...], on: date) -> str:
    """How many the list shows."""
    away = sum(1 for line in lines if line.away)
    told = count_of(len(lines), "{count} person", "{count} people")
    if not away:
        return told
    return say("{people}, {away} not on the books on {day}", people=told, away=away, day=on)


def duties_told(person: Person) -> str:
    """A person's duties in words."""
    return ", ".join(choice_told(duty) for duty in person.duties)


def books_told(books: Books, on: date) -> str:
    """Since when and through when somebody is on the books, and whether that covers the day."""
    joined, left = books.person.joined, books.person.left
    told = []
    if joined is not None:
        told.append(say("joined {day}", day=as_date(joined)))
    if left is not None:
        told.append(say("left {day}", day=as_date(left)))
    if _away(books, on):
        told.append(say("not on the books on {day}", day=on))
    return ", ".join(told)


def _away(books: Books, on: date) -> str:
    joined, left = on_the_books(books)
    if on.toordinal() < joined:
        return say("joins {day}", day=as_date(joined))
    if on.toordinal() > left:
        return say("left {day}", day=as_date(left))
    return ""


def _searched(person: Person) -> str:
    told = (person.key, person.name, *person.duties, duties_told(person))
    return "\n".join(told).casefold()


def _has_all(words: Iterable[str], text: str) -> bool:
    return all(word in text for word in words)


def _sentence(line: PersonLine) -> str:
    parts = (line.person.name, line.key, duties_told(line.person), line.away)
    return ", ".join(part for part in parts if part)
