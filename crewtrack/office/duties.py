"""Duties decide who may do what: one table, for the desk and the command line alike.

What an act amounts to is read off what it writes, never off who calls: so a file that is imported
asks for the same duty as a form that does the same.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from crewtrack.facts import (
    CERTIFICATIONS,
    DISPUTES,
    KEYS,
    OCCURRENCES,
    PEOPLE,
    PERFORMANCES,
    POLICIES,
    SIGNOFFS,
    SORTIES,
    STANDDOWNS,
    WAIVERS,
    Kind,
    Row,
)
from crewtrack.phrases import later

IMPORT: Final = "import"
"""The kind of an act that takes files in, and the word for that deed."""


@dataclass(frozen=True, slots=True)
class Deed:
    """Something that only some may do. ``duties``: any of them will do, none is asked of
    anybody who is signed in. ``signed``: with the key of whoever does it."""

    told: str
    duties: tuple[str, ...] = ()
    signed: bool = False


DEEDS: Final[Mapping[str, Deed]] = {
    "log": Deed(later("log a sortie that one was on")),
    "report": Deed(later("report an occurrence")),
    "dispute": Deed(later("dispute an entry")),
    "sign-off": Deed(later("sign off a task"), ("evaluator",), signed=True),
    "withdraw": Deed(later("withdraw a result"), ("officer", "chief"), signed=True),
    "withdraw-own": Deed(later("withdraw a result of one's own"), signed=True),
    "certify": Deed(later("certify a result"), signed=True),
    "correct": Deed(later("correct what is recorded"), ("officer", "chief")),
    "keep": Deed(later("keep people, boats, aircraft and certificates"), ("officer", "chief")),
    "import": Deed(later("import files"), ("officer", "chief"), signed=True),
    "export": Deed(later("export the record"), ("officer", "chief")),
    "restore": Deed(later("put a backup in the record's place"), ("officer", "chief")),
    "adopt": Deed(later("adopt an edition of the standard"), ("officer", "chief"), signed=True),
    "answer": Deed(later("answer occurrences and disputes"), ("officer", "chief")),
    "read-occurrences": Deed(later("read occurrences"), ("officer", "chief")),
    "grant": Deed(later("grant waivers, extensions and stand-downs"), ("chief",), signed=True),
    "letter": Deed(later("sign letters of authorization"), ("chief",), signed=True),
    "duties": Deed(later("set duties"), ("chief",), signed=True),
    "access": Deed(later("give people access"), ("chief",), signed=True),
    "policy": Deed(later("set what the unit has decided"), ("chief",), signed=True),
    "seal": Deed(later("seal what is past retention"), ("officer", "chief"), signed=True),
}
"""All deeds, by the word that the code has for each. Who certifies is said by the task in the
standard, and it takes an officer and a chief to seal."""


@dataclass(frozen=True, slots=True)
class Written:
    """One fact that an act writes: as it was (None: it was not there, or was struck out) and as
    it will be (None: it is struck out)."""

    kind: Kind
    before: Row | None
    after: Row | None
    place: str = ""


def deeds_of(author: str, written: Collection[Written]) -> Iterator[tuple[str, Written]]:
    """What it amounts to that a person writes some facts, each with the fact that makes it so."""
    crews = _crews(written)
    for one in written:
        yield _deed(author, one, crews), one
        if one.kind is PEOPLE and _value(one.before, PEOPLE, "duties") != _value(
            one.after, PEOPLE, "duties"
        ):
            yield "duties", one


def _crews(written: Iterable[Written]) -> Mapping[object, set[object]]:
    """Who was on the sorties that are new: whoever performed there, or supervised."""
    crews: dict[object, set[object]] = {
        one.after[0]: set()
        for one in written
        if one.kind is SORTIES and one.before is None and one.after is not None
    }
    for one in written:
        if one.kind is PERFORMANCES and one.after is not None:
            for name in ("person", "supervisor"):
                found = crews.get(_value(one.after, PERFORMANCES, "sortie"), set())
                found.add(_value(one.after, PERFORMANCES, name))
    return crews


def _deed(author: str, one: Written, crews: Mapping[object, set[object]]) -> str:
    new = one.before is None
    match one.kind:
        case _ if one.kind in (SORTIES, PERFORMANCES):
            row = one.after or one.before
            return "log" if author in crews.get(_value(row, one.kind, "sortie"), ()) else "correct"
        case _ if one.kind is SIGNOFFS:
            return _of_signoff(author, one)
        case _ if one.kind is CERTIFICATIONS:
            return "certify" if new else "correct"
        case _ if one.kind in (WAIVERS, STANDDOWNS):
            return "grant"
        case _ if one.kind is OCCURRENCES:
            return "report" if new else "answer"
        case _ if one.kind is DISPUTES:
            return "dispute" if new else "answer"
        case _:
            return {KEYS.name: "access", POLICIES.name: "policy"}.get(one.kind.name, "keep")


def _of_signoff(author: str, one: Written) -> str:
    if one.before is None:
        return "sign-off"
    withdrawn = _value(one.before, SIGNOFFS, "withdrawn") is None and one.after is not None
    if withdrawn and _value(one.after, SIGNOFFS, "withdrawn") is not None:
        own = _value(one.before, SIGNOFFS, "evaluator") == author
        return "withdraw-own" if own else "withdraw"
    return "correct"


def _value(row: Row | None, kind: Kind, name: str) -> object:
    """What a row has in a column; nothing where there is no row."""
    found = None if row is None else row[kind.index(name)]
    return found or None
