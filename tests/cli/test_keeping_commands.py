"""``init``, ``verify``, ``backup`` and ``restore``."""

import sqlite3
from contextlib import closing
from pathlib import Path

from tests.cli.conftest import Ask
from tests.cli.small_unit import write_files


def test_a_new_record_is_made_with_its_standard(ask: Ask, tmp_path: Path) -> None:
    write_files(tmp_path)
    record = tmp_path / "unit.crewtrack"
    answer = ask("--db", record, "init", "--standard", tmp_path / "unit.toml")
    assert answer.code == 0
    assert answer.err == f"Made {record}.\n"
    assert answer.out.startswith("Edition 2026-1, in effect from 2026-01-01: 1 task,")


def test_a_record_that_is_there_is_not_made_again(ask: Ask, own_unit: Path) -> None:
    before = own_unit.read_bytes()
    answer = ask("--db", own_unit, "init", "--standard", own_unit.parent / "unit.toml")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.endswith("; name one that is new with --db FILE\n")
    assert own_unit.read_bytes() == before


def test_no_record_is_made_with_a_standard_that_has_faults(ask: Ask, tmp_path: Path) -> None:
    (tmp_path / "unit.toml").write_text("edition = 1", encoding="utf-8")
    record = tmp_path / "unit.crewtrack"
    assert ask("--db", record, "init", "--standard", tmp_path / "unit.toml").code == 2
    assert not record.exists()


def test_a_whole_record_is_verified(ask: Ask, small_unit: Path) -> None:
    answer = ask("verify", "--db", small_unit)
    assert answer.code == 0
    assert answer.out == "The journal and every fact in the record agree.\n"


def test_a_changed_fact_is_a_no_that_names_it(ask: Ask, own_unit: Path) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    with closing(sqlite3.connect(own_unit)) as database:
        for (trigger,) in database.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'people'"
        ).fetchall():
            database.execute(f'DROP TRIGGER "{trigger}"')
        database.execute("UPDATE people SET name = 'Somebody else' WHERE person = 'K-03'")
        database.commit()
    answer = ask("verify", "--db", own_unit)
    assert answer.code == 1
    assert "K-03" in answer.out
    assert answer.out.splitlines()[-1].endswith("found.")
    assert "'crewtrack restore FILE'" in answer.err


def test_a_backup_gives_the_same_answers(ask: Ask, small_unit: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.crewtrack"
    answer = ask("backup", copy, "--db", small_unit)
    assert (answer.code, answer.out) == (0, f"Wrote and checked {copy}.\n")
    question = ("roster", "--on", "2026-11-25")
    assert ask(*question, "--db", copy).out == ask(*question, "--db", small_unit).out


def test_a_restored_record_keeps_what_was_there(ask: Ask, small_unit: Path, own_unit: Path) -> None:
    copy = own_unit.parent / "copy.crewtrack"
    ask("backup", copy, "--db", small_unit)
    answer = ask("restore", copy, "--db", own_unit)
    assert answer.code == 0
    assert answer.out == f"Restored {own_unit} from {copy}.\n"
    kept = Path(answer.err.removeprefix("What was there is now ").rstrip(".\n"))
    assert ask("history", "--db", kept).out.splitlines()[1:] == []
    assert len(ask("history", "--db", own_unit).out.splitlines()) == 4


def test_a_file_that_is_no_record_is_not_restored(ask: Ask, own_unit: Path) -> None:
    file = own_unit.parent / "unit.toml"
    answer = ask("restore", file, "--db", own_unit)
    assert answer.code == 3
    assert answer.err.startswith(f"{file} is not a crewtrack record, so it can't be put back; ")
    assert "--db" not in answer.err
    assert ask("history", "--db", own_unit).code == 0
