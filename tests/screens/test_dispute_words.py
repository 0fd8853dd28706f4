"""Disputes in words, and the marks on what is disputed."""

from dataclasses import replace
from datetime import date

from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.office.disputes import Dispute
from crewtrack.screens import dispute_words
from crewtrack.screens.tables import Table, TableColumn

RAISED = Dispute(
    "Q-1", PERFORMANCES, ("S-1", "K-05", "hand-recovery"), date(2026, 11, 2), "K-05",
    "I was\nashore", None, None, None, None,
)  # fmt: skip
WHOLE = replace(RAISED, key="Q-2", kind=SORTIES, fact=("S-1",), by="K-02")
MARKS = {("performances", RAISED.fact): (RAISED,), ("sorties", ("S-1",)): (WHOLE,)}
SAID = "disputed since 2026-11-02 by K-05: I was ashore"


def table() -> Table:
    columns = (TableColumn("Key", str), TableColumn("Other", str))
    return Table(columns, ("S-1", "S-2"), str)


def entries(row: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return (("sorties", (row,)),)


def test_a_dispute_says_since_when_by_whom_and_why() -> None:
    assert dispute_words.dispute_told(RAISED) == SAID


def test_above_an_entry_each_dispute_has_a_line() -> None:
    told = dispute_words.strip_told([RAISED, WHOLE]).splitlines()
    assert told[0] == f"Performance S-1, K-05, hand-recovery: {SAID}"
    assert told[1].startswith("Sortie S-1: disputed since")


def test_a_sortie_is_disputed_where_what_was_done_on_it_is() -> None:
    assert dispute_words.by_sortie(MARKS) == {"S-1": (RAISED, WHOLE)}


def test_a_table_with_disputed_rows_says_so_behind_the_first_column() -> None:
    marked = dispute_words.marked(table(), entries, MARKS)
    assert [column.title for column in marked.columns] == ["Key", "Disputed", "Other"]
    disputed = marked.columns[1]
    assert disputed.text("S-1").startswith("disputed since 2026-11-02 by K-02")
    assert disputed.text("S-2") == ""
    assert disputed.said("S-2") == "not disputed"
    assert disputed.rank("S-1") < disputed.rank("S-2")


def test_a_table_without_disputed_rows_stays_as_it_is() -> None:
    plain = table()
    assert dispute_words.marked(plain, lambda row: [("sorties", (f"{row}0",))], MARKS) is plain
    assert dispute_words.marked(plain, entries, {}) is plain


def test_long_words_leave_room_and_are_read_aloud_whole() -> None:
    long = replace(WHOLE, words="word " * 100)
    disputed = dispute_words.marked(table(), entries, {("sorties", ("S-1",)): (long,)}).columns[1]
    assert len(disputed.text("S-1")) <= 60
    assert len(disputed.said("S-1")) > 400


def test_an_answer_says_how_it_ended() -> None:
    answered = replace(RAISED, outcome="refused", answer="The log\nsays so", answered_by="K-02",
                       answered=date(2026, 11, 9))  # fmt: skip
    assert dispute_words.answer_told(RAISED) == "open"
    assert dispute_words.answer_told(answered) == "refused, K-02, 2026-11-09: The log says so"
