"""Questions to the record: down once to read, then the engine, then one value back."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any

from crewtrack.engine.absences import stand_downs
from crewtrack.engine.evidence import Waiver
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standings import Explanation, HistoryRow, Roster, Standing, StoodDown
from crewtrack.errors import Fault, Refused
from crewtrack.files import fault_list
from crewtrack.office.office import Office


def roster(office: Office, on: date | None = None, known_at: datetime | None = None) -> Roster:
    """People on the books × qualifications of the edition on a day (today where None)."""
    with office.view(known_at) as view:
        day = on or view.today
        reckoning = view.reckoning()
    rows = reckoning.standings(day)
    standard = view.editions.on(day.toordinal())
    people = reckoning.people(day)
    return Roster(
        on=day,
        known_at=known_at,
        unit=standard.unit,
        edition=standard.edition,
        head=view.head.digest,
        people=tuple(reckoning.evidence.books[key].person for key in people),
        qualifications=view.editions.qualifications_on(day.toordinal()),
        rows=rows,
        lapses=tuple(
            reckoning.explain(row.person, row.qualification, day)
            for row in rows
            if row.word == "lapsed"
        ),
        reliefs=_reliefs(reckoning, rows),
        standdowns=tuple(
            StoodDown(key, down)
            for key in people
            for down in stand_downs(reckoning.evidence.books[key], day.toordinal())
        ),
    )


def _reliefs(reckoning: Reckoning, rows: Sequence[Standing]) -> tuple[Waiver, ...]:
    """The waivers and extensions that any of the rows rests on, by key."""
    used = {key for row in rows for key in row.by_waiver}
    waivers = (one for books in reckoning.evidence.books.values() for one in books.waivers)
    return tuple(sorted((one for one in waivers if one.key in used), key=lambda one: one.key))


def history(
    office: Office,
    person: str | None = None,
    qualification: str | None = None,
    known_at: datetime | None = None,
) -> tuple[HistoryRow, ...]:
    """The spans of every person × qualification, or of one of either."""
    with office.view(known_at) as view:
        reckoning = view.reckoning()
    faults = []
    if person is not None:
        faults += _unknown("--person", "person", person, reckoning.evidence.books)
    if qualification is not None:
        known = dict.fromkeys(view.editions.qualifications)
        faults += _unknown("--qualification", "qualification", qualification, known)
    if faults:
        raise Refused(*faults)
    rows = reckoning.history() if person is None else reckoning.history_of(person)
    return tuple(row for row in rows if qualification in (None, row.qualification))


def why(
    office: Office,
    person: str,
    qualification: str,
    on: date | None = None,
    known_at: datetime | None = None,
) -> Explanation:
    """One standing, opened down to its evidence."""
    with office.view(known_at) as view:
        day = on or view.today
        reckoning = view.reckoning()
    faults = _unknown("PERSON", "person", person, reckoning.evidence.books)
    known = dict.fromkeys(view.editions.qualifications)
    faults += _unknown("QUALIFICATION", "qualification", qualification, known)
    if faults:
        raise Refused(*faults)
    return reckoning.explain(person, qualification, day)


def _unknown(place: str, what: str, given: str, known: Mapping[str, Any]) -> list[Fault]:
    if given in known:
        return []
    return [Fault(place, "", f"no {what} {given!r}", did_you_mean(given, known))]


def did_you_mean(given: str, known: Mapping[str, Any]) -> str:
    """A cure for a name that is not known: the nearest one, or some that are."""
    few = list(known)[:8]
    more = ", …" if len(known) > len(few) else ""
    some = f"known are {', '.join(few)}{more}" if few else "none is recorded yet"
    return fault_list.did_you_mean(given, known) or some
