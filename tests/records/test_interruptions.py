"""Acts that something stops half way: the disk, a kill, another process. Nothing of them stays."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import PEOPLE, at, sortie

ROOT = Path(__file__).parents[2]

BEGIN_AND_WAIT = """
import sys
from pathlib import Path
from crewtrack import facts
from crewtrack.records.store import Record
from tests.records.samples import at, sortie

with Record.open(Path(sys.argv[1])) as record, record.act("import", "officer", at(5)) as act:
    # More than the page cache holds, so that some of it is in the log on the disk already.
    act.connection.exec_driver_sql("PRAGMA cache_size=10")
    act.add(facts.SORTIES, [sortie(f"T-{n}", at(1)) for n in range(20_000)])
    print("half way", flush=True)
    sys.stdin.readline()
"""

ADD_ONE = """
import sys
from pathlib import Path
from crewtrack import facts
from crewtrack.records.store import Record
from tests.records.samples import at

with Record.open(Path(sys.argv[1]), busy_seconds=60) as record:
    print("open", flush=True)
    sys.stdin.readline()
    for number in range(20):
        with record.act("import", "officer", at(5)) as act:
            key = f"{sys.argv[2]}-{number}"
            act.add(facts.PEOPLE, [(key, "x", None, None, None, None, ())])
"""

LIMITED = """
import resource
import sys
from pathlib import Path
from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records.store import Record
from tests.records.samples import at, sortie

resource.setrlimit(resource.RLIMIT_FSIZE, (1_000_000, 1_000_000))
try:
    with Record.open(Path(sys.argv[1])) as record, record.act("import", "officer", at(5)) as act:
        act.connection.exec_driver_sql("PRAGMA cache_size=10")
        act.add(facts.SORTIES, [sortie(f"T-{n}", at(1)) for n in range(20_000)])
except RecordUnusable as error:
    print(error)
"""


def started(script: str, *arguments: str) -> "subprocess.Popen[str]":
    """A process of its own that runs a script and tells when it is there."""
    process = subprocess.Popen(
        [sys.executable, "-c", script, *arguments],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        encoding="utf-8",
    )
    assert process.stdout is not None
    process.stdout.readline()
    return process


def test_a_full_disk_is_told_and_leaves_nothing_of_the_act(record: Record) -> None:
    pages = record.path.stat().st_size // 4096

    def import_much() -> None:
        with record.act("import", "officer", at(5)) as act:
            act.connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 20}")
            act.add(facts.SORTIES, [sortie(f"T-{n}", at(1)) for n in range(20_000)])

    with pytest.raises(
        RecordUnusable, match=r"disk that holds .* is full; nothing of this was recorded"
    ):
        import_much()
    with record.reading() as reading:
        assert (reading.head().seq, reading.count(facts.SORTIES)) == (4, 3)
    assert verify(record) == ()


def test_a_disk_that_fills_up_at_the_very_end_leaves_nothing_of_the_act(record: Record) -> None:
    pages = record.path.stat().st_size // 4096

    def record_with_long_reason() -> None:
        with record.act("import", "officer", at(5), "x" * 500_000) as act:
            act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
            act.connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 3}")

    with pytest.raises(RecordUnusable, match=r"disk that holds .* is full"):
        record_with_long_reason()
    with record.reading() as reading:
        assert (reading.head().seq, reading.count(facts.PEOPLE)) == (4, len(PEOPLE) + 1)


@pytest.mark.skipif(sys.platform == "win32", reason="the system has no limit to set")
def test_a_disk_that_takes_no_more_is_told_and_leaves_nothing_of_the_act(sample: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(sample)],
        cwd=ROOT, capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert done.stderr == ""
    assert "nothing of this was recorded" in done.stdout
    with Record.open(sample) as record:
        assert verify(record) == ()


@pytest.mark.skipif(sys.platform == "win32", reason="the system has no such signal")
def test_a_kill_half_way_leaves_nothing_of_the_act(sample: Path) -> None:
    with started(BEGIN_AND_WAIT, str(sample)) as process:
        log = sample.with_name(f"{sample.name}-wal")
        assert log.stat().st_size > 100_000
        os.kill(process.pid, signal.SIGKILL)
    with Record.open(sample) as record:
        with record.reading() as reading:
            assert (reading.head().seq, reading.count(facts.SORTIES)) == (4, 3)
        assert verify(record) == ()


def test_two_processes_that_write_at_once_take_turns(sample: Path) -> None:
    processes = [started(ADD_ONE, str(sample), name) for name in ("A", "B")]
    for process in processes:
        assert process.stdin is not None
        process.stdin.write("go\n")
        process.stdin.flush()
    for process in processes:
        process.communicate()
        assert process.returncode == 0
    with Record.open(sample) as record:
        with record.reading() as reading:
            assert (reading.head().seq, reading.count(facts.PEOPLE)) == (44, len(PEOPLE) + 41)
        assert verify(record) == ()
