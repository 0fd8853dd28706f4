"""``demo``."""

from pathlib import Path

from tests.cli.conftest import Ask, Opened


def test_the_demonstration_leaves_a_record_and_a_print(ask: Ask, tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    answer = ask("demo", folder, "--on", "2026-11-25")
    assert answer.code == 0
    assert "roster on 2026-11-25" in answer.out
    assert (folder / "roster.pdf").read_bytes().startswith(b"%PDF-")
    record, print_, next_ = answer.err.splitlines()
    assert print_ == f"Roster as PDF: {folder / 'roster.pdf'}"
    command = next_.removeprefix("Next: crewtrack ").split()
    assert command[1] == record.removeprefix("Record: ")
    assert ask(*command, "--on", "2026-11-25").code == 0


def test_the_desk_opens_on_the_demonstration(ask: Ask, opened: Opened, tmp_path: Path) -> None:
    answer = ask("demo", tmp_path, "--on", "2026-11-25", "--desk")
    assert answer.code == 0
    assert opened.records == [tmp_path / "tamarack-harbor.crewtrack"]


def test_a_demonstration_is_not_written_over_a_record(ask: Ask, tmp_path: Path) -> None:
    (tmp_path / "tamarack-harbor.crewtrack").write_bytes(b"something of mine")
    assert ask("demo", tmp_path, "--on", "2026-11-25").code in (2, 3)
    assert (tmp_path / "tamarack-harbor.crewtrack").read_bytes() == b"something of mine"
