"""Signing off, withdrawing, and who may evaluate."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewtrack.errors import Fault, Refused
from crewtrack.facts import SIGNOFFS, Row
from crewtrack.office import signing, snapshot
from crewtrack.office.entries import Order
from crewtrack.office.signing import Marks, Withdrawal, marked, marks_of
from crewtrack.office.snapshot import history_of
from crewtrack.screens.signoff_people import evaluators
from tests.office.given_by_hand import ANA, held, signoff
from tests.office.unit_at_work import ON, STANDARD, Unit, places

ASKING = (
    STANDARD.replace("2026-1", "2026-2")
    .replace("2026-01-01", "2026-05-01")
    .replace('title = "Hand recovery"', 'title = "Hand recovery"\nevaluator = "deck-pilot"')
)
WITHDRAWN = Withdrawal("E-1", 1, date(2026, 6, 1), "V-01", "seen from the shore only")


def refusal(unit: Unit, withdrawal: Withdrawal) -> tuple[Fault, ...]:
    with pytest.raises(Refused) as refused:
        signing.withdraw(unit.office, withdrawal, ANA)
    return refused.value.faults


def test_a_sign_off_is_an_act_of_its_own(full_unit: Unit) -> None:
    row = signoff("E-9", level="evaluator", remarks="calm and quick")
    changes = signing.sign_off(full_unit.office, row, ANA)
    assert (changes.added, changes.touched) == ({"signoffs": 1}, ("K-02",))
    (only,) = history_of(full_unit.office, SIGNOFFS, ("E-9",))
    assert (only.act.kind, only.row) == ("sign-off", row)


def test_nobody_signs_for_himself_or_herself(full_unit: Unit) -> None:
    with pytest.raises(Refused) as refused:
        signing.sign_off(full_unit.office, signoff("E-9", evaluator="K-02"), ANA)
    assert places(refused.value.faults) == [("signoffs 1", "evaluator")]


def test_withdrawing_says_from_when_who_and_why_and_what_it_does(full_unit: Unit) -> None:
    changes = signing.withdraw(full_unit.office, WITHDRAWN, ANA)
    assert changes.revised == {"signoffs": 1}
    assert [(one.before.word, one.after.word) for one in changes.standings] == [
        ("current", "lapsed")
    ]
    first, last = history_of(full_unit.office, SIGNOFFS, ("E-1",))
    assert last.row[-3:] == (date(2026, 6, 1), "V-01", "seen from the shore only")
    assert last.row[:-3] == first.row[:-3]
    assert (last.act.kind, last.act.reason) == ("withdraw", "seen from the shore only")


def test_the_order_may_give_a_reason_of_its_own(full_unit: Unit) -> None:
    signing.withdraw(full_unit.office, WITHDRAWN, Order("Ana", "told by phone"))
    assert history_of(full_unit.office, SIGNOFFS, ("E-1",))[-1].act.reason == "told by phone"


def test_a_withdrawal_without_who_and_why_is_refused(full_unit: Unit) -> None:
    told = refusal(full_unit, replace(WITHDRAWN, by=" ", reason=""))
    assert places(told) == [("signoffs 1", "withdrawn_by"), ("signoffs 1", "withdrawn_reason")]


def test_a_day_before_the_sign_off_is_refused(full_unit: Unit) -> None:
    told = refusal(full_unit, replace(WITHDRAWN, on=date(2026, 4, 30)))
    assert places(told) == [("signoffs 1", "withdrawn")]


def test_only_what_is_there_can_be_withdrawn(full_unit: Unit) -> None:
    (told,) = refusal(full_unit, replace(WITHDRAWN, key="E-7"))
    assert told.problem == "no sign-off 'E-7' is recorded"


def test_what_is_withdrawn_already_is_not_withdrawn_again(full_unit: Unit) -> None:
    signing.withdraw(full_unit.office, WITHDRAWN, ANA)
    (told,) = refusal(full_unit, replace(WITHDRAWN, revision=2))
    assert told.problem == "sign-off 'E-1' is withdrawn already, from 2026-06-01 on"


def test_a_sign_off_that_was_changed_meanwhile_is_not_withdrawn_unseen(full_unit: Unit) -> None:
    (told,) = refusal(full_unit, replace(WITHDRAWN, revision=3))
    assert "meanwhile" in told.problem


def test_a_task_that_asks_for_nothing_has_no_standing_to_show(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    assert signing.evaluator_standing(state.reckoning, "hand-recovery", "V-01", ON) is None
    assert signing.evaluator_standing(state.reckoning, "juggling", "V-01", ON) is None


def test_an_evaluator_stands_where_the_task_asks_on_that_day(full_unit: Unit) -> None:
    full_unit.adopt(ASKING, "asked for by the chief")
    state = snapshot.take(full_unit.office)

    def word(person: str, on: date) -> str:
        standing = signing.evaluator_standing(state.reckoning, "hand-recovery", person, on)
        assert standing is not None
        return standing.word

    assert word("K-01", ON) == "due"
    assert word("K-01", date(2026, 8, 1)) == "lapsed"
    assert word("V-01", ON) == word("nobody", ON) == "none"


def test_those_who_may_evaluate_come_first_then_by_where_they_stand(full_unit: Unit) -> None:
    full_unit.adopt(ASKING, "asked for by the chief")
    state = snapshot.take(full_unit.office)
    some = evaluators(state.reckoning, "hand-recovery", ON, "")
    told = [(one.key, one.current) for one in some]
    assert told == [("K-01", True), ("K-02", False), ("V-01", False)]


def test_anybody_may_evaluate_where_nothing_is_asked(full_unit: Unit) -> None:
    state = snapshot.take(full_unit.office)
    some = evaluators(state.reckoning, "hand-recovery", ON, "")
    assert [one.name for one in some] == ["Ana Kovač", "Sam Lee", "Олена Ґедзь"]
    assert all(one.current for one in some)


def test_marks_are_lines_that_anybody_can_read() -> None:
    text = marked(("Announces the approach", "Hands  clear"), (True, False), "Gusty.\nGood.")
    assert text == "[x] Announces the approach\n[ ] Hands clear\n\nGusty.\nGood."


@pytest.mark.parametrize("remarks", [None, "", "calm", "calm\n[x] not a mark"])
def test_other_remarks_are_words_alone(remarks: str | None) -> None:
    assert marks_of(remarks) == Marks((), remarks or "")


WORDS = st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), min_size=1, max_size=9)
CRITERIA = st.lists(WORDS.map(lambda text: " ".join(text.split())).filter(bool), max_size=4)
FREE = st.lists(WORDS, max_size=3).map(lambda lines: "\n".join(lines).strip())


@given(CRITERIA, FREE, st.data())
def test_marks_and_words_come_back_as_they_went_in(
    criteria: list[str], words: str, data: st.DataObject
) -> None:
    marks = [data.draw(st.booleans()) for _ in criteria]
    expected = Marks(tuple(zip(criteria, marks, strict=True)), words)
    assert marks_of(marked(criteria, marks, words)) == expected


def test_marks_come_back_from_the_record(full_unit: Unit) -> None:
    text = marked(("Announces", "[x] odd"), (False, True), "[x] words that look like a mark")
    signing.sign_off(full_unit.office, signoff("E-9", remarks=text), ANA)
    row: Row = held(full_unit, SIGNOFFS, "E-9")[0]
    assert marks_of(str(row[SIGNOFFS.index("remarks")])) == Marks(
        (("Announces", False), ("[x] odd", True)), "[x] words that look like a mark"
    )
