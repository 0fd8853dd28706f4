"""Malformed files, given to the commands: exit code 2, sentences, and never a traceback."""

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Ask
from tests.office.malformed import malformed

SAMPLE = [(kind, number) for kind in ("csv", "xlsx", "toml") for number in range(8)]


@pytest.mark.parametrize(("kind", "number"), SAMPLE)
def test_a_malformed_file_is_refused_by_its_command(
    ask: Ask, small_unit: Path, tmp_path: Path, kind: str, number: int
) -> None:
    record = Path(shutil.copy(small_unit, tmp_path / "unit.crewtrack"))
    before = ask("--db", record, "verify").out, record.read_bytes()
    file = malformed(kind, number)
    (tmp_path / file.name).write_bytes(file.content)
    command = ("standard", "check") if kind == "toml" else ("--db", record, "import", "--dry-run")
    answer = ask(*command, tmp_path / file.name)
    assert answer.code in (0, 2)
    assert bool(answer.err) == (answer.code == 2)
    assert "Traceback" not in answer.out + answer.err
    assert answer.err.replace("\n", "").isprintable()
    assert (ask("--db", record, "verify").out, record.read_bytes()) == before


def test_most_of_the_sample_is_refused(ask: Ask, small_unit: Path, tmp_path: Path) -> None:
    record = Path(shutil.copy(small_unit, tmp_path / "unit.crewtrack"))
    codes = []
    for kind, number in SAMPLE:
        file = malformed(kind, number)
        (tmp_path / file.name).write_bytes(file.content)
        command = ("standard", "check") if kind == "toml" else ("--db", record, "import")
        codes.append(ask(*command, tmp_path / file.name).code)
    assert codes.count(2) >= 20


def test_a_file_whose_name_would_act_on_the_terminal_is_told_harmlessly(
    ask: Ask, own_unit: Path
) -> None:
    file = own_unit.parent / "people\x1b[2J\u202e.csv"
    file.write_text("person,name\n", encoding="utf-8")
    for command in (("import",), ("restore",)):
        answer = ask("--db", own_unit, *command, file)
        assert answer.code in (2, 3)
        assert "people\\x1b[2J\\u202e.csv" in answer.err
        assert "\x1b" not in answer.out + answer.err


def test_an_author_who_would_act_on_the_terminal_is_refused(ask: Ask, own_unit: Path) -> None:
    people = own_unit.parent / "evidence" / "people.csv"
    answer = ask("--db", own_unit, "import", people, "--by", "Ana\x1b[2J")
    assert answer.code == 2
    assert answer.err.startswith("author: 'Ana\\x1b[2J' holds the control character U+001B")
