"""One person's books, section by section: what each shows on a day, and what may be done there."""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from types import MappingProxyType
from typing import Any, Final

from crewtrack.facts import (
    ASSIGNMENTS,
    CERTIFICATES,
    OCCURRENCES,
    PERFORMANCES,
    SIGNOFFS,
    SORTIES,
    STANDDOWNS,
    WAIVERS,
    Kind,
    Row,
)
from crewtrack.office.disputes import Disputed, open_disputes
from crewtrack.office.given_rows import FactKey
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import (
    dispute_words,
    occurrence_table,
    person_facts,
    person_sorties,
    person_standings,
    signoff_lines,
    task_book,
)
from crewtrack.screens.language import later, say
from crewtrack.screens.person_sorties import SortieLine
from crewtrack.screens.signoff_lines import SignOffLine
from crewtrack.screens.tables import Table

STANDINGS, TASKS, SIGNED, FLOWN = "standings", "tasks", "signoffs", "sorties"
HAPPENED: Final = OCCURRENCES.name
PAPERS: Final[Mapping[str, Kind]] = MappingProxyType(
    {kind.name: kind for kind in (CERTIFICATES, ASSIGNMENTS, WAIVERS, STANDDOWNS)}
)
SECTIONS: Final = (STANDINGS, TASKS, SIGNED, FLOWN, *PAPERS, HAPPENED)
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
        "occurrences": "Occurrences",
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
        "occurrences": "No occurrences: none was reported, and none on these sorties.",
    }
)


@dataclass(frozen=True, slots=True)
class Asked:
    """Whose books are looked at, in which state of the record, on which day, and by whom: some of
    it is not open to everybody (``reader`` is empty where nobody is signed in)."""

    snapshot: Snapshot
    person: str
    on: date
    reader: str = ""

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


def nothing(section: str, asked: Asked | None = None) -> str:
    """What stands where a section has no rows."""
    closed = asked.snapshot.closed(OCCURRENCES) if asked and section == HAPPENED else None
    return occurrence_table.closed_told(closed) if closed else say(_NOTHING[section])


def note(section: str, asked: Asked) -> str:
    """What stands above a section's rows; empty for nothing."""
    if section != HAPPENED:
        return ""
    return occurrence_table.readers_told(asked.snapshot.identified)


def place_of(kind: str, key: str) -> tuple[str, Hashable]:
    """The section in which a piece of evidence stands, and its row's key there; no section where
    it stands in none."""
    section = dispute_words.EVIDENCE.get(kind, "")
    return section, key if section == SIGNED else (key,)


def entries(section: str, person: str, line: Any) -> tuple[Disputed, ...]:
    """The entries that a row of a section shows, which somebody may dispute."""
    if section == FLOWN:
        done = ((PERFORMANCES.name, (line.key, person, part.task)) for part in line.parts)
        return (*done, (SORTIES.name, (line.key,)))
    if section == SIGNED:
        return ((SIGNOFFS.name, (line.key,)),)
    return ((section, line.key),) if section in PAPERS else ()


def kind_of(section: str) -> Kind | None:
    """The kind of fact that is added and corrected in a section; None where nothing is."""
    return SIGNOFFS if section == SIGNED else PAPERS.get(section)


def table(section: str, asked: Asked) -> Table:
    """What a section shows; what is disputed in it is marked."""
    made = _papers(PAPERS[section], asked) if section in PAPERS else _TABLES[section](asked)

    def shown(line: Any) -> Iterable[Disputed]:
        return entries(section, asked.person, line)

    return dispute_words.marked(made, shown, open_disputes(asked.snapshot))


def _standings(asked: Asked) -> Table:
    lines = person_standings.standing_lines(asked.snapshot.reckoning, asked.person, asked.on)
    return person_standings.standings_table(lines)


def _tasks(asked: Asked) -> Table:
    books = asked.snapshot.reckoning.evidence.books[asked.person]
    lines = task_book.task_lines(books, asked.snapshot.standard(asked.on), asked.on)
    return task_book.task_table(lines, asked.names)


def _signoffs(asked: Asked) -> Table:
    return signoff_lines.signoff_table(signed_lines(asked))


def signed_lines(asked: Asked) -> tuple[SignOffLine, ...]:
    """A person's sign-offs, each with what its signatures are worth."""
    rows = asked.snapshot.rows(SIGNOFFS)
    titles = _task_titles(asked.snapshot)
    lines = signoff_lines.signoff_lines(rows, asked.person, asked.on, titles, asked.names)
    return signoff_lines.with_signatures(lines, asked.snapshot)


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


def _occurrences(asked: Asked) -> Table:
    """Those that the person reported or was there at; none for whoever may not read them."""
    snapshot = asked.snapshot
    if snapshot.closed(OCCURRENCES) is not None:
        return occurrence_table.occurrence_table(())
    evidence = snapshot.reckoning.evidence
    done = evidence.books[asked.person].performances.values()
    sorties = {evidence.sorties.key[place] for one in done for place in one.sortie}
    lines = occurrence_table.occurrence_lines(snapshot.rows(OCCURRENCES), snapshot.editions.zone)
    return occurrence_table.occurrence_table(
        occurrence_table.of_person(lines, asked.person, sorties)
    )


_TABLES: Final[Mapping[str, Callable[[Asked], Table]]] = MappingProxyType(
    {
        STANDINGS: _standings,
        TASKS: _tasks,
        SIGNED: _signoffs,
        FLOWN: _sorties,
        HAPPENED: _occurrences,
    }
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
