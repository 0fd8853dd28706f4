"""``init``, ``verify``, ``backup`` and ``restore``."""

import json
import re
from pathlib import Path

import pytest

from crewtrack.prints.closing import grouped
from tests.behind_its_back import change
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
    change(own_unit, "UPDATE people SET name = 'Somebody else' WHERE person = 'K-03'")
    answer = ask("verify", "--db", own_unit)
    assert answer.code == 1
    assert "K-03" in answer.out
    assert answer.out.splitlines()[-1].endswith("found.")
    assert "'crewtrack restore FILE'" in answer.err


def exported(ask: Ask, record: Path, folder: Path) -> Path:
    assert ask("export", folder, "--db", record).code == 0
    return folder / "journal.jsonl"


def test_the_head_is_told_with_its_act(ask: Ask, small_unit: Path) -> None:
    text = ask("head", "--db", small_unit)
    told = json.loads(ask("head", "--db", small_unit, "--format", "json").out)
    assert (text.code, told["act"], len(told["digest"])) == (0, 2, 64)
    assert text.out == f"{told['digest']}\nact 2 of {told['at']}, by {told['by']}\n"


def test_a_digest_on_paper_is_part_of_the_record_however_it_is_copied(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    digest = json.loads(ask("head", "--db", small_unit, "--format", "json").out)["digest"]
    journal = exported(ask, small_unit, tmp_path / "all")
    printed = " ".join(grouped(digest)[:4])
    for given in (digest, digest[:8], digest.upper(), printed):
        for where in (("--db", small_unit), ("--journal", journal)):
            answer = ask("verify", "--head", given, *where)
            assert answer.code == 0, answer
            assert answer.out.splitlines()[-1].startswith("act 2 of 20")


def test_a_digest_of_another_record_is_a_no(ask: Ask, small_unit: Path) -> None:
    answer = ask("verify", "--head", "0123456789abcdef", "--db", small_unit)
    assert (answer.code, answer.out.splitlines()[-1]) == (1, "No act of it has this digest.")


@pytest.mark.parametrize("given", ["", "1234567", "12345678z", "é" * 8, "0" * 65])
def test_what_is_no_digest_is_refused_with_the_cure(ask: Ask, small_unit: Path, given: str) -> None:
    answer = ask("verify", "--head", given, "--db", small_unit)
    assert (answer.code, answer.out) == (2, "")
    assert "write its first 8 digits or more" in answer.err


def test_an_exported_journal_is_verified_without_a_record(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    journal = exported(ask, small_unit, tmp_path / "all")
    answer = ask("verify", "--journal", journal, "--db", tmp_path / "nowhere")
    assert (answer.code, answer.err) == (0, "")
    assert answer.out.startswith("The journal is whole")


def test_a_break_in_an_exported_journal_is_a_no_and_no_record_is_to_be_put_back(
    ask: Ask, small_unit: Path, tmp_path: Path
) -> None:
    journal = exported(ask, small_unit, tmp_path / "all")
    journal.write_bytes(journal.read_bytes().replace("Kovač".encode(), b"Novak") + b"{\n")
    answer = ask("verify", "--journal", journal)
    assert (answer.code, answer.err) == (1, "")
    line, rows, count = answer.out.splitlines()
    assert re.search(r", line \d+: it can't be read$", line)
    assert rows.endswith("people: its rows are not those that the act recorded")
    assert count == "2 breaks found."


def test_a_file_that_is_no_journal_is_refused_with_the_cure(ask: Ask, small_unit: Path) -> None:
    answer = ask("verify", "--journal", small_unit)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.endswith("this is no journal; name the journal.jsonl of an export\n")


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
