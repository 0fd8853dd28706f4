"""The roster as a table for a terminal: people down, qualifications across, two lines a person.

Qualifications that nobody on the roster is assigned to are left out.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from crewtrack.engine.evidence import Person
from crewtrack.engine.standings import Roster, Standing
from crewtrack.screens.columns import GAP, cells, cut, padded, safe, wrapped
from crewtrack.screens.relief_words import Kinds, kinds_of, letters
from crewtrack.screens.standing_words import date_told, shape_and_word

Paint = Callable[[str, str], str]
"""Colours a text by a word of standing."""

NARROWEST_NAME = 12
WIDEST_NAME = 30
_TITLE = 12


@dataclass(frozen=True, slots=True)
class _Column:
    """One qualification: its title in lines, the standings by person, the width."""

    title: tuple[str, ...]
    standings: tuple[Standing, ...]
    texts: tuple[tuple[str, str], ...]

    @property
    def width(self) -> int:
        told = [text for two in self.texts for text in two]
        return max(map(cells, (*self.title, *told)))


def table(roster: Roster, width: int, paint: Paint) -> list[str]:
    """The lines of the table; none where it does not fit the width."""
    columns = [c for c in _columns(roster) if any(each.word != "none" for each in c.standings)]
    left = width - sum(len(GAP) + column.width for column in columns)
    if left < NARROWEST_NAME or not columns:
        return []
    name = min(left, WIDEST_NAME, max(cells(who(person)) for person in roster.people))
    lines = _header(columns, name)
    for index, person in enumerate(roster.people):
        lines += _person_lines(padded(cut(who(person), name), name), index, columns, paint)
    return lines


def who(person: Person) -> str:
    """A person's key and name."""
    return f"{safe(person.key)} {safe(person.name)}"


def _columns(roster: Roster) -> Iterator[_Column]:
    standings, kinds = roster.cells(), kinds_of(roster)
    for qualification in roster.qualifications:
        title = tuple(wrapped(safe(qualification.title), _TITLE))
        column = tuple(standings[person.key, qualification.key] for person in roster.people)
        yield _Column(title, column, tuple(_two_texts(each, kinds) for each in column))


def _header(columns: list[_Column], name: int) -> list[str]:
    """The titles, at the foot of as many lines as the longest takes, and a rule."""
    high = max(len(column.title) for column in columns)
    lines = []
    for line in range(high):
        texts = [
            padded((("",) * (high - len(column.title)) + column.title)[line], column.width)
            for column in columns
        ]
        lines.append(GAP.join((" " * name, *texts)).rstrip())
    rules = ("─" * name, *("─" * column.width for column in columns))
    return [*lines, GAP.join(rules)]


def _two_texts(standing: Standing, kinds: Kinds) -> tuple[str, str]:
    """What stands in a cell: shape and word; the date below the word."""
    if standing.word == "none":
        return "", ""
    return shape_and_word(standing, letters(standing, kinds)), f"  {date_told(standing)}".rstrip()


def _person_lines(name: str, index: int, columns: list[_Column], paint: Paint) -> list[str]:
    """One person's words, and the dates below them where there are any."""
    upper, lower = [name], [" " * cells(name)]
    for column in columns:
        word = column.standings[index].word
        for line, text in zip((upper, lower), column.texts[index], strict=True):
            rest = " " * (column.width - cells(text))
            line.append((paint(text, word) if text else "") + rest)
    return [line for line in (GAP.join(upper).rstrip(), GAP.join(lower).rstrip()) if line]
