"""Everybody in the record, and whether they can sign in: what a chief looks at before giving
access to somebody or ending it."""

from dataclasses import dataclass
from datetime import date

from crewtrack.facts import KEYS, PEOPLE
from crewtrack.office.able import duties_in
from crewtrack.office.office import Office


@dataclass(frozen=True, slots=True)
class Access:
    """Somebody with their duties; ``key`` is the name of the key they sign with and ``since`` its
    first day, both None for whoever can't sign in."""

    person: str
    name: str
    duties: tuple[str, ...]
    key: str | None
    since: date | None


def access_of(office: Office) -> tuple[Access, ...]:
    """Everybody who is in the record, by key."""
    with office.record.reading() as reading:
        held = {str(row[1]): row for row in reading.rows(KEYS)}
        people = sorted(reading.rows(PEOPLE), key=lambda row: str(row[0]))
    found = []
    for row in people:
        key = held.get(str(row[0]))
        since = key[KEYS.index("from")] if key else None
        found.append(
            Access(
                str(row[0]),
                str(row[1]),
                duties_in(row),
                str(key[0]) if key else None,
                since if isinstance(since, date) else None,
            )
        )
    return tuple(found)
