"""What the journal says."""

from dataclasses import replace
from datetime import UTC, date, datetime

from crewtrack.facts import OCCURRENCES, PEOPLE
from crewtrack.office.looking_back import ActDetail, JournalAct, RecordedFact, SealedFacts
from crewtrack.screens.journal_table import act_kind_told, act_lines, journal_table, journal_told

ACT = JournalAct(
    7,
    datetime(2026, 3, 1, 12, 5, tzinfo=UTC),
    "Ann",
    "import",
    "Late papers",
    {"people": 2},
    "ab" * 32,
)
NEW = ("K-01", "Ann", None, None, None, None, ("pilot",))


def recorded(revision: int = 1, *, struck: bool = False, name: str = "Ann") -> RecordedFact:
    """One person, as an act recorded them; before it the name was Ann."""
    row = (NEW[0], name, *NEW[2:])
    before = NEW if revision > 1 else None
    return RecordedFact(PEOPLE, ("K-01",), revision, struck, row, before)


def texts(*facts: RecordedFact, total: int | None = None) -> list[str]:
    """The lines under an act's own."""
    detail = ActDetail(len(facts) if total is None else total, facts, ())
    return [line.text for line in act_lines(ACT, detail)][5:]


def test_a_row_tells_when_who_what_and_why() -> None:
    table = journal_table((ACT,))
    assert [column.text(ACT) for column in table.columns] == [
        "2026-03-01 12:05",
        "Ann",
        "imported files",
        "2",
        "Late papers",
    ]
    assert (
        table.columns[0].said(ACT) == "2026-03-01 12:05: Ann imported files, 2 facts: Late papers"
    )


def test_rows_sort_by_their_place_in_the_chain() -> None:
    assert journal_table((ACT,)).columns[0].rank(ACT) == 7


def test_an_act_begins_with_itself_and_its_digest() -> None:
    lines = [line.text for line in act_lines(ACT, ActDetail(0, (), ("2026-1",)))]
    assert lines == [
        "Act 7",
        "2026-03-01 12:05: Ann imported files.",
        "Why: Late papers",
        f"Digest: {'ab' * 32}",
        "People: 2",
        "Edition 2026-1 adopted",
    ]


def test_a_new_fact_tells_its_values() -> None:
    assert texts(recorded()) == ["Person K-01: new", "Name: Ann; Duties: pilot"]


def test_a_revision_tells_what_changed() -> None:
    assert texts(recorded(2, name="Anne")) == ["Person K-01, revision 2", "Name: Anne (was Ann)"]


def test_a_fact_struck_out_says_so() -> None:
    assert texts(recorded(3, struck=True)) == ["Person K-01, revision 3: struck out"]


def test_a_revision_without_a_difference_brings_back() -> None:
    assert texts(recorded(3)) == ["Person K-01, revision 3", "brought back as it was"]


def test_the_rest_of_a_large_act_is_counted() -> None:
    assert texts(recorded(), total=400)[-1] == "and 399 more facts"


def test_an_act_of_a_kind_without_words_is_told_as_it_is_written() -> None:
    assert act_kind_told("sortie") == "logged a sortie"
    assert act_kind_told("mend\n") == "mend "


def test_says_whether_there_is_more() -> None:
    assert journal_told(1, True) == "1 act."
    assert "scroll down" in journal_told(200, False)


def test_an_act_that_is_dated_before_an_earlier_one_is_marked() -> None:
    odd = replace(ACT, after=5)
    when = journal_table((odd,)).columns[0]
    assert when.text(odd) == "2026-03-01 12:05 (clock went back)"
    assert when.said(odd) == (
        "2026-03-01 12:05: Ann imported files, 2 facts: Late papers."
        " The clock went back: dated earlier than act 5, which comes before it."
    )
    told = "The clock went back: dated earlier than act 5, which comes before it."
    assert told in [line.text for line in act_lines(odd, ActDetail(0, (), ()))]
    assert told not in [line.text for line in act_lines(ACT, ActDetail(0, (), ()))]


def test_what_is_closed_is_named_and_not_told() -> None:
    fact = RecordedFact(OCCURRENCES, ("R-0001",), 1, False, (), None, closed=True)
    assert texts(fact) == [
        "Occurrence R-0001, revision 1", "what it says is open to officers and chiefs only"
    ]  # fmt: skip


def test_an_act_that_seals_says_what_and_that_what_was_known_before_no_longer_shows_it() -> None:
    sealed = SealedFacts("sorties", 1200, date(2014, 3, 1), date(2019, 4, 2))
    lines = [line.text for line in act_lines(ACT, ActDetail(0, (), (), (sealed,)))]
    assert "Sorties: 1,200 sealed, recorded from 2014-03-01 through 2019-04-02" in lines
    assert any("before this act no longer shows them" in line for line in lines)


def test_an_act_of_which_something_was_sealed_says_so() -> None:
    lines = [line.text for line in act_lines(ACT, ActDetail(0, (), (), (), 12))]
    assert lines[-1] == "Some of what this act recorded was sealed later, by act 12."
