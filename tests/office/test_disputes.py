"""Disputes: raised by everybody in their own name, answered by an officer, on the record."""

from datetime import date

import pytest

from crewtrack.errors import Refused
from crewtrack.facts import ASSIGNMENTS, DISPUTES, KEYS, PERFORMANCES, SIGNOFFS, SORTIES, Kind
from crewtrack.office import access, disputes, looking_back, recording, snapshot
from crewtrack.office.answering import Answer
from crewtrack.office.disputes import Dispute, Objection
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.given_rows import FactKey
from tests.office.given_by_hand import changed, done, held, row
from tests.office.identified_unit import OFFICER, words
from tests.office.unit_at_work import ON, Unit, answers

WORDS = "I was ashore that day."
PERFORMED = ("S-3", "K-01", "hand-recovery")


def sign_in(unit: Unit, person: str) -> Order:
    """Somebody signs in; returns an order of theirs."""
    access.sign_in(unit.office, person, words(person))
    return Order(person)


def disputed(
    unit: Unit, kind: Kind = PERFORMANCES, key: FactKey = PERFORMED, by: str = "K-01"
) -> None:
    disputes.raise_dispute(unit.office, Objection(kind, key, WORDS, by), Order(by))


def answered(
    unit: Unit, outcome: str | None, order: Order, words: str = "The log says so."
) -> None:
    disputes.answer(unit.office, Answer("Q-0001", 1, words, order.author, outcome), order)


def test_a_dispute_marks_its_entry_until_it_is_answered(full_unit: Unit) -> None:
    disputed(full_unit)
    marks = disputes.open_disputes(snapshot.take(full_unit.office))
    (one,) = marks["performances", PERFORMED]
    assert one == Dispute("Q-0001", PERFORMANCES, PERFORMED, date(2026, 6, 1), "K-01", WORDS,
                          None, None, None, None)  # fmt: skip
    answered(full_unit, "refused", Order("V-01"))
    assert disputes.open_disputes(snapshot.take(full_unit.office)) == {}
    (one,) = disputes.listed(full_unit.office)
    assert (one.outcome, one.answer, one.answered_by) == ("refused", "The log says so.", "V-01")


def test_an_entry_counts_as_it_stands_meanwhile(full_unit: Unit) -> None:
    before = answers(full_unit.office, ON)
    disputed(full_unit)
    assert answers(full_unit.office, ON) == before


def test_an_entry_can_be_disputed_twice(full_unit: Unit) -> None:
    disputed(full_unit)
    disputed(full_unit, by="K-02")
    marks = disputes.open_disputes(snapshot.take(full_unit.office))
    assert [one.by for one in marks["performances", PERFORMED]] == ["K-01", "K-02"]


@pytest.mark.parametrize(
    ("kind", "key"),
    [
        (SORTIES, ("S-1",)),
        (SIGNOFFS, ("E-1",)),
        (ASSIGNMENTS, ("K-01", "deck-pilot", date(2026, 1, 1))),
    ],
)
def test_entries_of_every_kind_can_be_disputed(full_unit: Unit, kind: Kind, key: FactKey) -> None:
    disputed(full_unit, kind, key)
    assert (kind.name, key) in disputes.open_disputes(snapshot.take(full_unit.office))


def faults(unit: Unit, kind: Kind, key: FactKey) -> list[tuple[str, str]]:
    with pytest.raises(Refused) as refused:
        disputed(unit, kind, key)
    return [(fault.place, fault.field) for fault in refused.value.faults]


def test_what_is_not_there_can_t_be_disputed(full_unit: Unit) -> None:
    assert faults(full_unit, SORTIES, ("S-99",)) == [("disputes 1", "fact")]


def test_what_is_struck_out_can_t_be_disputed(full_unit: Unit) -> None:
    done(full_unit, Strike(SIGNOFFS, ("E-1",), 1), order=Order("Ana", "a slip"))
    assert faults(full_unit, SIGNOFFS, ("E-1",)) == [("disputes 1", "fact")]


def test_keys_are_not_disputed(full_unit: Unit) -> None:
    assert faults(full_unit, KEYS, ("key",)) == [("disputes 1", "kind")]


def test_a_dispute_says_something(full_unit: Unit) -> None:
    with pytest.raises(Refused) as refused:
        disputes.raise_dispute(
            full_unit.office, Objection(SORTIES, ("S-1",), "", "K-01"), Order("K-01")
        )
    assert [fault.field for fault in refused.value.faults] == ["words"]


def test_a_correction_and_the_answer_are_two_acts_on_the_record(full_unit: Unit) -> None:
    disputed(full_unit)
    told, number = held(full_unit, PERFORMANCES, *PERFORMED)
    mended = Entry(PERFORMANCES, changed(told, PERFORMANCES, times=2), number)
    done(full_unit, mended, order=Order("V-01", "counted again", "correct"))
    answered(full_unit, "revised", Order("V-01"), "Twice, not once.")
    acts = looking_back.acts_back(full_unit.office, looking_back.Sought(), most=3)
    assert [(act.kind, act.reason) for act in acts] == [
        ("answer", "Twice, not once."), ("correct", "counted again"), ("dispute", "")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("outcome", "words", "field"),
    [("refused", "", "answer"), (None, "So.", "answer"), ("perhaps", "So.", "outcome")],
)
def test_an_answer_has_an_outcome_and_words(
    full_unit: Unit, outcome: str | None, words: str, field: str
) -> None:
    disputed(full_unit)
    with pytest.raises(Refused) as refused:
        answered(full_unit, outcome, Order("V-01"), words)
    assert field in {fault.field for fault in refused.value.faults}


def test_whoever_saw_an_earlier_answer_is_told(full_unit: Unit) -> None:
    disputed(full_unit)
    answered(full_unit, "refused", Order("V-01"))
    with pytest.raises(Refused) as refused:
        answered(full_unit, "revised", Order("V-01"))
    assert "meanwhile" in refused.value.faults[0].problem


def test_everybody_signed_in_disputes_for_themselves(identified: Unit) -> None:
    sign_in(identified, "K-02")
    disputed(identified, by="K-02")
    objection = Objection(PERFORMANCES, PERFORMED, WORDS, "K-01")
    with pytest.raises(Refused) as refused:
        disputes.raise_dispute(identified.office, objection, Order("K-02"))
    assert [fault.field for fault in refused.value.faults] == ["by"]


def test_nobody_disputes_signed_out(identified: Unit) -> None:
    with pytest.raises(Refused) as refused:
        disputed(identified, by="K-02")
    assert [fault.field for fault in refused.value.faults] == ["author"]


def test_officers_answer_and_others_are_told_who_could(identified: Unit) -> None:
    order = sign_in(identified, "K-02")
    disputed(identified, by="K-02")
    with pytest.raises(Refused) as refused:
        answered(identified, "refused", order)
    assert "O-01 Ola" in refused.value.faults[0].cure
    answered(identified, "refused", sign_in(identified, OFFICER))


def test_nobody_answers_a_dispute_by_raising_it(identified: Unit) -> None:
    order = sign_in(identified, "K-02")
    made = row(DISPUTES, dispute="Q-1", kind="sorties", fact="S-1", raised=date(2026, 6, 1),
               by="K-02", words=WORDS, outcome="revised", answer="So.", answered_by=OFFICER,
               answered=date(2026, 6, 1))  # fmt: skip
    with pytest.raises(Refused) as refused:
        recording.record(identified.office, [Entry(DISPUTES, made)], order)
    assert [fault.field for fault in refused.value.faults] == [
        "outcome", "answer", "answered_by", "answered"
    ]  # fmt: skip


def test_the_words_of_a_dispute_stay_as_they_were(identified: Unit) -> None:
    sign_in(identified, "K-02")
    disputed(identified, by="K-02")
    sign_in(identified, OFFICER)
    told, number = held(identified, DISPUTES, "Q-0001")
    other = changed(told, DISPUTES, words="Never mind.", outcome="refused", answer="So.",
                    answered_by=OFFICER, answered=date(2026, 6, 1))  # fmt: skip
    with pytest.raises(Refused) as refused:
        recording.record(identified.office, [Entry(DISPUTES, other, number)], Order(OFFICER, "so"))
    assert [fault.field for fault in refused.value.faults] == ["words"]
