"""``import`` and ``export``."""

from pathlib import Path

import pytest

from tests.cli.conftest import Ask
from tests.cli.small_unit import PEOPLE, PERFORMANCES


def test_an_import_tells_how_many_rows_are_new(ask: Ask, own_unit: Path) -> None:
    answer = ask("import", own_unit.parent / "evidence", "--db", own_unit)
    assert answer.code == 0
    assert answer.err == ""
    lines = [line.split() for line in answer.out.splitlines()]
    assert lines[:3] == [
        ["rows", "added", "revised", "unchanged"],
        ["people", "3", "0", "0"],
        ["assignments", "3", "0", "0"],
    ]
    assert lines[-1][0] == "Written;"


def test_the_same_files_twice_change_nothing_and_say_so(ask: Ask, own_unit: Path) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    answer = ask("import", own_unit.parent / "evidence", "--db", own_unit)
    assert answer.code == 0
    assert "Nothing changed" in answer.out


def test_a_dry_run_writes_nothing_and_says_so(ask: Ask, own_unit: Path) -> None:
    evidence = own_unit.parent / "evidence"
    assert "nothing was written" in ask("import", evidence, "--dry-run", "--db", own_unit).out
    added = ask("import", evidence, "--db", own_unit).out.splitlines()[1]
    assert added.split() == ["people", "3", "0", "0"]


def test_every_fault_is_told_and_nothing_is_written(ask: Ask, own_unit: Path) -> None:
    evidence = own_unit.parent / "evidence"
    (evidence / "performances.csv").write_text(
        PERFORMANCES.replace("S-2,K-02", "S-9,K-17"), encoding="utf-8"
    )
    answer = ask("import", evidence, "--db", own_unit)
    assert answer.code == 2
    assert answer.out == ""
    assert "performances.csv:3: sortie: no sortie 'S-9'" in answer.err
    assert "performances.csv:3: person: no person 'K-17'" in answer.err
    assert ask("import", evidence / "people.csv", "--db", own_unit).out.split()[5] == "3"


def test_a_row_that_differs_asks_for_a_revision(ask: Ask, own_unit: Path) -> None:
    people = own_unit.parent / "evidence" / "people.csv"
    ask("import", people, "--db", own_unit)
    people.write_text(PEOPLE.replace("Sam Lee", "Samuel Lee"), encoding="utf-8")
    answer = ask("import", people, "--db", own_unit)
    assert answer.code == 2
    assert "--revise --reason" in answer.err
    answer = ask("import", people, "--revise", "--reason", "full name", "--db", own_unit)
    assert answer.code == 0
    assert answer.out.splitlines()[1].split() == ["people", "0", "1", "2"]


@pytest.mark.parametrize("order", [("--revise",), ("--revise", "--reason", " "), ("--reason", "x")])
def test_a_revision_and_its_reason_go_together(
    ask: Ask, own_unit: Path, order: tuple[str, ...]
) -> None:
    answer = ask("import", own_unit.parent / "evidence", *order, "--db", own_unit)
    assert answer.code == 2
    assert "--reason" in answer.err


def test_what_is_exported_gives_the_same_answers_in_a_new_record(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    answer = ask("export", tmp_path / "all", "--db", small_unit)
    assert answer.code == 0
    written = [Path(line).name for line in answer.out.splitlines()]
    assert {"people.csv", "performances.csv", "standard-2026-1.toml"} <= set(written)
    copy, standard = tmp_path / "copy.crewtrack", tmp_path / "all" / "standard-2026-1.toml"
    evidence = [tmp_path / "all" / name for name in written if name.endswith(".csv")]
    assert ask("init", "--standard", standard, "--db", copy).code == 0
    assert ask("import", *evidence, "--db", copy).code == 0
    for question in (
        ("roster", "--on", "2026-11-25", "--format", "json"),
        ("history", "--format", "json"),
        ("why", "K-02", "deck-pilot", "--on", "2026-11-25", "--format", "json"),
    ):
        assert ask(*question, "--db", copy).out == ask(*question, "--db", small_unit).out


def test_an_export_writes_over_nothing(ask: Ask, small_unit: Path, tmp_path: Path) -> None:
    assert ask("export", tmp_path / "all", "--db", small_unit).code == 0
    answer = ask("export", tmp_path / "all", "--db", small_unit)
    assert answer.code == 2
    assert "is there already" in answer.err
