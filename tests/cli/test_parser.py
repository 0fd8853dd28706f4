"""The command line as a whole."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from crewtrack.cli.parser import crewtrack
from tests.cli.conftest import Ask, Opened

HEAVY = (
    "PySide6",
    "alembic",
    "ephem",
    "openpyxl",
    "platformdirs",
    "reportlab",
    "rich",
    "sqlalchemy",
)


def commands(group: click.Group, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    for name, command in group.commands.items():
        yield (*path, name)
        if isinstance(command, click.Group):
            yield from commands(command, (*path, name))


ALL = list(commands(crewtrack))


def test_without_a_command_the_desk_opens_on_the_last_record(ask: Ask, opened: Opened) -> None:
    answer = ask()
    assert (answer.code, answer.out) == (0, "")
    assert opened.records == [None]


def test_without_a_command_the_desk_opens_on_the_record_that_is_named(
    ask: Ask, opened: Opened
) -> None:
    assert ask("--db", "unit.crewtrack").code == 0
    assert opened.records == [Path("unit.crewtrack")]


def test_the_commands_are_those_promised() -> None:
    assert [path[0] for path in ALL if len(path) == 1] == [
        "demo",
        "init",
        "standard",
        "import",
        "export",
        "roster",
        "history",
        "why",
        "deck",
        "occurrences",
        "disputes",
        "verify",
        "head",
        "backup",
        "backups",
        "restore",
        "retention",
        "access",
        "passphrase",
    ]
    assert [path[1] for path in ALL if path[0] == "standard" and path[1:]] == [
        "check",
        "adopt",
        "show",
    ]
    assert [path[1] for path in ALL if path[0] == "access" and path[1:]] == ["give", "end"]


@pytest.mark.parametrize("path", ALL, ids=" ".join)
def test_every_command_has_help_with_an_example(ask: Ask, path: tuple[str, ...]) -> None:
    answer = ask(*path, "--help")
    assert answer.code == 0
    assert "  crewtrack " in answer.out.split("Example", 1)[1]


@pytest.mark.parametrize("path", ALL, ids=" ".join)
def test_every_command_is_listed_with_a_whole_sentence(ask: Ask, path: tuple[str, ...]) -> None:
    listed = ask(*path[:-1], "--help").out.splitlines()
    line = next(line for line in listed if line.split()[:1] == [path[-1]])
    assert line.endswith(".")
    assert not line.endswith("...")


def test_the_version_is_told(ask: Ask) -> None:
    answer = ask("--version")
    assert answer.code == 0
    assert answer.out.startswith("crewtrack ")


def test_help_loads_nothing_heavy() -> None:
    program = (
        "import sys; sys.argv = ['crewtrack', '--help']\n"
        "from crewtrack.__main__ import main\n"
        "try: main()\n"
        "except SystemExit: print(*sorted(sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, encoding="utf-8", check=True
    )
    loaded = {name.partition(".")[0] for name in done.stdout.splitlines()[-1].split()}
    assert "click" in loaded
    assert not loaded & set(HEAVY)


def test_the_shell_is_told_how_to_complete() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "crewtrack"],
        env={**os.environ, "_CREWTRACK_COMPLETE": "zsh_source"},
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    assert "compdef" in done.stdout


def test_commands_are_completed() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "crewtrack"],
        env={
            **os.environ,
            "_CREWTRACK_COMPLETE": "bash_complete",
            "COMP_WORDS": "crewtrack ro",
            "COMP_CWORD": "1",
        },
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    assert done.stdout.split() == ["plain,roster"]
