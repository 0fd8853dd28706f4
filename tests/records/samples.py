"""A small record with something of every kind in it, revised and withdrawn, for the tests."""

from datetime import UTC, date, datetime, timedelta, timezone
from itertools import count
from pathlib import Path
from typing import Final

from crewtrack import facts
from crewtrack.facts import Row
from crewtrack.records.signatures import SigningKey
from crewtrack.records.store import Record, create

EAST: Final = timezone(timedelta(hours=-5))
FIRST: Final = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
"""The instant of the first act; each further one comes an hour later."""

PEOPLE: Final[list[Row]] = [
    ("K-07", "Ilse Ödegård", date(2020, 1, 1), None, date(1988, 2, 29), None, ("pilot", "helm")),
    ("K-02", "Νίκος Παπάς", None, None, None, "n@example.org", ()),
    ("K-11", "Дарья", date(2021, 5, 1), date(2026, 2, 1), None, None, ("evaluator",)),
]
ASSIGNMENTS: Final[list[Row]] = [
    ("K-07", "deck-pilot", date(2020, 2, 1), None),
    ("K-02", "observer", date(2021, 2, 1), date(2021, 12, 31)),
]
VESSELS: Final[list[Row]] = [("V-1", "Juniper", "rib", 8.5), ("V-2", "Alder", None, None)]
AIRCRAFT: Final[list[Row]] = [("A-1", "Kite", "light-quad", 0.9)]


def sortie(key: str, launched: datetime, **other: facts.Value) -> Row:
    """A sortie of 13 minutes, live, off the first vessel, with ``other`` columns changed."""
    values: dict[str, facts.Value] = {
        "sortie": key, "launched": launched, "minutes": 13, "setting": "live", "vessel": "V-1",
        **other,
    }  # fmt: skip
    return tuple(values.get(name) for name in facts.SORTIES.names)


SORTIES: Final[list[Row]] = [
    sortie("S-2", datetime(2026, 2, 2, 6, 40, tzinfo=EAST), lat=47.1, lon=-88.6, way="drifting",
           sea=3, wind_from=240.0, wind=14.5, aircraft="A-1"),
    sortie("S-1", datetime(2026, 2, 1, 23, 30, tzinfo=EAST), heading=0.0, speed=1.2, set=90.0,
           drift=0.25, light="night", light_reason="log book", purpose="drill", remarks="a\nb"),
    sortie("S-3", datetime(2026, 2, 2, 11, 40, tzinfo=UTC), vessel="V-2", setting="drill"),
]  # fmt: skip
PERFORMANCES: Final[list[Row]] = [
    ("S-3", "K-07", "hand-recovery", 1, "K-11", 2, 1, "apart"),
    ("S-2", "K-07", "hand-recovery", 2, None, None, None, None),
    ("S-1", "K-07", "hand-recovery", 1, None, None, None, None),
    ("S-1", "K-02", "observer-watch", 1, "K-07", None, None, None),
]
SIGNOFFS: Final[list[Row]] = [
    ("G-1", "K-07", "hand-recovery", date(2026, 2, 2), "alone", "passed", "K-11", "S-2", "firm",
     None, None, None),
    ("G-2", "K-02", "observer-watch", date(2026, 2, 3), "briefed", "failed", "K-11", None, None,
     None, None, None),
]  # fmt: skip
CERTIFICATES: Final[list[Row]] = [
    ("C-1", "K-07", "medical", date(2025, 1, 2), date(2027, 1, 31), None, "12/3"),
    ("C-2", "K-07", "remote-pilot", date(2025, 1, 2), None, date(2026, 1, 1), None),
]
WAIVERS: Final[list[Row]] = [
    ("W-1", "K-07", "deck-pilot", "recency", date(2026, 2, 1), date(2026, 3, 1), "ice", "chief",
     "extension"),
]  # fmt: skip
STANDDOWNS: Final[list[Row]] = [
    ("D-1", "K-02", None, date(2026, 2, 20), None, "injury", "chief"),
    ("D-2", "K-07", "deck-pilot", date(2026, 2, 20), date(2026, 2, 22), "leave", "chief"),
]
CERTIFICATIONS: Final[list[Row]] = [("G-2", date(2026, 2, 5), "K-07", "seen too")]
KEYS: Final[list[Row]] = [("0f" * 16, "K-11", "ab" * 32, date(2026, 2, 1))]
OCCURRENCES: Final[list[Row]] = [
    ("O-1", datetime(2026, 2, 2, 6, 45, tzinfo=EAST), "S-2", "drifting", 3, "a line in the rotor",
     ("damage", "hurt"), "K-07", "lines are stowed now", "K-02", date(2026, 2, 6)),
    ("O-2", datetime(2026, 2, 3, 6, 45, tzinfo=UTC), None, None, None, "close to the mast", (),
     None, None, None, None),
]  # fmt: skip
DISPUTES: Final[list[Row]] = [
    ("P-1", "sorties", "S-2", date(2026, 2, 4), "K-07", "it was two", "refused", "seen by two",
     "K-02", date(2026, 2, 7)),
]  # fmt: skip
POLICIES: Final[list[Row]] = [("retention", "P5Y", "the unit's own rule")]

ROWS: Final = {
    facts.PEOPLE: PEOPLE,
    facts.ASSIGNMENTS: ASSIGNMENTS,
    facts.VESSELS: VESSELS,
    facts.AIRCRAFT: AIRCRAFT,
    facts.SORTIES: SORTIES,
    facts.PERFORMANCES: PERFORMANCES,
    facts.SIGNOFFS: SIGNOFFS,
    facts.CERTIFICATIONS: CERTIFICATIONS,
    facts.CERTIFICATES: CERTIFICATES,
    facts.WAIVERS: WAIVERS,
    facts.STANDDOWNS: STANDDOWNS,
    facts.KEYS: KEYS,
    facts.OCCURRENCES: OCCURRENCES,
    facts.DISPUTES: DISPUTES,
    facts.POLICIES: POLICIES,
}
"""All rows of the second act, kind by kind."""

WITHDRAWN: Final[Row] = (*SIGNOFFS[0][:9], date(2026, 2, 28), "chief", "not seen whole")
LATER_SORTIE: Final = sortie("S-1", datetime(2026, 2, 3, 8, 0, tzinfo=EAST), sea=4)


STRUCK: Final = ("S-1", "K-02", "observer-watch")
"""The key of the performance that ``strike_some`` leaves struck out."""


def at(act: int) -> datetime:
    """The instant of an act of the sample, by its place in the chain."""
    return FIRST + timedelta(hours=act - 1)


def open_sample(path: Path, first: int = 1) -> Record:
    """A record at ``path`` in which acts have the ids "act-1", "act-2" …, from ``first`` on, so
    that the same record has the same digests."""
    numbers = count(first)
    return Record.open(path, new_id=lambda: f"act-{next(numbers)}")


def make_sample(path: Path) -> None:
    """Four acts: an edition; all rows; a withdrawal and a sortie put right; another edition
    and another person."""
    create(path)
    with open_sample(path) as record:
        with record.act("init", "officer", at(1)) as act:
            act.add_edition("2026-1", date(2026, 1, 1), 'edition = "2026-1"\n')
        with record.act("import", "officer", at(2)) as act:
            for kind, rows in ROWS.items():
                act.add(kind, rows)
        with record.act("import", "officer", at(3), "read again from paper") as act:
            signoff = act.current(facts.SIGNOFFS)[("G-1",)]
            act.revise(facts.SIGNOFFS, [(signoff.entry, signoff.number, WITHDRAWN)])
            flown = act.current(facts.SORTIES)[("S-1",)]
            act.revise(facts.SORTIES, [(flown.entry, flown.number, LATER_SORTIE)])
        with record.act("adopt", "chief", at(4)) as act:
            act.add_edition("2026-2", date(2026, 6, 1), 'edition = "2026-2"\n')
            act.add(facts.PEOPLE, [("K-20", "New", None, None, None, None, ())])


def strike_some(record: Record) -> None:
    """Two acts more: a performance and a waiver struck out, and the waiver brought back."""
    with record.act("strike", "officer", at(5), "entered by mistake") as act:
        for kind, key in ((facts.PERFORMANCES, STRUCK), (facts.WAIVERS, ("W-1",))):
            held = act.current(kind)[key]
            act.strike(kind, [(held.entry, held.number)])
    with record.act("import", "chief", at(6), "was right after all") as act:
        held = act.current_or_struck(facts.WAIVERS)[("W-1",)]
        act.revise(facts.WAIVERS, [(held.entry, held.number, WAIVERS[0])])


def sign_some(record: Record) -> None:
    """An act more: a sign-off, signed with a key whose secret is no secret."""
    signed = ("G-3", "K-02", "observer-watch", date(2026, 3, 1), "alone", "passed", "K-11", None,
              None, None, None, None)  # fmt: skip
    with record.act("sign-off", "K-11", at(7)) as act:
        act.add(facts.SIGNOFFS, [signed])
        act.sign("2026-1", SigningKey.of("K-11", bytes(range(32))))
