"""What befalls a record from outside: files that are none, two programs at once, a full disk, and
a program that is killed half way. Exit code 3 and one sentence, and the record stays as it was."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.cli.conftest import Ask

MANY = 20_000

RUN = "import sys; from crewtrack.cli.outcome import run; sys.exit(run(sys.argv[1:]))"


def state(ask: Ask, record: Path) -> dict[str, bytes]:
    """Everything that a record holds, once it is found whole."""
    assert ask("--db", record, "verify").code == 0
    with TemporaryDirectory() as name:
        answer = ask("--db", record, "export", Path(name) / "all")
        assert answer.code == 0, answer.err
        return {path.name: path.read_bytes() for path in (Path(name) / "all").iterdir()}


@pytest.fixture
def record(small_unit: Path, tmp_path: Path) -> Path:
    """A copy of the small unit's record."""
    return Path(shutil.copy(small_unit, tmp_path / "unit.crewtrack"))


def people(folder: Path, name: str, count: int) -> Path:
    """A file of so many people who are all called ``name``."""
    folder.mkdir(exist_ok=True)
    rows = "".join(f"{name}-{n},{name}\n" for n in range(count))
    (folder / "people.csv").write_text("person,name\n" + rows, encoding="utf-8")
    return folder / "people.csv"


def started(*arguments: str | Path, before: str = "") -> "subprocess.Popen[str]":
    """The command in a process of its own; ``before`` is run in it first."""
    return subprocess.Popen(
        [sys.executable, "-c", before + RUN, *map(str, arguments)],
        cwd=Path(__file__).parents[2],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
    )


def ended(process: "subprocess.Popen[str]") -> tuple[int, str]:
    """A process's exit code, and what it said on standard error."""
    _, said = process.communicate(timeout=100)
    assert "Traceback" not in said
    return process.returncode, said


COMMANDS = (("roster",), ("history",), ("why", "K-01", "deck-pilot"), ("verify",), ("standard",
            "show"), ("export", "all"), ("import", "people.csv"), ("backup", "copy"))  # fmt: skip


def spoiled(record: Path, how: str) -> Path:
    """A record that can't be used, in one way or another."""
    content = record.read_bytes()
    if how == "not a database":
        record.write_text("person,name\n" * 1000, encoding="utf-8")
    elif how == "empty":
        record.write_bytes(b"")
    elif how == "cut short":
        record.write_bytes(content[: len(content) // 2])
    elif how == "damaged":
        record.write_bytes(content[:4096] + os.urandom(len(content) - 4096))
    elif how == "missing":
        record.unlink()
    elif how == "read-only":
        record.chmod(0o444)
    else:
        record.unlink()
        with closing(sqlite3.connect(record)) as database:
            database.execute("CREATE TABLE notes (text)")
    return record


UNUSABLE = {
    "not a database": ("is not a crewtrack record", "name another with --db"),
    "empty": ("is empty", "crewtrack restore FILE"),
    "cut short": ("is cut short", "crewtrack restore FILE"),
    "damaged": ("is damaged", "crewtrack restore FILE"),
    "missing": ("does not exist", "crewtrack init --standard FILE"),
    "read-only": ("is read-only", "allow writing"),
    "another program's": ("is another program's database", "name a crewtrack record"),
}


@pytest.mark.parametrize("how", UNUSABLE)
def test_what_can_not_be_used_is_told_by_every_command(
    ask: Ask, record: Path, monkeypatch: pytest.MonkeyPatch, how: str
) -> None:
    people(record.parent, "Zoë", 1)
    monkeypatch.chdir(record.parent)
    spoiled(record, how)
    content = record.read_bytes() if record.exists() else None
    for command in COMMANDS:
        answer = ask("--db", record, *command)
        line, *advice = answer.err.splitlines()
        assert (answer.code, answer.out) == (3, ""), command
        assert len(advice) == ("crewtrack restore" in line)  # which backup, where one would help
        assert line.startswith(f"{record} {UNUSABLE[how][0]}")
        assert UNUSABLE[how][1] in line
    assert (record.read_bytes() if record.exists() else None) == content
    assert not Path("all").exists()
    assert not Path("copy").exists()


@pytest.mark.parametrize(
    "change",
    [
        "people SET joined = '2021-13-01'",
        "sorties SET launched = 'on Monday at dawn 12'",
        "sorties SET minutes = 'long'",
        "performances SET person_id = 999",
    ],
)
def test_a_damaged_value_is_told_by_every_command_that_reads_it(
    ask: Ask, record: Path, change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    evidence = record.parent / "evidence"
    assert ask("--db", record, "export", evidence).code == 0
    with closing(sqlite3.connect(record)) as database:
        for table in ("people", "sorties", "performances"):
            database.execute(f"DROP TRIGGER {table}_no_update")
        database.execute("PRAGMA ignore_check_constraints=ON")
        database.execute(f"UPDATE {change} WHERE id = 1")
        database.commit()
    monkeypatch.chdir(record.parent)
    for command in (*COMMANDS[:3], ("export", "all"), ("import", evidence)):
        answer = ask("--db", record, *command)
        line, _ = answer.err.splitlines()
        assert (answer.code, answer.out) == (3, ""), (command, line)
        assert line.startswith(f"{record} holds something that is not as it was recorded (")
        assert "see 'crewtrack verify'" in line
    assert ask("--db", record, "verify").code == 1


def test_a_record_on_a_server_is_not_taken_for_a_file(
    ask: Ask, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, small_unit: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    standard = small_unit.parent / "unit.toml"
    answer = ask("--db", "postgresql+psycopg://host/unit", "init", "--standard", standard)
    assert (answer.code, len(answer.err.splitlines())) == (3, 1)
    assert list(tmp_path.iterdir()) == []


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program's work is waited for only a moment."""
    from crewtrack.records.store import Record

    monkeypatch.setitem(Record.open.__func__.__kwdefaults__, "busy_seconds", 0.1)  # type: ignore[attr-defined] # what a classmethod wraps


@pytest.mark.usefixtures("impatient")
def test_an_import_waits_for_another_and_then_gives_up(ask: Ask, record: Path) -> None:
    before = state(ask, record)
    file = people(record.parent, "Zoë", 3)
    with closing(sqlite3.connect(record, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = ask("--db", record, "import", file)
        assert answer.code == 3
        assert answer.err == f"{record} is in use by another program; try again when that is done\n"
        assert ask("--db", record, "roster").code == 0  # readers wait for nobody
    assert state(ask, record) == before
    assert ask("--db", record, "import", file).code == 0


def test_two_imports_at_once_both_come_in(ask: Ask, record: Path) -> None:
    names = ("Ana", "Zoë")
    files = [people(record.parent / name, name, MANY // 10) for name in names]
    processes = [started("--db", record, "import", file) for file in files]
    assert [ended(process) for process in processes] == [(0, ""), (0, "")]
    rows = state(ask, record)["people.csv"].decode().splitlines()
    counted = [sum(row.startswith(f"{name}-") for row in rows) for name in names]
    assert counted == [MANY // 10, MANY // 10]


def test_of_two_imports_at_once_that_differ_the_second_is_refused(ask: Ask, record: Path) -> None:
    files = [people(record.parent / name, "same", 500) for name in ("one", "other")]
    other = files[1].read_text(encoding="utf-8").replace(",same", ",different")
    files[1].write_text(other, encoding="utf-8")
    processes = [started("--db", record, "import", file) for file in files]
    ends = sorted(ended(process) for process in processes)
    assert [code for code, _ in ends] == [0, 2]
    assert "is recorded otherwise" in ends[1][1]
    rows = state(ask, record)["people.csv"].decode().splitlines()
    came_in = {row.split(",")[1] for row in rows if row.startswith("same-")}
    assert len(came_in) == 1


KILL = """
import os, signal
from crewtrack.records import {module}
whole = {module}.{name}
def killed(*given, **named):
    {when}
    os.kill(os.getpid(), getattr(signal, "SIGKILL", signal.SIGTERM))
{module}.{name} = killed
"""


@pytest.mark.parametrize(
    ("module", "name", "when"),
    [
        ("acting", "encoded", "pass"),  # before the first row
        ("journal", "append", "pass"),  # after all rows
        ("journal", "append", "whole(*given, **named)"),  # after the journal, before the commit
    ],
)
def test_a_program_that_is_killed_half_way_leaves_the_record_as_it_was(
    ask: Ask, record: Path, module: str, name: str, when: str
) -> None:
    before = state(ask, record)
    file = people(record.parent, "Zoë", MANY // 10)
    process = started(
        "--db", record, "import", file, before=KILL.format(module=module, name=name, when=when)
    )
    code, said = ended(process)
    assert code == -getattr(signal, "SIGKILL", -signal.SIGTERM)
    assert said == ""
    assert state(ask, record) == before
    assert ask("--db", record, "import", file).code == 0


def test_a_first_record_that_is_killed_half_way_is_not_there(
    ask: Ask, tmp_path: Path, small_unit: Path
) -> None:
    standard, record = small_unit.parent / "unit.toml", tmp_path / "new.crewtrack"
    dying = KILL.format(module="moving", name="place", when="pass")
    code, _ = ended(started("--db", record, "init", "--standard", standard, before=dying))
    assert code != 0
    assert not record.exists()
    assert ask("--db", record, "init", "--standard", standard).code == 0


SMALL_FILES = """
import resource
resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most}))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
def test_a_file_that_may_not_grow_leaves_the_record_as_it_was(ask: Ask, record: Path) -> None:
    before = state(ask, record)
    file = people(record.parent, "Zoë", MANY)
    most = record.stat().st_size + 100_000
    process = started("--db", record, "import", file, before=SMALL_FILES.format(most=most))
    code, said = ended(process)
    assert code == 3
    assert said.startswith(f"{record} can't ")
    assert "nothing of this was recorded" in said
    assert state(ask, record) == before
    assert ask("--db", record, "import", file).code == 0


@pytest.fixture
def small_disk(tmp_path: Path, record: Path) -> list[str]:
    """What runs a command beside a disk of 1 MiB at ``disk``, which begins as ``kept``, with a copy
    of the record in it, and is copied back there; the system forgets it with the process."""
    disk, kept = tmp_path / "disk", tmp_path / "kept"
    disk.mkdir()
    kept.mkdir()
    shutil.copy(record, kept)
    script = (
        f"mount -t tmpfs -o size=1m none '{disk}' && cp '{kept}'/* '{disk}'/ || exit 99;"
        f" \"$@\"; code=$?; cp '{disk}'/* '{kept}'/; exit $code"
    )
    return ["unshare", "--mount", "sh", "-c", script, "sh"]


@pytest.mark.skipif(shutil.which("unshare") is None, reason="no way to make a small disk")
def test_a_disk_that_fills_up_half_way_leaves_the_record_as_it_was(
    ask: Ask, record: Path, tmp_path: Path, small_disk: list[str]
) -> None:
    if subprocess.run([*small_disk, "true"], capture_output=True, check=False).returncode:
        pytest.skip("not allowed to make a small disk")
    before = state(ask, record)
    file = people(tmp_path, "Zoë", MANY)
    command = [sys.executable, "-c", RUN, "--db", str(tmp_path / "disk" / record.name)]
    done = subprocess.run(
        [*small_disk, *command, "import", str(file)],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert (done.returncode, done.stdout) == (3, "")
    assert len(done.stderr.splitlines()) == 1
    assert f"the disk that holds {tmp_path / 'disk'} is full" in done.stderr
    assert state(ask, tmp_path / "kept" / record.name) == before


def test_a_result_that_can_not_be_written_leaves_the_old_one(
    ask: Ask, record: Path, tmp_path: Path
) -> None:
    answer = ask("--db", record, "roster", "--out", tmp_path / "none" / "roster.txt")
    assert answer.code == 2
    assert "name a file in a folder that exists" in answer.err
