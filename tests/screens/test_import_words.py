"""What is said of an import, of a record and of what verifying found."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from crewtrack.errors import Fault
from crewtrack.office.importing import Imported
from crewtrack.office.looking_back import JournalAct
from crewtrack.office.record_told import RecordTold
from crewtrack.records.verifying import Break
from crewtrack.screens import import_words

WRONG = Fault("people.csv:3", "joined", "there is no 2026-13-01", "months go from 01 to 12")
DIFFERS = Fault(
    "people.csv:2", "name", "recorded otherwise", 'to revise it, import with --revise --reason "…"'
)


def imported(added: int = 0, revised: int = 0, unchanged: int = 0) -> Imported:
    """An import of people."""
    return Imported(
        {"people": added} if added else {},
        {"people": revised} if revised else {},
        {"people": unchanged} if unchanged else {},
        (),
        None,
    )


def test_faults_stand_in_the_order_of_the_file() -> None:
    table = import_words.fault_table((DIFFERS, WRONG, WRONG))
    assert [table.columns[0].text(row) for row in table.rows] == [
        "people.csv:2",
        "people.csv:3",
        "people.csv:3",
    ]
    assert len({table.key(row) for row in table.rows}) == 3


def test_a_cure_names_what_the_window_offers() -> None:
    assert "--revise" not in import_words.cure(DIFFERS)
    assert import_words.cure(WRONG) == "months go from 01 to 12"
    assert "reason" in import_words.cure(Fault("f", "", "p", 'add --reason "why"'))


def test_a_fault_is_told_in_full() -> None:
    assert [line.text for line in import_words.fault_lines(WRONG)] == [
        "people.csv:3: joined",
        "there is no 2026-13-01",
        "What would be right: months go from 01 to 12",
    ]
    assert len(import_words.fault_lines(Fault("f", "", "p"))) == 2


@pytest.mark.parametrize(
    ("place", "line"),
    [("standard.toml:12", 12), ("standard.toml", None), ("a:b.toml", None), ("b.xlsx!people:7", 7)],
)  # fmt: skip
def test_finds_the_line_that_a_fault_names(place: str, line: int | None) -> None:
    assert import_words.line_of(Fault(place, "", "")) == line


def test_tells_rows_that_only_differ_from_rows_that_are_wrong() -> None:
    assert import_words.faults_told((DIFFERS,)).startswith("1 row is recorded otherwise")
    assert import_words.faults_told((DIFFERS, WRONG)).startswith("2 faults")


def test_counts_rows_by_kind() -> None:
    table = import_words.count_table(imported(3, 1, 1200))
    [row] = table.rows
    assert [column.text(row) for column in table.columns] == ["People", "3", "1", "1,200"]


def test_says_what_would_change() -> None:
    assert import_words.preview_told(imported(1, 2)) == (
        "No faults. It would bring 1 new fact, 2 revised facts."
    )
    assert "nothing would change" in import_words.preview_told(imported(unchanged=4))


def test_says_what_was_changed() -> None:
    assert import_words.imported_told(imported(2)) == "Imported: 2 new facts."
    assert import_words.imported_told(imported(unchanged=4)).startswith("Nothing changed")


def test_says_what_is_known_of_a_record() -> None:
    at = datetime(2026, 3, 1, 12, 5, tzinfo=UTC)
    act = JournalAct(7, at, "Ann", "import", "", {"people": 2}, "ab" * 32)
    told = RecordTold(Path("unit.crewtrack"), 1_700_000, {"people": 2, "sorties": 0}, 1, 7, act,
                      act.digest)  # fmt: skip
    assert [value for _, value in import_words.record_lines(told)] == [
        "unit.crewtrack",
        "1.7 MB",
        "2: People 2",
        "7",
        "2026-03-01 12:05: Ann imported files, 2 facts.",
        "ab" * 32,
    ]


@pytest.mark.parametrize(
    ("size", "told"),
    [(1, "1 byte"), (999, "999 bytes"), (4_096, "4.1 kB"), (2_500_000_000, "2.5 GB")],
)
def test_says_a_size(size: int, told: str) -> None:
    assert import_words.size_told(size) == told


def test_says_that_a_record_is_whole_or_what_is_not() -> None:
    assert "agree" in import_words.breaks_lines(())[1].text
    told = [line.text for line in import_words.breaks_lines(
        (Break(3, "", "", "changed"), Break(4, "", "", "gone")))]  # fmt: skip
    assert told[1:] == [
        "2 things are not as they were recorded:",
        "act 3: changed",
        "act 4: gone",
    ]


def test_says_what_restoring_does() -> None:
    told = import_words.restore_told(Path("backup"), Path("unit"))
    assert "kept beside it" in told
