"""The engine's one entry: evidence and editions in, standings, spans and reasons out."""

from collections.abc import Iterator
from datetime import date

from crewtrack.engine.absences import absences
from crewtrack.engine.case import Case
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.days import FOREVER
from crewtrack.engine.evidence import Books, Evidence
from crewtrack.engine.reasons import NO_BIRTH_DATE, explained
from crewtrack.engine.requirement import Certified, Holds, Requirement, inside
from crewtrack.engine.spans import Days, as_spans
from crewtrack.engine.standard import Editions, Qualification, Standard
from crewtrack.engine.standing import Docket, on_the_books, standing
from crewtrack.engine.standings import Explanation, HistoryRow, Standing
from crewtrack.engine.wording import certificate, relief_told
from crewtrack.phrases import joined, phrase


class Reckoning:
    """Answers about one body of evidence under one set of editions.

    Nothing here reads a clock: the day is always a parameter, and counts all evidence dated up
    to and including it and nothing dated later. People and qualifications are named by their
    keys; an unknown person is a KeyError, and to an unknown qualification nobody is assigned.
    """

    def __init__(self, evidence: Evidence, editions: Editions) -> None:
        self.evidence = evidence
        self.editions = editions
        self._conditions = tuple(
            Conditions(evidence.sorties, standard) for standard in editions.standards
        )
        self._dockets: dict[str, Docket] = {}

    def standing(self, person: str, qualification: str, on: date) -> Standing:
        """Where one person is with one qualification on a day."""
        day = on.toordinal()
        return standing(self.docket(self.evidence.books[person], day), qualification, day)

    def standings(self, on: date) -> tuple[Standing, ...]:
        """Everybody on the books that day × the qualifications of that day's edition, by person
        key, then in the order of the editions: the first one's, then new ones."""
        day = on.toordinal()
        keys = [told.key for told in self.editions.qualifications_on(day)]
        found: list[Standing] = []
        for person in self.people(on):
            docket = self.docket(self.evidence.books[person], day)
            found.extend(standing(docket, key, day) for key in keys)
        return tuple(found)

    def people(self, on: date) -> tuple[str, ...]:
        """The keys of everybody on the books on a day, in their order."""
        spans = {key: on_the_books(books) for key, books in self.evidence.books.items()}
        day = on.toordinal()
        return tuple(sorted(k for k, (joined, left) in spans.items() if joined <= day <= left))

    def history(self) -> tuple[HistoryRow, ...]:
        """The days on which each person met each qualification, within assignment and time on
        the books, stand-downs taken out; only pairs with an assignment."""
        return tuple(
            row for person in sorted(self.evidence.books) for row in self.history_of(person)
        )

    def history_of(self, person: str) -> tuple[HistoryRow, ...]:
        """One person's part of the history."""
        docket = self.docket(self.evidence.books[person], FOREVER)
        return tuple(
            HistoryRow(person, key, as_spans(docket.counting(key)))
            for key in self.editions.qualifications
            if docket.assigned(key)
        )

    def explain(self, person: str, qualification: str, on: date) -> Explanation:
        """A standing with everything that it rests on."""
        day = on.toordinal()
        books = self.evidence.books[person]
        docket = self.docket(books, day)
        case = docket.case_on(day)
        told = case.standard.qualifications.get(qualification)
        needs = told.needs if told else ()
        return Explanation(
            standing(docket, qualification, day),
            books.person.name,
            told.title if told else qualification,
            case.standard.edition,
            as_spans(docket.met(qualification)),
            tuple(explained(case, qualification, need, day) for need in needs),
            _notes(case, qualification),
        )

    def met(
        self, person: str, standard: Standard, requirement: Requirement, on: date | None
    ) -> Days:
        """The days on which one requirement's own conditions are met under one edition, waivers
        and extensions left out, with evidence up to ``on`` (None: all)."""
        books = self.evidence.books[person]
        day = FOREVER if on is None else on.toordinal()
        docket = self.docket(books, day).leaving_out(w.key for w in books.waivers)
        index = self.editions.standards.index(standard)
        return docket.cases[index].requirement("", requirement)

    def docket(self, books: Books, until: int) -> Docket:
        """One person's cases under all editions, with evidence up to a day; what is reckoned for
        one day serves all others."""
        key = books.person.key
        if key not in self._dockets:
            self._dockets[key] = self.docket_of(books)
        return self._dockets[key].as_of(until)

    def docket_of(self, books: Books) -> Docket:
        """The cases of books that may differ from the record's own, with all that is in them;
        nothing of it is kept."""
        each = zip(self.editions.standards, self._conditions, strict=True)
        return Docket(
            self.editions,
            tuple(Case(books, self.evidence, standard, held, FOREVER) for standard, held in each),
        )


def _notes(case: Case, qualification: str) -> tuple[str, ...]:
    """What else a reader should know."""
    told = case.standard.qualifications.get(qualification)
    if told is None:
        return (
            phrase(
                "edition {edition} has no qualification {key}",
                edition=case.standard.edition,
                key=repr(qualification),
            ),
        )
    return (
        *absences(case.books, qualification, told.title, case.until),
        *_waivers_without_effect(case, told),
        *_ages_unknown(case, told),
    )


def _waivers_without_effect(case: Case, told: Qualification) -> Iterator[str]:
    named = told.named()
    for waiver in sorted(case.books.waivers, key=lambda waiver: waiver.key):
        covers = waiver.first <= case.until <= waiver.last
        if waiver.qualification == told.key and covers and waiver.requirement not in named:
            yield phrase(
                "{kind} {key} has no effect: edition {edition} has no requirement {requirement}"
                " in {title}",
                kind=relief_told(waiver.kind),
                key=waiver.key,
                edition=case.standard.edition,
                requirement=repr(waiver.requirement),
                title=told.title,
            )


def _ages_unknown(case: Case, told: Qualification) -> Iterator[str]:
    """The kinds of certificate whose window hangs on an age that is not known."""
    if case.books.person.born is not None:
        return
    held = {c.kind for c in case.books.certificates if c.issued <= case.until}
    kinds = (r.kind for r in asked(case.standard, told) if isinstance(r, Certified) and r.ages)
    for kind in dict.fromkeys(kinds):
        if kind in held:
            yield joined(": ", (certificate(kind), phrase(NO_BIRTH_DATE)))


def asked(standard: Standard, told: Qualification) -> Iterator[Requirement]:
    """All that a qualification asks for, at any depth, also by way of others."""
    for requirement in (r for need in told.needs for r in inside(need)):
        yield requirement
        if isinstance(requirement, Holds):
            yield from asked(standard, standard.qualifications[requirement.qualification])
