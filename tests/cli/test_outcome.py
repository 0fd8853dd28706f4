"""How a run of the program ends."""

import subprocess
import sys
from pathlib import Path

import click
import pytest

from crewtrack.cli import parser
from crewtrack.errors import Fault, RecordUnusable, Refused
from tests.cli.conftest import Ask


@pytest.fixture
def ends_with(monkeypatch: pytest.MonkeyPatch) -> "Ends":
    return Ends(monkeypatch)


class Ends:
    """Makes every command end with an exception."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._monkeypatch = monkeypatch

    def __call__(self, raised: BaseException) -> None:
        def ended(*_: object, **__: object) -> None:
            raise raised

        self._monkeypatch.setattr(parser.crewtrack, "invoke", ended)


def faults(count: int) -> list[Fault]:
    return [Fault(f"people.csv:{n}", "joined", "no date") for n in range(1, count + 1)]


def test_what_was_given_wrong_is_told_fault_by_fault(ask: Ask, ends_with: Ends) -> None:
    ends_with(Refused(*faults(2)))
    answer = ask("roster")
    assert answer.code == 2
    assert answer.out == ""
    assert answer.err == "people.csv:1: joined: no date\npeople.csv:2: joined: no date\n"


def test_fifty_faults_are_told_and_the_rest_counted(ask: Ask, ends_with: Ends) -> None:
    ends_with(Refused(*faults(52)))
    lines = ask("roster").err.splitlines()
    assert lines[49:] == ["people.csv:50: joined: no date", "… and 2 more faults."]


def test_one_fault_over_fifty_is_one_more(ask: Ask, ends_with: Ends) -> None:
    ends_with(Refused(*faults(51)))
    assert ask("roster").err.endswith("… and 1 more fault.\n")


def test_a_record_that_cannot_be_used_is_told_in_its_sentence(ask: Ask, ends_with: Ends) -> None:
    ends_with(RecordUnusable("unit.crewtrack is locked; try again"))
    answer = ask("roster")
    assert (answer.code, answer.err) == (3, "unit.crewtrack is locked; try again\n")


def test_a_stop_from_the_keyboard_is_said(ask: Ask, ends_with: Ends) -> None:
    ends_with(KeyboardInterrupt())
    answer = ask("roster")
    assert (answer.code, answer.err.strip()) == (130, "Stopped.")


def test_what_the_system_refuses_is_told_by_its_file(ask: Ask, ends_with: Ends) -> None:
    ends_with(PermissionError(13, "Permission denied", "secret.csv"))
    answer = ask("roster")
    assert (answer.code, answer.err) == (2, "secret.csv: permission denied\n")


def test_a_full_disk_is_no_defect(ask: Ask, ends_with: Ends) -> None:
    ends_with(OSError(28, "No space left on device"))
    assert ask("roster").code == 2


def test_a_defect_is_told_without_a_traceback_and_written_down(ask: Ask, ends_with: Ends) -> None:
    ends_with(ZeroDivisionError("nobody thought of this"))
    answer = ask("roster")
    assert answer.code == 70
    assert "Traceback" not in answer.err
    assert "a defect of the program" in answer.err
    file = Path(answer.err.split("Its details are in ")[1].split("; please")[0])
    assert "ZeroDivisionError: nobody thought of this" in file.read_text(encoding="utf-8")


def test_a_wrong_command_is_a_usage_error(ask: Ask) -> None:
    answer = ask("rooster")
    assert answer.code == 2
    assert "No such command 'rooster'" in answer.err


def test_an_error_of_the_command_line_never_means_no(ask: Ask, ends_with: Ends) -> None:
    ends_with(click.FileError("unit.toml", "is a folder"))
    assert ask("roster").code == 2


def test_a_reader_that_leaves_early_is_no_error() -> None:
    program = (
        "import sys; from crewtrack.cli import outcome, parser, terminal\n"
        "parser.crewtrack.invoke = lambda _: [terminal.emit('x' * 999) for _ in range(999)]\n"
        "sys.exit(outcome.run(['roster']))"
    )
    with subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.read(1)
        process.stdout.close()
        assert (process.wait(), process.stderr.read()) == (141, b"")
