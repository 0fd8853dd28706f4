"""The board: people × qualifications on a day, as a table that can be filtered, sorted and
copied."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from crewtrack.engine.evidence import Person
from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import WORDS, Roster, Standing, Word
from crewtrack.facts import DUTIES
from crewtrack.screens.language import count_of, say
from crewtrack.screens.relief_words import kinds_of, letters
from crewtrack.screens.standing_words import word_told
from crewtrack.screens.tables import Table, TableColumn

_URGENCY: Final[Sequence[Word]] = (
    "lapsed", "due", "training", "stood-down", "current", "none",
)  # fmt: skip
"""How the words sort: what asks for something to be done comes first."""


@dataclass(frozen=True, slots=True)
class BoardCell:
    """One person's standing in one qualification, and the letters of what it rests on: W for a
    waiver, E for an extension."""

    standing: Standing
    letters: str


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One person, and a cell for each qualification of the board, in its order."""

    person: Person
    cells: tuple[BoardCell, ...]


@dataclass(frozen=True, slots=True)
class BoardFilter:
    """Which rows are shown: a part of the name or the key, a duty, a word that some cell bears;
    empty where all are."""

    text: str = ""
    duty: str = ""
    word: Word | None = None

    def takes(self, row: BoardRow) -> bool:
        """Whether a row is shown."""
        sought = self.text.casefold().split()
        named = f"{row.person.key} {row.person.name}".casefold()
        return (
            all(part in named for part in sought)
            and (not self.duty or self.duty in row.person.duties)
            and (self.word is None or any(c.standing.word == self.word for c in row.cells))
        )


EVERYBODY: Final = BoardFilter()


def board_rows(roster: Roster) -> tuple[BoardRow, ...]:
    """Everybody on a roster, with their standings."""
    standings, kinds = roster.cells(), kinds_of(roster)
    rows = []
    for person in roster.people:
        own = (standings[person.key, told.key] for told in roster.qualifications)
        rows.append(
            BoardRow(
                person, tuple(BoardCell(s, letters(s, kinds) if s.by_waiver else "") for s in own)
            )
        )
    return tuple(rows)


def board_table(roster: Roster, shown: BoardFilter = EVERYBODY) -> Table:
    """The board of a roster, with the rows that a filter takes."""
    columns = (_person_column(), *_qualification_columns(roster.qualifications), _duty_column())
    rows = tuple(row for row in board_rows(roster) if shown.takes(row))
    return Table(columns, rows, lambda row: row.person.key)


FIRST_CELL: Final = 1
"""The columns before the first qualification."""


def cell_of(row: BoardRow, column: int) -> BoardCell | None:
    """The standing that a column of the table shows; None where it shows none."""
    place = column - FIRST_CELL
    return row.cells[place] if 0 <= place < len(row.cells) else None


def _person_column() -> TableColumn:
    return TableColumn(
        say("Person"),
        lambda row: say("{name}; {key}", name=row.person.name, key=row.person.key),
        order=lambda row: (row.person.name.casefold(), row.person.key),
        spoken=lambda row: row.person.name,
    )


def _duty_column() -> TableColumn:
    return TableColumn(
        say("Duties"),
        duties_told,
        order=lambda row: (
            [DUTIES.index(duty) for duty in row.person.duties] or [len(DUTIES)],
            row.person.name.casefold(),
        ),
        spoken=_duties_spoken,
    )


def _duties_spoken(row: BoardRow) -> str:
    duties = duties_told(row) or say("no duty")
    return say("{name}: {duties}", name=row.person.name, duties=duties)


def duties_told(row: BoardRow) -> str:
    """A person's duties."""
    return ", ".join(map(duty_told, row.person.duties))


def _qualification_columns(qualifications: Iterable[Qualification]) -> Iterator[TableColumn]:
    for place, qualification in enumerate(qualifications):
        yield _column(place, qualification.title)


def _column(place: int, title: str) -> TableColumn:
    def cell(row: BoardRow) -> BoardCell:
        return row.cells[place]

    return TableColumn(
        title,
        lambda row: cell_told(cell(row)),
        order=lambda row: _rank(cell(row).standing),
        spoken=lambda row: spoken(row.person, title, cell(row)),
        word=lambda row: cell(row).standing.word,
    )


def _rank(standing: Standing) -> tuple[int, date]:
    """The most urgent word first; within it, the earliest date."""
    day = standing.since if standing.word == "lapsed" else standing.through
    return _URGENCY.index(standing.word), day or date.max


def cell_told(cell: BoardCell) -> str:
    """Word, letters and date of a cell: ``due W 2026-12-03``; empty where nothing is asked."""
    if cell.standing.word == "none":
        return ""
    return " ".join(part for part in (word_and_letters(cell), cell_date(cell)) if part)


def two_lines(row: BoardRow, column: int) -> tuple[str, str]:
    """What a cell of the table shows, one line below the other."""
    cell = cell_of(row, column)
    if cell is not None:
        return word_and_letters(cell), cell_date(cell)
    if column == 0:
        return row.person.name, row.person.key
    return duties_told(row), ""


def word_and_letters(cell: BoardCell) -> str:
    """``due W``; empty where nothing is asked."""
    if cell.standing.word == "none":
        return ""
    return f"{word_told(cell.standing.word)} {cell.letters}".rstrip()


def cell_date(cell: BoardCell) -> str:
    """The last day, or since when it has lapsed; empty where no date matters."""
    standing = cell.standing
    if standing.word in ("current", "due"):
        return standing.through.isoformat() if standing.through else say("no limit")
    if standing.word == "lapsed" and standing.since:
        return say("since {day}", day=standing.since)
    return ""


def spoken(person: Person, title: str, cell: BoardCell) -> str:
    """A cell as one sentence."""
    standing = cell.standing
    names = {"name": person.name, "title": title, "word": word_told(standing.word)}
    if standing.word == "none":
        return say("{name}, {title}: not assigned", **names)
    parts = [say("{name}, {title}: {word}", **names)]
    if standing.word in ("current", "due"):
        through = standing.through
        parts.append(say("through {day}", day=through) if through else say("no limit"))
    elif standing.word == "lapsed" and standing.since:
        parts.append(say("since {day}", day=standing.since))
    if standing.limiting:
        parts.append(_limit_spoken(standing))
    if standing.by_waiver:
        parts.append(say("rests on {keys}", keys=", ".join(standing.by_waiver)))
    return ", ".join(parts)


def _limit_spoken(standing: Standing) -> str:
    ids = ", ".join(standing.limiting)
    if standing.word in ("current", "due"):
        return say("limited by {requirements}", requirements=ids)
    return say("not met: {requirements}", requirements=ids)


def duty_told(duty: str) -> str:
    """A duty, as it is shown."""
    return {
        "pilot": say("pilot"),
        "observer": say("observer"),
        "handler": say("handler"),
        "helm": say("helm"),
        "evaluator": say("evaluator"),
        "officer": say("officer"),
        "chief": say("chief"),
    }.get(duty, duty)


def words() -> tuple[Word, ...]:
    """The words that the board can be filtered by."""
    return tuple(word for word in WORDS if word != "none")


def counted(shown: int, people: int) -> str:
    """How many rows are shown of how many."""
    if shown == people:
        return count_of(people, "{count} person", "{count} people")
    return say("{shown} of {people} people", shown=shown, people=people)


def most_pressing(roster: Roster) -> tuple[str, str] | None:
    """The person and the qualification to open first: somebody who has lapsed, else somebody
    whose standing ends soonest; None where nobody is assigned to anything."""
    told = [row for row in roster.rows if row.word != "none"]
    if not told:
        return None
    first = min(told, key=lambda row: (row.word != "lapsed", row.through or date.max))
    return first.person, first.qualification
