"""A program that is killed at any moment of its work, hundreds of times on one and the same record:
every act that was acknowledged is there, no other but the one that was going on, and all whole."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

RECORDS = 4
KILLS = 140
"""Of each record. Among them are some by the system, in the midst of a write, when a file may not
grow."""

BESIDE = ("record.crewtrack", "record.crewtrack-wal", "record.crewtrack-shm")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the system can't fork a process")
@pytest.mark.parametrize("number", range(RECORDS))
def test_records_outlive_their_program_that_is_killed_five_hundred_times(
    number: int, at_work: Path, tmp_path: Path
) -> None:
    record = Path(shutil.copy(at_work, tmp_path))
    done = subprocess.run(
        [sys.executable, "-m", "tests.office.crashing", str(record), f"kills {number}", str(KILLS)],
        cwd=Path(__file__).parents[2], capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    *kills, last = [json.loads(line) for line in done.stdout.splitlines()]
    assert len(kills) == KILLS
    assert sum(one["signal"] == 9 for one in kills) >= 500 / RECORDS
    for one in kills:
        assert (one["lost"], one["kept"]) == (0, True), one
        assert one["signal"] > 0, one
        assert one["unsaid"] <= 1, one
        assert all(one["backups"]), one
        assert one["whole"] in (None, True), one
        assert one["rooms"] <= 1, one
        assert set(one["beside"]) <= {"backups", "given", *BESIDE}, one
    assert sum(one["acknowledged"] for one in kills) > KILLS // 2
    assert any(one["unsaid"] for one in kills)
    assert last == {"whole": True, "acts": last["acts"], "rooms": 0}
