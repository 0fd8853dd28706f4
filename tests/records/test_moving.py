"""Files are put in place whole or not at all, and never over another."""

import errno
import os
import sqlite3
from pathlib import Path

import pytest

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.records.moving import free_name, move_aside, place, room, workshop


@pytest.fixture
def made(tmp_path: Path) -> Path:
    """A file that is finished."""
    folder = tmp_path / "workshop"
    folder.mkdir()
    path = folder / "record"
    path.write_bytes(b"made")
    return path


@pytest.fixture(params=["links", "no links"])
def file_system(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file system with hard links, and one without."""

    def fails(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    if request.param == "no links":
        monkeypatch.setattr(os, "link", fails)


@pytest.mark.usefixtures("file_system")
def test_a_finished_file_gets_its_name(made: Path, tmp_path: Path) -> None:
    place(made, tmp_path / "record.crewtrack")
    assert (tmp_path / "record.crewtrack").read_bytes() == b"made"


@pytest.mark.usefixtures("file_system")
def test_a_file_that_came_there_meanwhile_stays(made: Path, tmp_path: Path) -> None:
    other = tmp_path / "record.crewtrack"
    other.write_bytes(b"other")
    with pytest.raises(Refused, match="there is a file of this name already"):
        place(made, other)
    assert other.read_bytes() == b"other"


def test_a_workshop_leaves_nothing_behind(tmp_path: Path) -> None:
    with workshop(tmp_path / "record.crewtrack") as file:
        file.write_bytes(b"half")
        file.with_name("record-wal").write_bytes(b"log")
    assert list(tmp_path.iterdir()) == []


def test_free_names_count_up(tmp_path: Path) -> None:
    path = tmp_path / "record.crewtrack"
    assert free_name(path, "revision-0001").name == "record.revision-0001.crewtrack"
    free_name(path, "revision-0001").touch()
    assert free_name(path, "revision-0001").name == "record.revision-0001-2.crewtrack"


def test_a_record_moves_aside_with_all_that_lies_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "record.crewtrack"
    for end in ("", "-wal", "-shm"):
        path.with_name(path.name + end).write_text(end, encoding="utf-8")
    aside = move_aside(path, "before-restore")
    assert sorted(entry.name for entry in tmp_path.iterdir()) == [
        aside.name, f"{aside.name}-shm", f"{aside.name}-wal"
    ]  # fmt: skip


def left_behind(folder: Path, *names: str) -> Path:
    """A room as a program that was killed leaves it."""
    left = folder / ".crewtrack-left"
    left.mkdir()
    for name in names:
        (left / name).write_bytes(b"")
    return left


@pytest.mark.parametrize("names", [(), ("lock",), ("lock", "record"), ("record",)])
def test_what_a_killed_program_left_goes_when_the_next_works_there(
    tmp_path: Path, names: tuple[str, ...]
) -> None:
    left_behind(tmp_path, *names)
    with room(tmp_path) as folder:
        assert list(tmp_path.iterdir()) == [folder]
    assert list(tmp_path.iterdir()) == []


def test_a_room_in_which_somebody_works_stays(tmp_path: Path) -> None:
    with workshop(tmp_path / "one") as made:
        made.write_bytes(b"half")
        with workshop(tmp_path / "two"):
            pass
        assert made.read_bytes() == b"half"


def test_a_room_that_is_no_folder_of_ours_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    (tmp_path / ".crewtrack-file").write_bytes(b"mine")
    with room(tmp_path):
        pass
    assert {one.name for one in tmp_path.iterdir()} == {"own", ".crewtrack-file"}


def test_a_room_that_is_taken_away_before_it_is_locked_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, taken = Path.touch, list[Path]()

    def touch(path: Path) -> None:
        if not taken:
            taken.append(path.parent)
            path.parent.rmdir()
        whole(path)

    monkeypatch.setattr(Path, "touch", touch)
    with room(tmp_path) as folder:
        assert folder.is_dir()
    assert taken != [folder]


def test_a_folder_in_which_nothing_can_be_locked_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise sqlite3.OperationalError("locking protocol")

    monkeypatch.setattr("crewtrack.records.moving._locked", fails)
    with pytest.raises(RecordUnusable, match="can't be made"), workshop(tmp_path / "one"):
        pass
    assert list(tmp_path.iterdir()) == []
