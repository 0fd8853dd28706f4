"""Where a result goes."""

import os
import sys
from pathlib import Path

import click
import pytest

from crewtrack.cli.results import deliver, write_file
from crewtrack.errors import Refused


def test_a_result_goes_to_standard_output(capsys: pytest.CaptureFixture[str]) -> None:
    deliver("told", None)
    assert capsys.readouterr().out == "told\n"


def test_bytes_go_to_a_pipe_as_they_are(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    deliver(b"%PDF-\xff", None)
    assert capfdbinary.readouterr().out == b"%PDF-\xff"


def test_bytes_are_nothing_for_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    with pytest.raises(click.UsageError, match="--out FILE"):
        deliver(b"%PDF-", None)


def test_a_file_gets_the_result_and_standard_output_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    deliver("Ґедзь\r\n", str(tmp_path / "roster.csv"))
    assert (tmp_path / "roster.csv").read_bytes() == "Ґедзь\r\n".encode()
    assert capsys.readouterr().out == ""


def test_a_file_that_is_there_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a longer text that stood there")
    write_file(tmp_path / "a", b"new")
    assert (tmp_path / "a").read_bytes() == b"new"
    assert os.listdir(tmp_path) == ["a"]  # noqa: PTH208 - hidden ones too


def test_a_record_is_never_replaced(tmp_path: Path) -> None:
    record = b"SQLite format 3\0 and all that the unit has"
    (tmp_path / "unit.crewtrack").write_bytes(record)
    with pytest.raises(Refused, match=r"unit\.crewtrack.*a record is in this file"):
        write_file(tmp_path / "unit.crewtrack", b"new")
    assert (tmp_path / "unit.crewtrack").read_bytes() == record


@pytest.mark.skipif(sys.platform == "win32", reason="named pipes of POSIX systems")
def test_a_pipe_is_written_into_and_stays(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    reader = os.open(tmp_path / "pipe", os.O_RDONLY | os.O_NONBLOCK)
    write_file(tmp_path / "pipe", b"new")
    assert os.read(reader, 9) == b"new"
    os.close(reader)
    assert (tmp_path / "pipe").is_fifo()


def test_a_file_that_cannot_be_written_is_refused_with_its_place(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r"nowhere.*can't be written.*folder that exists"):
        write_file(tmp_path / "nowhere" / "a", b"new")


def test_a_folder_is_left_as_it_was_where_writing_fails(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    with pytest.raises(Refused):
        write_file(tmp_path / "a", b"new")
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


@pytest.mark.skipif(os.name == "nt", reason="modes are of POSIX systems")
def test_a_new_file_can_be_read_by_whoever_may_read_new_files(tmp_path: Path) -> None:
    (tmp_path / "usual").touch()
    write_file(tmp_path / "a", b"new")
    assert (tmp_path / "a").stat().st_mode == (tmp_path / "usual").stat().st_mode
