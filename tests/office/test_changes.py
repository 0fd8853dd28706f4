"""What an act does to where people stand today."""

from collections.abc import Collection
from datetime import date, timedelta
from zoneinfo import ZoneInfo

import pytest

from crewtrack import facts
from crewtrack.facts import AIRCRAFT, ASSIGNMENTS, PEOPLE, PERFORMANCES, SIGNOFFS, SORTIES, WAIVERS
from crewtrack.office import recording, snapshot
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Strike
from crewtrack.records.acting import Act
from crewtrack.records.evidence_of import evidence_of
from tests.office.given_by_hand import (
    MENDED,
    changed,
    done,
    held,
    recovery,
    row,
    signoff,
    sortie,
)
from tests.office.unit_at_work import STANDARD, Unit

FIRST = date(2026, 6, 1)
ONLY = STANDARD.replace("2026-1", "2026-2").replace("2026-01-01", "2026-05-01").replace(
    'within = "P90D"', 'within = "P90D", only = { aircraft = ["quad"] }'
)  # fmt: skip


def words(changes: Changes) -> list[tuple[str, str, str]]:
    return [(one.person, one.before.word, one.after.word) for one in changes.standings]


def as_whole(unit: Unit, *given: Entry | Strike) -> Changes:
    """Do it, and see that what it says it did is what two whole readings differ in."""
    before = snapshot.take(unit.office).reckoning.standings(FIRST)
    changes = done(unit, *given, order=MENDED)
    after = snapshot.take(unit.office).reckoning.standings(FIRST)
    was = {(one.person, one.qualification): one for one in before}
    moved = {
        (one.person, one.qualification)
        for one in after
        if (old := was.get((one.person, one.qualification))) is not None
        and (old.word, old.since, old.through, old.by_waiver)
        != (one.word, one.since, one.through, one.by_waiver)
    }
    assert {(one.person, one.qualification) for one in changes.standings} >= moved
    assert all(one.after in after for one in changes.standings)
    return changes


def test_nothing_moves_where_nobodys_books_change(full_unit: Unit) -> None:
    changes = as_whole(full_unit, Entry(SORTIES, sortie("S-9")))
    assert (changes.touched, changes.standings) == ((), ())


def test_whoever_is_touched_but_stands_where_he_stood_is_not_told(full_unit: Unit) -> None:
    changes = as_whole(full_unit, Entry(PERFORMANCES, recovery("V-01", "S-3")))
    assert (changes.touched, changes.standings) == (("V-01",), ())


def test_a_new_person_stood_nowhere_before(full_unit: Unit) -> None:
    person = Entry(PEOPLE, row(PEOPLE, person="K-03", name="Noor Vos"))
    values: dict[str, facts.Value] = {
        "person": "K-03",
        "qualification": "deck-pilot",
        "from": FIRST,
    }
    assignment = Entry(ASSIGNMENTS, row(ASSIGNMENTS, **values))
    changes = as_whole(full_unit, person, assignment)
    assert words(changes) == [("K-03", "none", "training")]
    assert changes.standings[0].name == "Noor Vos"


def test_a_person_who_is_struck_out_stands_nowhere_afterwards(full_unit: Unit) -> None:
    given = [
        Strike(PEOPLE, ("K-02",), 1),
        Strike(ASSIGNMENTS, ("K-02", "deck-pilot", date(2026, 1, 1)), 1),
        Strike(PERFORMANCES, ("S-1", "K-02", "hand-recovery"), 1),
        Strike(SIGNOFFS, ("E-2",), 1),
    ]
    changes = done(full_unit, *given, order=MENDED)
    assert words(changes) == [("K-02", "due", "none")]
    assert changes.standings[0].name == "Олена Ґедзь"


def test_a_sign_off_that_was_the_wrong_persons_moves_both(full_unit: Unit) -> None:
    values, number = held(full_unit, SIGNOFFS, "E-1")
    changes = as_whole(full_unit, Entry(SIGNOFFS, changed(values, SIGNOFFS, person="K-02"), number))
    assert changes.touched == ("K-01", "K-02")
    assert [(person, after) for person, _, after in words(changes)] == [("K-01", "training")]


def test_a_waiver_shows_in_what_a_standing_rests_on(full_unit: Unit) -> None:
    waiver: dict[str, facts.Value] = {
        "waiver": "W-1", "person": "K-01", "qualification": "deck-pilot",
        "requirement": "recency", "from": FIRST, "through": FIRST + timedelta(days=90),
        "reason": "storms", "by": "V-01",
    }  # fmt: skip
    changes = as_whole(full_unit, Entry(WAIVERS, row(WAIVERS, **waiver)))
    assert [one.after.by_waiver for one in changes.standings] == [("W-1",)]


def test_another_kind_of_aircraft_moves_those_who_flew_it(full_unit: Unit) -> None:
    kite = row(AIRCRAFT, aircraft="A-1", name="Kite", kind="quad")
    done(full_unit, Entry(AIRCRAFT, kite))
    flown, number = held(full_unit, SORTIES, "S-2")
    done(full_unit, Entry(SORTIES, changed(flown, SORTIES, aircraft="A-1"), number), order=MENDED)
    full_unit.adopt(ONLY, "light ones alone")
    changes = as_whole(full_unit, Entry(AIRCRAFT, changed(kite, AIRCRAFT, kind="wing"), 1))
    assert changes.touched == ("K-01",)
    assert words(changes) == [("K-01", "current", "training")]


def test_a_sortie_that_moves_moves_those_aboard_and_nobody_else(full_unit: Unit) -> None:
    flown, number = held(full_unit, SORTIES, "S-1")
    later = changed(flown, SORTIES, launched="2026-05-30T10:00-04:00")
    changes = as_whole(full_unit, Entry(SORTIES, later, number))
    assert changes.touched == ("K-02",)
    assert words(changes) == [("K-02", "due", "current")]


def test_signing_somebody_off_touches_that_person_alone(full_unit: Unit) -> None:
    assert as_whole(full_unit, Entry(SIGNOFFS, signoff("E-9"))).touched == ("K-02",)


def test_what_was_before_is_read_only_where_it_is_not_at_hand(
    full_unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    def counted(act: Act, people: Collection[str], zone: ZoneInfo, *seqs: int) -> object:
        asked.append(len(seqs))
        return evidence_of(act, people, zone, *seqs)

    monkeypatch.setattr(recording, "evidence_of", counted)
    state = snapshot.take(full_unit.office)
    full_unit.office.keep(state.head, state.reckoning)
    for key in ("S-9", "S-8"):
        given = [Entry(SORTIES, sortie(key)), Entry(PERFORMANCES, recovery("K-02", key))]
        as_whole(full_unit, *given)
    assert asked == [1, 2]
