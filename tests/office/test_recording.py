"""Recording by hand: one act, all or nothing, every fault at the entry that it is in."""

from datetime import date

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.facts import PEOPLE, PERFORMANCES, SIGNOFFS, SORTIES, VESSELS, WAIVERS
from crewtrack.office.changes import Changes
from crewtrack.office.entries import Entry, Order, Strike, fault_place, strike_place
from crewtrack.office.snapshot import history_of
from tests.office.given_by_hand import (
    ANA,
    MENDED,
    changed,
    done,
    faults,
    held,
    recovery,
    row,
    signoff,
    sortie,
)
from tests.office.unit_at_work import FIRST_ACT, Unit, places

PERSON = Entry(PEOPLE, row(PEOPLE, person="K-03", name="Noor Vos"))


def waiver(key: str, **more: facts.Value) -> Entry:
    values: dict[str, facts.Value] = {
        "person": "K-01", "qualification": "deck-pilot", "requirement": "recency",
        "from": date(2026, 6, 1), "through": date(2026, 6, 30), "reason": "storms", "by": "V-01",
    }  # fmt: skip
    return Entry(WAIVERS, row(WAIVERS, waiver=key, **(values | more)))


def test_a_new_fact_is_recorded_in_an_act_of_its_own(full_unit: Unit) -> None:
    changes = done(full_unit, PERSON)
    assert (changes.added, changes.revised, changes.struck) == ({"people": 1}, {}, {})
    (only,) = history_of(full_unit.office, PEOPLE, ("K-03",))
    assert (only.act.kind, only.act.author, only.act.reason) == ("record", "Ana", None)
    assert (only.act.at, only.act.seq) == (FIRST_ACT, changes.seq)
    assert (changes.digest, changes.seq) == (full_unit.head(), full_unit.office.newest())


def test_what_is_recorded_together_may_refer_to_each_other(full_unit: Unit) -> None:
    performance = Entry(PERFORMANCES, recovery("K-03", "S-9"))
    changes = done(full_unit, performance, Entry(SORTIES, sortie("S-9")), PERSON)
    assert changes.added == {"people": 1, "sorties": 1, "performances": 1}


def test_values_are_checked_as_those_of_a_file_are(full_unit: Unit) -> None:
    long = "x" * 300
    wrong = changed(sortie("S-9"), SORTIES, minutes=1441, purpose=long, way="sideways", lat=1.0)
    told = faults(full_unit, Entry(SORTIES, wrong))
    assert places(told) == [
        ("sorties 1", "minutes"),
        ("sorties 1", "way"),
        ("sorties 1", "purpose"),
        ("sorties 1", "lat"),
    ]


def test_a_value_is_kept_in_the_form_in_which_a_file_would_bring_it(full_unit: Unit) -> None:
    done(full_unit, Entry(PEOPLE, row(PEOPLE, person=" K-04 ", name="Zoe\u0308", email="")))
    kept, _ = held(full_unit, PEOPLE, "K-04")
    assert kept == row(PEOPLE, person="K-04", name="Zo\u00eb")


def test_a_cell_that_is_required_is_missed(full_unit: Unit) -> None:
    told = faults(full_unit, Entry(PEOPLE, row(PEOPLE, person="K-04")))
    assert places(told) == [("people 1", "name")]


def test_every_fault_is_told_at_once_in_the_order_of_the_entries(full_unit: Unit) -> None:
    before = full_unit.head()
    told = faults(
        full_unit,
        Entry(PERFORMANCES, recovery("K-01", "S-1")),
        Entry(PERFORMANCES, recovery("K-9", "S-1", times=0)),
        Entry(SORTIES, sortie("S-1")),
        Entry(SORTIES, sortie("S-8", vessel="B-1")),
        Strike(PEOPLE, ("K-7",), 1),
        order=Order(" "),
    )
    assert places(told) == [
        ("", "author"),
        ("performances 2", "times"),
        ("performances 2", "person"),
        ("sorties 1", "sortie"),
        ("sorties 2", "vessel"),
        ("struck people 1", "person"),
    ]
    assert full_unit.head() == before


def test_places_count_each_kind_from_one() -> None:
    assert fault_place(PERFORMANCES, 2) == "performances 2"
    assert strike_place(PERFORMANCES, 1) == "struck performances 1"


def test_a_key_that_is_taken_is_told_at_the_last_column_of_the_key(full_unit: Unit) -> None:
    (taken,) = faults(full_unit, Entry(SORTIES, sortie("S-1")))
    assert (taken.field, taken.problem) == ("sortie", "sortie 'S-1' is recorded already")
    (again,) = faults(full_unit, Entry(PERFORMANCES, recovery("K-02", "S-1")))
    assert again.field == "task"


def test_one_key_twice_in_an_act_is_refused_at_the_second(full_unit: Unit) -> None:
    (twice,) = faults(full_unit, PERSON, PERSON)
    assert (twice.place, twice.field) == ("people 2", "person")
    assert "as people 1" in twice.problem


def test_a_correction_is_a_revision_with_its_reason(full_unit: Unit) -> None:
    values, number = held(full_unit, PEOPLE, "K-01")
    corrected = changed(values, PEOPLE, name="Ana Novak")
    changes = done(full_unit, Entry(PEOPLE, corrected, number), order=Order("Ana", "married"))
    assert (changes.added, changes.revised) == ({}, {"people": 1})
    first, second = history_of(full_unit.office, PEOPLE, ("K-01",))
    assert (first.row, second.row, second.number) == (values, corrected, 2)
    assert second.act.reason == "married"


@pytest.mark.parametrize("reason", [None, "", " \n "])
def test_a_correction_without_a_reason_is_refused(full_unit: Unit, reason: str | None) -> None:
    values, number = held(full_unit, PEOPLE, "K-01")
    entry = Entry(PEOPLE, changed(values, PEOPLE, name="Ana Novak"), number)
    assert places(faults(full_unit, entry, order=Order("Ana", reason))) == [("", "reason")]


def test_what_is_recorded_just_so_already_is_not_written_again(full_unit: Unit) -> None:
    before = full_unit.head()
    assert done(full_unit, Entry(PEOPLE, *held(full_unit, PEOPLE, "K-01"))) == Changes()
    assert full_unit.head() == before


def test_whoever_was_slower_is_told_who_was_faster(full_unit: Unit) -> None:
    values, seen = held(full_unit, PEOPLE, "K-01")
    bo = Order("Bo", "moved away")
    done(full_unit, Entry(PEOPLE, changed(values, PEOPLE, email="a@example.org"), seen), order=bo)
    mine = Entry(PEOPLE, changed(values, PEOPLE, name="Ana Novak"), seen)
    (told,) = faults(full_unit, mine, order=MENDED)
    assert (told.place, told.field) == ("people 1", "person")
    assert told.problem == "Bo changed person 'K-01' meanwhile, at 2026-06-01 08:00-04:00"


def test_a_correction_of_what_is_not_there_is_refused(full_unit: Unit) -> None:
    (told,) = faults(full_unit, Entry(PEOPLE, PERSON.row, 1), order=MENDED)
    assert told.problem == "no person 'K-03' is recorded"


def test_a_waiver_is_judged_as_it_would_stand(full_unit: Unit) -> None:
    done(full_unit, waiver("W-1"))
    longer = waiver("W-2", from_=date(2026, 7, 1), through=date(2027, 3, 1))
    (told,) = faults(full_unit, longer)
    assert (told.place, told.field) == ("waivers 1", "through")
    assert "together with those that it touches" in told.problem
    assert history_of(full_unit.office, WAIVERS, ("W-2",)) == ()


def test_a_fact_that_is_struck_out_is_gone_and_its_history_stays(full_unit: Unit) -> None:
    strike = Strike(SIGNOFFS, ("E-1",), 1)
    changes = done(full_unit, strike, order=MENDED)
    assert (changes.struck, changes.revised) == ({"signoffs": 1}, {})
    assert full_unit.word("K-01") == "training"
    assert [one.struck for one in history_of(full_unit.office, SIGNOFFS, ("E-1",))] == [False, True]


def test_a_strike_needs_a_reason(full_unit: Unit) -> None:
    assert places(faults(full_unit, Strike(SIGNOFFS, ("E-1",), 1))) == [("", "reason")]


def test_what_is_struck_out_already_can_not_be_struck_out_again(full_unit: Unit) -> None:
    strike = Strike(SIGNOFFS, ("E-1",), 1)
    done(full_unit, strike, order=MENDED)
    (told,) = faults(full_unit, strike, order=MENDED)
    assert told.problem.startswith("Ana struck out sign-off 'E-1' meanwhile")


def test_what_others_refer_to_is_not_struck_out_alone(full_unit: Unit) -> None:
    (told,) = faults(full_unit, Strike(SORTIES, ("S-1",), 1), order=MENDED)
    assert (told.place, told.field) == ("struck sorties 1", "sortie")
    assert told.problem == "performance 'S-1 + K-02 + hand-recovery' refers to it"


def test_of_many_that_refer_to_it_a_few_are_named(full_unit: Unit) -> None:
    (told,) = faults(full_unit, Strike(PEOPLE, ("K-01",), 1), order=MENDED)
    assert told.problem.count("'") == 8
    done(full_unit, *(Entry(SIGNOFFS, signoff(f"E-1{n}", "K-01")) for n in range(4)))
    (told,) = faults(full_unit, Strike(PEOPLE, ("K-01",), 1), order=MENDED)
    assert told.problem.endswith("and 3 more refer to it")


def test_what_others_refer_to_is_struck_out_together_with_them(full_unit: Unit) -> None:
    changes = done(
        full_unit,
        Strike(SORTIES, ("S-1",), 1),
        Strike(PERFORMANCES, ("S-1", "K-02", "hand-recovery"), 1),
        order=MENDED,
    )
    assert changes.struck == {"sorties": 1, "performances": 1}
    assert changes.touched == ("K-02",)


def test_nothing_can_refer_to_what_the_same_act_strikes_out(full_unit: Unit) -> None:
    (told,) = faults(
        full_unit,
        Strike(SORTIES, ("S-1",), 1),
        Strike(PERFORMANCES, ("S-1", "K-02", "hand-recovery"), 1),
        Entry(PERFORMANCES, recovery("K-01", "S-1")),
        order=MENDED,
    )
    assert (told.place, told.field) == ("performances 1", "sortie")
    assert told.problem == "no sortie 'S-1'"


def test_a_reference_may_be_corrected_away_in_the_act_that_strikes(full_unit: Unit) -> None:
    boat = row(VESSELS, vessel="B-1", name="Heron")
    done(full_unit, Entry(VESSELS, boat), Entry(SORTIES, sortie("S-9", vessel="B-1")))
    kept = Entry(SORTIES, sortie("S-9"), 1)
    done(full_unit, Strike(VESSELS, ("B-1",), 1), kept, order=MENDED)
    assert held(full_unit, SORTIES, "S-9") == (sortie("S-9"), 2)


def test_the_key_of_what_was_struck_out_brings_it_back(full_unit: Unit) -> None:
    values, _ = held(full_unit, SIGNOFFS, "E-1")
    word = full_unit.word("K-01")
    done(full_unit, Strike(SIGNOFFS, ("E-1",), 1), order=MENDED)
    (told,) = faults(full_unit, Entry(SIGNOFFS, values))
    assert (told.field, told.problem) == (
        "reason", "bringing back what was struck out needs a reason"
    )  # fmt: skip
    changes = done(full_unit, Entry(SIGNOFFS, values), order=MENDED)
    assert (changes.added, changes.revised) == ({"signoffs": 1}, {})
    assert full_unit.word("K-01") == word


def test_nothing_is_written_where_writing_fails_half_way(
    full_unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise RecordUnusable("the disk is full")

    before = full_unit.head()
    monkeypatch.setattr("crewtrack.records.journal.append", full)
    with pytest.raises(RecordUnusable):
        done(full_unit, PERSON)
    assert full_unit.head() == before


def test_the_word_for_the_act_stands_in_the_journal(full_unit: Unit) -> None:
    done(full_unit, PERSON, order=Order("Ana", act_kind="join"))
    (only,) = history_of(full_unit.office, PEOPLE, ("K-03",))
    assert only.act.kind == "join"
    assert ANA.act_kind == "record"
