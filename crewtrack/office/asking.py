"""Questions to the record: down once to read, then the engine, then one value back."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from crewtrack.engine.standings import Explanation, HistoryRow, Roster
from crewtrack.errors import Fault, Refused
from crewtrack.files import fault_list
from crewtrack.office.office import Office
from crewtrack.office.snapshot import take
from crewtrack.phrases import later, phrase


def roster(office: Office, on: date | None = None, known_at: datetime | None = None) -> Roster:
    """People on the books × qualifications of the edition on a day (today where None)."""
    snapshot = take(office, known_at)
    return snapshot.roster(on or snapshot.today)


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
    faults = _unknown("PERSON", later("person"), person, reckoning.evidence.books)
    known = dict.fromkeys(view.editions.qualifications)
    faults += _unknown("QUALIFICATION", later("qualification"), qualification, known)
    if faults:
        raise Refused(*faults)
    return reckoning.explain(person, qualification, day)


def _unknown(place: str, what: str, given: str, known: Mapping[str, Any]) -> list[Fault]:
    if given in known:
        return []
    return [
        Fault(
            place,
            "",
            phrase("no {what} {key}", what=phrase(what), key=repr(given)),
            did_you_mean(given, known),
        )
    ]


def did_you_mean(given: str, known: Mapping[str, Any]) -> str:
    """A cure for a name that is not known: the nearest one, or some that are."""
    few = list(known)[:8]
    names = ", ".join((*few, "…") if len(known) > len(few) else few)
    some = phrase("known are {names}", names=names) if few else phrase("none is recorded yet")
    return fault_list.did_you_mean(given, known) or some
