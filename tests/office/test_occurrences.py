"""Occurrences: reported by everybody, read by few, and never a mark against anybody."""

from datetime import UTC, date, datetime, timedelta

import pytest

from crewtrack import facts
from crewtrack.errors import Fault, Refused
from crewtrack.facts import OCCURRENCES, Row, Value
from crewtrack.office import access, looking_back, occurrences, recording, snapshot
from crewtrack.office.answering import Answer
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.occurrences import MonthCount
from tests.office.given_by_hand import changed, held, row, sortie
from tests.office.identified_unit import CHIEF, OFFICER, words
from tests.office.unit_at_work import ON, Unit, answers

HAPPENED = datetime(2026, 5, 20, 14, 30, tzinfo=UTC)
WHAT = "The aircraft came down on the wheelhouse roof."


def sign_in(unit: Unit, person: str) -> Order:
    """Somebody signs in; returns an order of theirs."""
    access.sign_in(unit.office, person, words(person))
    return Order(person)


def occurrence(**values: Value) -> Row:
    """What a form hands in: without a key."""
    return row(OCCURRENCES, **{"happened": HAPPENED, "what": WHAT, **values})


def reported(unit: Unit, order: Order, anonymous: bool = False, **values: Value) -> None:
    occurrences.report(unit.office, occurrence(**values), order, anonymous)


def refusal(unit: Unit, order: Order, anonymous: bool = False, **values: Value) -> list[Fault]:
    with pytest.raises(Refused) as refused:
        reported(unit, order, anonymous, **values)
    return list(refused.value.faults)


def last_act(unit: Unit) -> looking_back.JournalAct:
    return looking_back.acts_back(unit.office, looking_back.Sought(), most=1)[0]


def test_a_report_touches_no_standing(full_unit: Unit) -> None:
    before = answers(full_unit.office, ON, date(2026, 6, 1), date(2027, 1, 1))
    changes = occurrences.report(
        full_unit.office,
        occurrence(sortie="S-3", harm=("hurt", "damage"), reported_by="K-01"),
        Order("K-01"),
    )
    assert (changes.standings, changes.touched) == ((), ())
    after = answers(full_unit.office, ON, date(2026, 6, 1), date(2027, 1, 1))
    assert {name: text for name, text in after.items() if text != before[name]} == {}


def test_an_answer_touches_no_standing(full_unit: Unit) -> None:
    reported(full_unit, Order("K-01"), sortie="S-3")
    before = answers(full_unit.office, ON)
    given = Answer("R-0001", 1, "The net is rigged higher now.", "V-01")
    assert occurrences.answer(full_unit.office, given, Order("V-01")).standings == ()
    assert answers(full_unit.office, ON) == before


def test_a_report_gets_the_next_key_and_the_name_of_its_author(full_unit: Unit) -> None:
    reported(full_unit, Order("K-01"))
    reported(full_unit, Order("K-02"))
    rows = occurrences.listed(full_unit.office)
    assert sorted((one[0], one[OCCURRENCES.index("reported_by")]) for one in rows) == [
        ("R-0001", "K-01"), ("R-0002", "K-02")
    ]  # fmt: skip
    assert (last_act(full_unit).author, last_act(full_unit).kind) == ("K-02", "occurrence")


def test_an_author_who_is_no_person_of_the_record_is_told_so(full_unit: Unit) -> None:
    (fault,) = refusal(full_unit, Order("root"))
    assert (fault.place, fault.field) == ("occurrences 1", "reported_by")


def test_an_anonymous_report_names_nobody_in_the_row_and_in_the_journal(full_unit: Unit) -> None:
    reported(full_unit, Order("K-01", "it was me"), anonymous=True, reported_by="K-01")
    (told,) = occurrences.listed(full_unit.office)
    assert told[OCCURRENCES.index("reported_by")] is None
    act = last_act(full_unit)
    assert (act.author, act.reason) == ("anonymous", "")


def test_what_lies_ahead_is_no_occurrence(full_unit: Unit) -> None:
    (fault,) = refusal(full_unit, Order("K-01"), happened=full_unit.clock.at + timedelta(minutes=1))
    assert (fault.place, fault.field) == ("occurrences 1", "happened")


def test_nobody_need_sign_in_for_an_anonymous_report(
    identified: Unit,
) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    assert last_act(identified).author == "anonymous"


def test_a_report_with_a_name_needs_its_author_signed_in(identified: Unit) -> None:
    assert [fault.field for fault in refusal(identified, Order("K-02"))] == ["author"]
    reported(identified, sign_in(identified, "K-02"))
    assert last_act(identified).author == "K-02"


def test_nobody_reports_in_another_s_name(identified: Unit) -> None:
    order = sign_in(identified, "K-02")
    assert [one.field for one in refusal(identified, order, reported_by="K-01")] == ["reported_by"]


NOBODY = Order("anonymous", None, "occurrence")
BARE = changed(occurrence(), OCCURRENCES, occurrence="R-1")
ONE = Entry(OCCURRENCES, BARE)


@pytest.mark.parametrize(
    ("given", "order"),
    [
        ([ONE], Order("anonymous", None, "record")),
        ([ONE], Order("Anonymous", None, "occurrence")),
        ([Entry(OCCURRENCES, changed(BARE, OCCURRENCES, reported_by="K-02"))], NOBODY),
        ([ONE, Entry(OCCURRENCES, changed(BARE, OCCURRENCES, occurrence="R-2"))], NOBODY),
        ([ONE, Entry(facts.SORTIES, sortie("S-9"))], NOBODY),
        ([Entry(facts.SORTIES, sortie("S-9"))], NOBODY),
        ([Entry(facts.PEOPLE, row(facts.PEOPLE, person="K-9", name="Nobody"))], NOBODY),
        (
            [Entry(OCCURRENCES, changed(BARE, OCCURRENCES, answer="no", answered_by=OFFICER,
                                        answered=date(2026, 6, 1)))],
            NOBODY,
        ),
    ],
)  # fmt: skip
def test_without_a_name_one_new_occurrence_is_reported_and_nothing_else_done(
    identified: Unit, given: list[Entry | Strike], order: Order
) -> None:
    before = identified.head()
    with pytest.raises(Refused):
        recording.record(identified.office, given, order)
    assert identified.head() == before


def test_without_a_name_nothing_is_brought_back_or_struck_out(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    _, number = held_by_officer(identified, "R-0001")
    with pytest.raises(Refused):
        recording.record(identified.office, [Strike(OCCURRENCES, ("R-0001",), number)],
                         Order("anonymous", "gone", "occurrence"))  # fmt: skip
    officer = Order(OFFICER, "twice", "strike")
    sign_in(identified, OFFICER)
    kept = occurrences.listed(identified.office)[0]
    place = OCCURRENCES.index("answered_by")
    assert kept[place] is None
    recording.record(identified.office, [Strike(OCCURRENCES, ("R-0001",), number)], officer)
    back = Entry(OCCURRENCES, kept)
    with pytest.raises(Refused):
        recording.record(identified.office, [back], Order("anonymous", "back", "occurrence"))


def held_by_officer(unit: Unit, key: str) -> tuple[Row, int]:
    sign_in(unit, OFFICER)
    return held(unit, OCCURRENCES, key)


@pytest.mark.parametrize("person", [CHIEF, OFFICER])
def test_officers_and_chiefs_read_occurrences(identified: Unit, person: str) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    sign_in(identified, person)
    assert [one[OCCURRENCES.index("what")] for one in occurrences.listed(identified.office)] == [
        WHAT
    ]
    assert snapshot.take(identified.office).rows(OCCURRENCES)
    assert snapshot.take(identified.office).closed(OCCURRENCES) is None


def test_others_are_refused_and_told_who_could(identified: Unit) -> None:
    sign_in(identified, "K-02")
    with pytest.raises(Refused) as refused:
        occurrences.listed(identified.office)
    (fault,) = refused.value.faults
    assert "read occurrences" in fault.problem
    assert "C-01 Chi" in fault.cure
    assert "O-01 Ola" in fault.cure


def test_nobody_reads_them_signed_out(identified: Unit) -> None:
    with pytest.raises(Refused):
        occurrences.listed(identified.office)


def test_no_way_through_a_snapshot_leads_to_them(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    sign_in(identified, OFFICER)
    taken = snapshot.take(identified.office)
    assert taken.rows(OCCURRENCES)
    sign_in(identified, "K-02")
    ways = (
        lambda: taken.rows(OCCURRENCES),
        lambda: taken.by_key(OCCURRENCES),
        lambda: taken.rows_of(OCCURRENCES, [("R-0001",)]),
        lambda: taken.told(OCCURRENCES, ("what",)),
        lambda: taken.revisions(OCCURRENCES, ("R-0001",)),
        lambda: snapshot.history_of(identified.office, OCCURRENCES, ("R-0001",)),
    )
    for way in ways:
        with pytest.raises(Refused):
            way()


def test_the_journal_shows_others_that_there_is_one_and_not_what_it_says(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    seq = last_act(identified).seq
    sign_in(identified, "K-02")
    (fact,) = looking_back.act_detail(identified.office, seq).facts
    assert (fact.key, fact.closed, fact.row, fact.before) == (("R-0001",), True, (), None)
    sign_in(identified, OFFICER)
    (fact,) = looking_back.act_detail(identified.office, seq).facts
    assert WHAT in fact.row


def test_an_officer_answers(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    order = sign_in(identified, OFFICER)
    occurrences.answer(identified.office, Answer("R-0001", 1, "Rigged higher.", OFFICER), order)
    (told,) = occurrences.listed(identified.office)
    assert told[OCCURRENCES.index("answer") :] == ("Rigged higher.", OFFICER, date(2026, 6, 1))
    assert "Rigged" not in last_act(identified).reason


def test_others_can_t_answer(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    order = sign_in(identified, "K-02")
    with pytest.raises(Refused) as refused:
        occurrences.answer(identified.office, Answer("R-0001", 1, "Nothing.", "K-02"), order)
    assert [fault.field for fault in refused.value.faults] == ["author"]


def test_whoever_answers_does_not_reword_the_report(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    sign_in(identified, OFFICER)
    told, number = held(identified, OCCURRENCES, "R-0001")
    other = changed(told, OCCURRENCES, what="Nothing.", answer="So.", answered_by=OFFICER,
                    answered=date(2026, 6, 1))  # fmt: skip
    with pytest.raises(Refused) as refused:
        recording.record(
            identified.office, [Entry(OCCURRENCES, other, number)], Order(OFFICER, "so")
        )
    assert [fault.field for fault in refused.value.faults] == ["what"]


@pytest.mark.parametrize(("key", "words", "field"), [("R-9", "So.", "occurrence"),
                                                     ("R-0001", " ", "answer")])  # fmt: skip
def test_an_answer_is_to_something_and_says_something(
    full_unit: Unit, key: str, words: str, field: str
) -> None:
    reported(full_unit, Order("K-01"))
    with pytest.raises(Refused) as refused:
        occurrences.answer(full_unit.office, Answer(key, 1, words, "V-01"), Order("V-01"))
    assert [(one.place, one.field) for one in refused.value.faults] == [("occurrences 1", field)]


def test_where_nobody_is_identified_everybody_reads_them(full_unit: Unit) -> None:
    reported(full_unit, Order("K-01"))
    assert len(occurrences.listed(full_unit.office)) == 1
    assert snapshot.take(full_unit.office).closed(OCCURRENCES) is None


def test_they_are_counted_by_month_and_harm(full_unit: Unit) -> None:
    ana = Order("K-01")
    reported(full_unit, ana, happened=datetime(2026, 3, 1, 3, 0, tzinfo=UTC))  # still February
    reported(full_unit, ana, harm=("hurt", "damage"))
    reported(full_unit, ana, harm=("damage",))
    reported(full_unit, ana, happened=datetime(2025, 12, 31, tzinfo=UTC))
    found = occurrences.counts(full_unit.office, date(2026, 2, 1), date(2026, 5, 31))
    assert found == (
        MonthCount(date(2026, 2, 1), 1, 0, 0),
        MonthCount(date(2026, 3, 1), 0, 0, 0),
        MonthCount(date(2026, 4, 1), 0, 0, 0),
        MonthCount(date(2026, 5, 1), 2, 1, 2),
    )


def test_counts_are_open_to_everybody_and_go_over_the_turn_of_the_year(identified: Unit) -> None:
    reported(identified, Order("K-02"), anonymous=True)
    months = occurrences.counts(identified.office, date(2025, 12, 15), date(2026, 5, 20))
    assert [one.month for one in months] == [
        date(2025, 12, 1), *(date(2026, month, 1) for month in range(1, 6))
    ]  # fmt: skip
    assert [one.reported for one in months] == [0, 0, 0, 0, 0, 1]


def test_the_one_that_happened_last_is_listed_first(full_unit: Unit) -> None:
    for days in (2, 0, 1):
        reported(full_unit, Order("K-01"), happened=HAPPENED + timedelta(days=days))
    keys = [one[0] for one in occurrences.listed(full_unit.office)]
    assert keys == ["R-0001", "R-0003", "R-0002"]
