"""What a command says while another program writes, and of a clock that went back."""

import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest

from crewtrack.cli.terminal import tell
from crewtrack.office.importing import ImportOrder, import_evidence
from crewtrack.office.office import Office
from tests.cli.conftest import Ask

WAITING = "Another program is writing to the record; waiting…"


def test_a_command_that_waits_for_another_writer_says_so_and_goes_on(
    ask: Ask, own_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = sqlite3.connect(own_unit, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")

    def told(text: str) -> None:
        tell(text)
        other.execute("ROLLBACK")

    monkeypatch.setattr("crewtrack.cli.opening.tell", told)
    answer = ask("--db", own_unit, "import", own_unit.parent / "evidence" / "people.csv")
    other.close()
    assert (answer.code, answer.err) == (0, WAITING + "\n")


def test_verify_tells_of_a_clock_that_went_back_and_finds_no_break(
    ask: Ask, own_unit: Path
) -> None:
    file = own_unit.parent / "people.csv"
    for number, name in enumerate(("Ana", "Bo")):
        file.write_text(f"person,name\nX-{number},{name}\n", encoding="utf-8")
        with Office.open(own_unit, lambda: datetime(2020, 1, 1, tzinfo=UTC)) as office:
            import_evidence(office, [file], ImportOrder("Ana"))
        answer = ask("--db", own_unit, "verify")
        assert (answer.code, answer.out) == (
            0,
            "The journal and every fact in the record agree.\n",
        )
    assert answer.err == (
        "The clock went back: acts 2 to 3 are dated earlier than act 1, which comes before them."
        " The order of the journal holds.\n"
    )
