"""One person's books, section by section: what each shows on a day, and what may be done there."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from types import MappingProxyType
from typing import Final

from crewtrack.facts import (
    ASSIGNMENTS,
    CERTIFICATES,
    PERFORMANCES,
    SIGNOFFS,
    STANDDOWNS,
    WAIVERS,
    Kind,
    Row,
)
from crewtrack.office.given_rows import FactKey
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import (
    person_facts,
    person_sorties,
    person_standings,
    signoff_lines,
    task_book,
)
from crewtrack.screens.language import later, say
from crewtrack.screens.person_sorties import SortieLine
from crewtrack.screens.tables import Table

STANDINGS, TASKS, SIGNED, FLOWN = "standings", "tasks", "signoffs", "sorties"
PAPERS: Final[Mapping[str, Kind]] = MappingProxyType(
    {kind.name: kind for kind in (CERTIFICATES, ASSIGNMENTS, WAIVERS, STANDDOWNS)}
)
SECTIONS: Final = (STANDINGS, TASKS, SIGNED, FLOWN, *PAPERS)
"""In the order in which they are read."""

_FEW: Final = 5_000
"""So many sorties at most have what was done on them read at once."""
_SHOWN: Final = 60
"""More lines than are looked at first."""

_TITLES: Final[Mapping[str, str]] = later(
    {
        "standings": "Standings",
        "tasks": "Task book",
        "signoffs": "Sign-offs",
        "sorties": "Sorties",
        "certificates": "Certificates",
        "assignments": "Assignments",
        "waivers": "Waivers and extensions",
        "standdowns": "Stand-downs",
    }
)
_NOTHING: Final[Mapping[str, str]] = later(
    {
        "standings": "Not assigned to any qualification by this day: add an assignment.",
        "tasks": "The standard in effect has no tasks.",
        "signoffs": "Nothing has been signed off yet.",
        "sorties": "No sorties yet.",
        "certificates": "No certificates are recorded.",
        "assignments": "No assignments are recorded.",
        "waivers": "No waivers or extensions have been granted.",
        "standdowns": "Never stood down.",
    }
)


@dataclass(frozen=True, slots=True)
class Asked:
    """Whose books are looked at, in which state of the record, on which day."""

    snapshot: Snapshot
    person: str
    on: date

    @property
    def names(self) -> Mapping[str, str]:
        """People's names by key."""
        books = self.snapshot.reckoning.evidence.books
        return {key: one.person.name for key, one in books.items()}


def books_title() -> str:
    """What all the sections are, together."""
    return say("Books of the person")


def title(section: str) -> str:
    """The section's name."""
    return say(_TITLES[section])


def nothing(section: str) -> str:
    """What stands where a section has no rows."""
    return say(_NOTHING[section])


def kind_of(section: str) -> Kind | None:
    """The kind of fact that is added and corrected in a section; None where nothing is."""
    return SIGNOFFS if section == SIGNED else PAPERS.get(section)


def table(section: str, asked: Asked) -> Table:
    """What a section shows."""
    if section in PAPERS:
        return _papers(PAPERS[section], asked)
    return _TABLES[section](asked)


def _standings(asked: Asked) -> Table:
    lines = person_standings.standing_lines(asked.snapshot.reckoning, asked.person, asked.on)
    return person_standings.standings_table(lines)


def _tasks(asked: Asked) -> Table:
    books = asked.snapshot.reckoning.evidence.books[asked.person]
    lines = task_book.task_lines(books, asked.snapshot.standard(asked.on), asked.on)
    return task_book.task_table(lines, asked.names)


def _signoffs(asked: Asked) -> Table:
    rows = asked.snapshot.rows(SIGNOFFS)
    titles = _task_titles(asked.snapshot)
    return signoff_lines.signoff_table(
        signoff_lines.signoff_lines(rows, asked.person, asked.on, titles, asked.names)
    )


def _sorties(asked: Asked) -> Table:
    reckoning = asked.snapshot.reckoning
    standard = asked.snapshot.standard(asked.on)
    seen = person_sorties.Seen(reckoning.evidence, standard, reckoning.editions.zone)
    books = reckoning.evidence.books[asked.person]
    lines = person_sorties.sortie_lines(seen, books, asked.on)
    return person_sorties.sortie_table(lines, seen, asked.names, _counts(asked, lines))


def _counts(asked: Asked, lines: Sequence[SortieLine]) -> person_sorties.Counts:
    """Attempts and wave-offs: of a long history the newest sorties' are looked up at once, as they
    are shown first, and those of others as they come into view."""
    snapshot = asked.snapshot
    if len(snapshot.reckoning.evidence.sorties.key) <= _FEW:
        rows = snapshot.by_key(PERFORMANCES)
        return lambda sortie, task: person_sorties.counted_in(rows[sortie, asked.person, task])
    tasks = {line.key: [part.task for part in line.parts] for line in lines}
    known: dict[FactKey, Row] = {}

    def counts(sortie: str, task: str) -> person_sorties.Counted:
        key: FactKey = (sortie, asked.person, task)
        if key not in known:
            wanted = (sortie,) if known else dict.fromkeys((*islice(tasks, _SHOWN), sortie))
            keys = [(one, asked.person, what) for one in wanted for what in tasks[one]]
            known.update(snapshot.rows_of(PERFORMANCES, keys))
        return person_sorties.counted_in(known[key])

    return counts


def _papers(kind: Kind, asked: Asked) -> Table:
    books = asked.snapshot.reckoning.evidence.books[asked.person]
    covers = person_facts.certificate_covers(books, asked.snapshot.standard(asked.on), asked.on)
    rows = asked.snapshot.rows(kind)
    lines = person_facts.fact_lines(kind, rows, asked.person, asked.on, covers)
    return person_facts.fact_table(kind, lines, _qualification_titles(asked.snapshot))


_TABLES: Final[Mapping[str, Callable[[Asked], Table]]] = MappingProxyType(
    {STANDINGS: _standings, TASKS: _tasks, SIGNED: _signoffs, FLOWN: _sorties}
)


def _task_titles(snapshot: Snapshot) -> Mapping[str, str]:
    """All editions' tasks; a later edition's title stands."""
    standards = snapshot.editions.standards
    return {key: task.title for standard in standards for key, task in standard.tasks.items()}


def _qualification_titles(snapshot: Snapshot) -> Mapping[str, str]:
    standards = snapshot.editions.standards
    return {
        key: one.title for standard in standards for key, one in standard.qualifications.items()
    }
