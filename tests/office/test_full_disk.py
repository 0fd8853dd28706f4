"""A disk that takes no more, at every size at which it can do so: the act fails in a sentence, and
the record is as it was; from the size on that is enough, it is done and stays."""

import json
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from crewtrack.office import keeping
from crewtrack.office.office import Office
from tests.office.deeds import DEEDS, tried, write_people
from tests.office.unit_at_work import Clock

STEPS = {"backup": 4096 + 24 - 1}
"""Bytes from one size to the next, where a file of many pages is written."""
STEP = 1031
"""The same for all else: over a few pages every place in one is met."""


@contextmanager
def largest_file(size: int) -> Iterator[None]:
    """Within, no file of this process can become larger: a write beyond that is cut, and the next
    one fails."""
    import resource

    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def acts_in(record: Path) -> int:
    """How many acts a record holds, which is whole."""
    with Office.open(record, Clock()) as office:
        assert keeping.verify(office) == ()
        return office.newest()


def left(folder: Path) -> set[str]:
    """What lies in a folder, but for what SQLite puts beside a record."""
    return {one.name for one in folder.iterdir() if not one.name.endswith(("-wal", "-shm"))}


def refusals(record: Path, folder: Path, deed: str) -> Iterator[tuple[int, str]]:
    """What is told of an act at each size that is too small for it, until it is done."""
    size = 1
    while True:
        with largest_file(size):
            told = tried(record, folder, deed)
        if told == "done":
            return
        yield size, told
        size += STEPS.get(deed, STEP)


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
@pytest.mark.parametrize("in_use", [False, True])
@pytest.mark.parametrize("deed", DEEDS)
def test_an_act_that_the_disk_does_not_take_whole_leaves_everything_as_it_was(
    at_work: Path, tmp_path: Path, deed: str, in_use: bool
) -> None:
    write_people(tmp_path, 1)
    record, before, refused = tmp_path / at_work.name, at_work.read_bytes(), 0
    shutil.copyfile(at_work, record)
    acts, there = acts_in(record), left(tmp_path)
    with Office.open(record, Clock()) as other:
        if in_use:  # what all users share has its size already, so that it is the log that is cut
            other.newest()
        for size, told in refusals(record, tmp_path, deed):
            assert told.startswith(str(tmp_path)), size
            assert "\n" not in told
            assert (record.read_bytes(), left(tmp_path)) == (before, there), size
            refused += 1
    in_journal = deed not in ("backup", "export")
    assert acts_in(record) == acts + in_journal
    assert refused > 2
    assert (left(tmp_path) == there) == in_journal


def test_an_act_on_a_disk_with_room_for_so_many_pages_is_done_or_leaves_everything_as_it_was(
    at_work: Path, tmp_path: Path
) -> None:
    disk, kept = tmp_path / "disk", tmp_path / "kept"
    disk.mkdir()
    kept.mkdir()
    write_people(kept, 1)
    small = f"mount -t tmpfs -o size=2m none '{disk}' || exit 99; exec \"$@\""
    filling = [sys.executable, "-m", "tests.office.filling", str(at_work), str(disk), str(kept)]
    if shutil.which("unshare") is None:
        pytest.skip("no way to make a small disk")
    done = subprocess.run(
        ["unshare", "--mount", "sh", "-c", small, "sh", *filling],
        cwd=Path(__file__).parents[2], capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    if done.returncode in (1, 99) and not done.stdout and "Traceback" not in done.stderr:
        pytest.skip("not allowed to make a small disk")
    assert done.returncode == 0, done.stderr
    steps = [json.loads(line) for line in done.stdout.splitlines()]
    assert {step["deed"] for step in steps if step["told"] == "done"} == set(DEEDS)
    for step in steps:
        assert step["whole"], step
        assert step["told"] == "done" or step["told"].startswith(str(disk)), step
        assert step["as it was"] or step["told"] == "done", step
