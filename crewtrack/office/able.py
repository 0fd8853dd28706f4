"""Who can sign in, with which key, and who has which duty."""

from collections.abc import Iterable, Sequence
from typing import Final

from crewtrack.engine.wording import signer_told
from crewtrack.errors import Fault
from crewtrack.facts import KEYS, PEOPLE, Row
from crewtrack.phrases import either, joined, phrase
from crewtrack.records.finding import find
from crewtrack.records.reading import Reading

_FEW: Final = 5


def identified(reading: Reading) -> bool:
    """Whether people sign in to this record: from the first key on, for good."""
    return bool(reading.current_or_struck(KEYS))


def duties_of(reading: Reading, person: str) -> frozenset[str] | None:
    """Somebody's duties as they are recorded now; None for whoever is not in the record."""
    held = find(reading, PEOPLE, (person,))
    if held is None or held.struck:
        return None
    return frozenset(duties_in(held.row))


def duties_in(row: Row) -> tuple[str, ...]:
    """The duties in a row of people."""
    held = row[PEOPLE.index("duties")]
    return held if isinstance(held, tuple) else ()


def with_duty(row: Row, duty: str) -> Row:
    """A row of people in which a duty is among the duties."""
    place, held = PEOPLE.index("duties"), duties_in(row)
    return row if duty in held else (*row[:place], (*held, duty), *row[place + 1 :])


def key_row(reading: Reading, person: str) -> Row | None:
    """Somebody's key as it is recorded; None for whoever has none."""
    owner = KEYS.index("person")
    found = [row for row in reading.rows(KEYS) if row[owner] == person]
    return found[-1] if found else None


def current_key(reading: Reading, person: str) -> str | None:
    """The name of somebody's key; None for whoever has none."""
    row = key_row(reading, person)
    return None if row is None else str(row[0])


def able_rows(reading: Reading) -> tuple[Row, ...]:
    """The rows of everybody who has a key, in the order of their keys as people."""
    owners = {row[KEYS.index("person")] for row in reading.rows(KEYS)}
    return tuple(sorted((row for row in reading.rows(PEOPLE) if row[0] in owners), key=_key))


def _key(row: Row) -> str:
    return str(row[0])


def nobody_signed_in() -> Fault:
    """The fault of whoever would act, or read, where people sign in and nobody has."""
    problem = phrase("this record asks who you are, and nobody is signed in")
    return Fault("", "author", problem, phrase("sign in as yourself first"))


def lacking(reading: Reading, told: str, duties: Sequence[str], place: str) -> Fault:
    """The fault of a deed that asks for a duty, with whoever could do it."""
    problem = phrase("to {deed} takes {duty}", deed=phrase(told), duty=any_of(duties))
    able = _who_may(reading, duties)
    if not able:
        return Fault(place, "author", problem, phrase("nobody with a key could; ask a chief"))
    names = joined(", ", able[:_FEW])
    return Fault(place, "author", problem, phrase("{people} could do it", people=names))


def any_of(duties: Sequence[str]) -> str:
    """``an officer or a chief``."""
    return either([signer_told(duty) for duty in duties])


def _who_may(reading: Reading, duties: Iterable[str]) -> tuple[str, ...]:
    """Everybody with one of some duties who can sign in, as "K-01 Ada"."""
    asked = frozenset(duties)
    return tuple(
        f"{row[0]} {row[1]}" for row in able_rows(reading) if asked.intersection(duties_in(row))
    )
