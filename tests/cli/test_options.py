"""What several commands ask for."""

from pathlib import Path

import pytest

from tests.cli.conftest import Ask


def test_the_record_may_be_named_before_the_command(ask: Ask, small_unit: Path) -> None:
    assert ask("--db", small_unit, "roster", "--on", "2026-11-25").code == 0


def test_the_record_may_be_named_after_the_command(ask: Ask, small_unit: Path) -> None:
    assert ask("roster", "--on", "2026-11-25", "--db", small_unit).code == 0


def test_the_record_named_after_the_command_counts(ask: Ask, small_unit: Path) -> None:
    assert ask("--db", "nowhere", "standard", "show", "--db", small_unit).code == 0


def test_the_record_may_be_named_by_the_environment(
    ask: Ask, small_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CREWTRACK_DB", str(small_unit))
    assert ask("roster", "--on", "2026-11-25").code == 0


def test_without_a_name_it_is_the_record_in_the_users_folder(ask: Ask) -> None:
    answer = ask("roster")
    assert answer.code == 3
    assert "record.crewtrack" in answer.err


@pytest.mark.parametrize(
    ("day", "cure"),
    [
        ("2026-02-30", "February 2026 has 28 days"),
        ("25.11.2026", "2026-11-25"),
        ("today", "write it as YYYY-MM-DD"),
    ],
)
def test_what_is_no_day_is_a_usage_error_with_its_cure(ask: Ask, day: str, cure: str) -> None:
    answer = ask("roster", "--on", day)
    assert answer.code == 2
    assert "--on" in answer.err
    assert cure in answer.err


def test_the_ending_of_the_file_decides_the_format(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    for ending, start in (
        (".csv", b"person,"),
        (".json", b"{"),
        (".PDF", b"%PDF-"),
        (".txt", b"#"),
        ("", b"#"),
    ):
        file = tmp_path / f"roster{ending}"
        answer = ask("roster", "--on", "2026-11-25", "--out", file, "--db", small_unit)
        assert (answer.code, answer.out, answer.err) == (0, "", f"Wrote {file}.\n")
        assert file.read_bytes().startswith(start)


@pytest.mark.parametrize(
    ("command", "ending", "known"),
    [
        (("roster",), ".xlsx", ".txt, .json, .csv, .pdf"),
        (("history",), ".pdf", ".txt, .json, .csv"),
        (("why", "K-02", "deck-pilot"), ".csv", ".txt, .json"),
    ],
)
def test_an_ending_that_is_of_no_format_is_refused_with_those_that_are(
    ask: Ask, tmp_path: Path, command: tuple[str, ...], ending: str, known: str
) -> None:
    answer = ask(*command, "--out", tmp_path / f"answer{ending}", "--db", tmp_path / "any")
    assert (answer.code, answer.out) == (2, "")
    assert f"the endings here are {known};" in " ".join(answer.err.split())
    assert list(tmp_path.iterdir()) == []


def test_any_ending_will_do_where_the_format_is_said(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    file = tmp_path / "roster.table"
    assert ask("roster", "--format", "csv", "--out", file, "--db", small_unit).code == 0
    assert file.read_bytes().startswith(b"person,")


@pytest.mark.parametrize(
    "command",
    [
        ("--db", "", "roster"),
        ("--db", " ", "verify"),
        ("roster", "--db", ""),
        ("roster", "--out", ""),
        ("demo", ""),
        ("export", ""),
        ("backup", ""),
        ("restore", ""),
        ("import", ""),
        ("standard", "check", ""),
        ("init", "--standard", ""),
    ],
)
def test_an_empty_name_is_refused(
    ask: Ask, small_unit: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    monkeypatch.setenv("CREWTRACK_DB", str(small_unit))
    answer = ask(*command)
    assert (answer.code, answer.out) == (2, "")
    assert "the name is empty" in answer.err


def test_a_format_asked_for_goes_before_the_ending(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    file = tmp_path / "roster.csv"
    ask("roster", "--on", "2026-11-25", "--format", "json", "--out", file, "--db", small_unit)
    assert file.read_bytes().startswith(b"{")


def test_whoever_acts_is_kept_in_the_journal(ask: Ask, own_unit: Path) -> None:
    folder = own_unit.parent
    ask("import", folder / "evidence" / "people.csv", "--by", "Ana Kovač", "--db", own_unit)
    ask("export", folder / "out", "--db", own_unit)
    journal = (folder / "out" / "journal.jsonl").read_text(encoding="utf-8")
    assert '"author":"Ana Kovač"' in journal.replace('": "', '":"')


def test_whoever_acts_may_be_named_by_the_environment(
    ask: Ask, own_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = own_unit.parent
    monkeypatch.setenv("CREWTRACK_BY", "Sam Lee")
    ask("import", folder / "evidence" / "people.csv", "--db", own_unit)
    ask("export", folder / "out", "--db", own_unit)
    assert "Sam Lee" in (folder / "out" / "journal.jsonl").read_text(encoding="utf-8")
