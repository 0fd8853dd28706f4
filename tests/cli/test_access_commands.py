"""Signing in on the command line: ``access``, ``passphrase``, and commands that write."""

import os
import subprocess
import sys
from datetime import timedelta
from pathlib import Path

import click
import pytest

from crewtrack.cli.outcome import run
from tests.cli.conftest import Answer, Ask
from tests.cli.small_unit import write_files

CHIEF, OTHER = "K-01", "K-02"
WORDS, OTHERS, NEW = (
    "four words nobody knows", "a lantern behind the pier", "seven gulls upon one buoy",
)  # fmt: skip


@pytest.fixture
def unit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A record with its first chief, and files beside it."""
    write_files(tmp_path)
    (tmp_path / "evidence" / "people.csv").write_text(
        "person,name,duties\nK-01,Ana Kovač,chief\nK-02,Олена Ґедзь,evaluator\nK-03,Sam Lee,\n",
        encoding="utf-8",
    )
    record = tmp_path / "unit.crewtrack"
    monkeypatch.setenv("CREWTRACK_NEW_PASSPHRASE", WORDS)
    made = ("init", "--standard", str(tmp_path / "unit.toml"), "--chief", CHIEF)
    assert run(["--db", str(record), *made, "--name", "Ana Kovač"]) == 0
    monkeypatch.delenv("CREWTRACK_NEW_PASSPHRASE")
    return record


@pytest.fixture
def full(unit: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same with its evidence, and the chief's passphrase in the environment."""
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", WORDS)
    took = ("import", str(unit.parent / "evidence"), "--by", CHIEF)
    assert run(["--db", str(unit), *took]) == 0
    return unit


def take(ask: Ask, unit: Path, *more: str) -> Answer:
    """Import the evidence."""
    return ask("--db", unit, "import", unit.parent / "evidence", *more)


def test_a_record_is_made_with_its_first_chief(ask: Ask, unit: Path) -> None:
    answer = ask("access", "--db", unit)
    assert answer.code == 0
    person, name, *_ = answer.out.split("  ")
    assert (person, name) == (CHIEF, "Ana Kovač")
    assert answer.out.endswith("chief\n")


def test_a_chief_has_a_key_and_a_name(ask: Ask, tmp_path: Path) -> None:
    write_files(tmp_path)
    record = tmp_path / "unit.crewtrack"
    standard = ("--standard", tmp_path / "unit.toml")
    answer = ask("--db", record, "init", *standard, "--chief", CHIEF)
    assert answer.code == 2
    assert "give --chief and --name" in answer.err
    assert not record.exists()


def test_a_poor_passphrase_makes_no_record(
    ask: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_files(tmp_path)
    monkeypatch.setenv("CREWTRACK_NEW_PASSPHRASE", "short")
    record = tmp_path / "unit.crewtrack"
    made = ("init", "--standard", tmp_path / "unit.toml", "--chief", CHIEF, "--name", "Ana")
    answer = ask("--db", record, *made)
    assert answer.code == 2
    assert "it has 5 letters" in answer.err
    assert "short" not in answer.err
    assert not record.exists()


def test_whoever_writes_says_who_it_is(ask: Ask, unit: Path) -> None:
    answer = take(ask, unit)
    assert answer.code == 2
    assert "give --by PERSON (or set CREWTRACK_BY). These can: K-01 Ana Kovač." in answer.err


def test_without_a_terminal_the_variable_is_named(ask: Ask, unit: Path) -> None:
    answer = take(ask, unit, "--by", CHIEF)
    assert answer.code == 2
    assert "set CREWTRACK_PASSPHRASE for this command" in answer.err


def test_with_the_passphrase_an_import_is_signed(
    ask: Ask, unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", WORDS)
    monkeypatch.setenv("CREWTRACK_BY", CHIEF)
    assert take(ask, unit).code == 0
    assert len(ask("history", "--db", unit).out.splitlines()) == 4


def test_a_wrong_one_is_refused_and_says_how_long_to_wait(
    ask: Ask, unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", "this is not it at all")
    answer = take(ask, unit, "--by", CHIEF)
    assert answer.code == 2
    assert "this is not the passphrase of K-01; wait 1 second" in answer.err
    assert "not it at all" not in answer.err


def test_on_a_terminal_it_is_asked_for_without_an_echo(
    ask: Ask, unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[str, bool, bool]] = []

    def prompt(told: str, *, hide_input: bool, err: bool, confirmation_prompt: bool) -> str:
        asked.append((told, hide_input, err))
        return WORDS

    monkeypatch.setattr(click, "prompt", prompt)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    assert take(ask, unit, "--by", CHIEF).code == 0
    assert asked == [("Passphrase of K-01", True, True)]


def test_whoever_may_not_is_told_who_could(
    ask: Ask, full: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    give(ask, full, monkeypatch)
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", OTHERS)
    second = full.parent / "second.toml"
    answer = ask("standard", "adopt", second, "--by", OTHER, "--db", full)
    assert answer.code == 2
    assert "K-01 Ana Kovač could do it" in answer.err
    everything = full.parent / "everything"
    assert ask("export", everything, "--by", OTHER, "--db", full).code == 2
    assert not everything.exists()


def give(ask: Ask, unit: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody else gets a key."""
    monkeypatch.setenv("CREWTRACK_NEW_PASSPHRASE", OTHERS)
    assert ask("access", "--db", unit, "give", OTHER, "--by", CHIEF).code == 0
    monkeypatch.delenv("CREWTRACK_NEW_PASSPHRASE")


def test_an_edition_is_adopted_and_everything_exported_by_the_chief(ask: Ask, full: Path) -> None:
    second = full.parent / "second.toml"
    assert ask("standard", "adopt", second, "--by", CHIEF, "--db", full).code == 0
    assert ask("export", full.parent / "everything", "--by", CHIEF, "--db", full).code == 0


def test_reading_asks_nobody(ask: Ask, full: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("CREWTRACK_PASSPHRASE")
    for question in (("roster",), ("history",), ("why", "K-01", "deck-pilot"), ("access",)):
        assert ask(*question, "--db", full).code in (0, 1)


def test_access_is_given_and_ended(ask: Ask, full: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    give(ask, full, monkeypatch)
    assert len(ask("access", "--db", full).out.splitlines()) == 2
    assert ask("access", "end", OTHER, "--by", CHIEF, "--db", full).code == 0
    assert len(ask("access", "--db", full).out.splitlines()) == 1


def test_a_passphrase_is_changed(ask: Ask, full: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CREWTRACK_NEW_PASSPHRASE", NEW)
    answer = ask("passphrase", "--by", CHIEF, "--db", full)
    assert (answer.code, answer.out) == (0, "The passphrase of K-01 is changed.\n")
    everything = full.parent / "everything"
    assert ask("export", everything, "--by", CHIEF, "--db", full).code == 2
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", NEW)
    monkeypatch.setattr("crewtrack.office.access.wait_after", lambda _: timedelta(0))
    assert ask("export", everything, "--by", CHIEF, "--db", full).code == 0


def test_the_first_key_on_a_record_without_any_makes_a_chief(
    ask: Ask, own_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    assert ask("access", "--db", own_unit).out == "Nobody is identified: this record has no keys.\n"
    monkeypatch.setenv("CREWTRACK_NEW_PASSPHRASE", WORDS)
    answer = ask("access", "give", CHIEF, "--db", own_unit)
    assert answer.code == 0
    assert ask("access", "--db", own_unit).out.endswith("chief\n")


def test_a_backup_is_put_back_by_whoever_may(
    ask: Ask, full: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    give(ask, full, monkeypatch)
    copy = full.parent / "copy.crewtrack"
    assert ask("backup", copy, "--db", full).code == 0
    assert ask("restore", copy, "--db", full).code == 2
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", OTHERS)
    assert ask("restore", copy, "--db", full, "--by", OTHER).code == 2
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", WORDS)
    assert ask("restore", copy, "--db", full, "--by", CHIEF).code == 0


def test_a_record_that_can_t_be_opened_asks_nobody(ask: Ask, full: Path) -> None:
    copy = full.parent / "copy.crewtrack"
    ask("backup", copy, "--db", full)
    full.write_bytes(full.read_bytes()[:5000])
    assert ask("restore", copy, "--db", full).code == 0


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="there are no such terminals here")
def test_a_real_terminal_shows_nothing_of_a_passphrase(unit: Path) -> None:
    import pty

    took = ("import", str(unit.parent / "evidence"), "--by", CHIEF)
    master, slave = pty.openpty()
    command = [sys.executable, "-m", "crewtrack", "--db", str(unit), *took]
    with subprocess.Popen(
        command, stdin=slave, stdout=slave, stderr=slave, start_new_session=True
    ) as program:
        os.close(slave)
        shown = b""
        while b"Passphrase of K-01:" not in shown:
            shown += os.read(master, 1024)
        os.write(master, WORDS.encode() + b"\n")
        shown += _rest(master)
    os.close(master)
    assert program.returncode == 0
    assert b"Written; journal" in shown
    assert WORDS.encode() not in shown


def _rest(master: int) -> bytes:
    """What comes until the program ends."""
    shown = b""
    while True:
        try:
            part = os.read(master, 1024)
        except OSError:  # how the end is told here
            return shown
        if not part:
            return shown
        shown += part
