"""A record that this process has open is not looked into by other means than SQLite."""

import subprocess
import sys
from pathlib import Path

from crewtrack.records import in_use
from crewtrack.records.opening import is_record, no_record
from crewtrack.records.store import Record, create

_GROW = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from crewtrack import facts
from crewtrack.records.store import Record

now = datetime(2026, 11, 25, 17, tzinfo=UTC)
with Record.open(Path(sys.argv[1])) as record, record.act("import", "officer", now) as act:
    act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
"""


def test_what_is_open_may_not_be_looked_into(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    create(path)
    with Record.open(path) as record, record.reading(), in_use.looking(path) as free:
        assert not free


def test_it_may_be_once_everybody_has_closed_it(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    create(path)
    with Record.open(path) as record, record.reading(), record.reading():
        pass
    with in_use.looking(path) as free:
        assert free


def test_what_can_t_be_opened_is_not_held(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    path.write_bytes(b"no record")
    assert no_record(path) is not None
    with in_use.looking(path) as free:
        assert free


def test_looking_again_and_again_holds_it_until_the_record_is_closed(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    create(path)
    with Record.open(path) as record:
        record.head_seq()
        with in_use.looking(path) as free:
            assert not free
    with in_use.looking(path) as free:
        assert free


def test_an_open_record_still_is_one(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    create(path)
    with Record.open(path) as record, record.reading():
        assert is_record(path)
        assert no_record(path) is None


def test_what_others_write_is_seen_after_it_was_opened_twice_here(tmp_path: Path) -> None:
    path = tmp_path / "unit.crewtrack"
    create(path)
    with Record.open(path) as first:
        assert first.head_seq() == 0
        with Record.open(path):
            subprocess.run([sys.executable, "-c", _GROW, str(path)], check=True)
            assert first.head_seq() == 1
