"""Two desks and a command line that write to one record at once, and a word where one waits."""

import json
import sqlite3
import subprocess
import sys
from collections import Counter
from contextlib import closing
from pathlib import Path

import pytest

from crewtrack.errors import RecordUnusable
from crewtrack.facts import PEOPLE, SORTIES
from crewtrack.office import keeping
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from crewtrack.office.recording import record
from crewtrack.records.store import Record
from tests.office.crowd import sortie
from tests.office.unit_at_work import Clock, Unit

HERE = Path(__file__).parents[2]
CROWD = {"Ana": "desk", "Bo": "desk", "Cy": "command"}
ACTS = 120


def test_of_what_three_write_at_once_nothing_is_lost_and_nothing_is_there_twice(
    full_unit: Unit,
) -> None:
    path = full_unit.office.record.path
    full_unit.office.close()
    processes = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.office.crowd", how, name, str(ACTS), str(path)],
            cwd=HERE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            encoding="utf-8",
        )
        for name, how in CROWD.items()
    ]
    for process in processes:
        told, said = process.communicate(timeout=250)
        assert (process.returncode, said) == (0, "")
        assert json.loads(told)["wrong"] == []
    with Office.open(path) as office:
        assert keeping.verify(office) == ()
        with office.view() as view:
            by_author = Counter(act.author for act in view.reading.acts())
            sorties, people = view.reading.current(SORTIES), view.reading.current(PEOPLE)
    numbers = range(1, ACTS + 1)
    assert {name: by_author[name] for name in ("Bo", "Cy")} == dict.fromkeys(("Bo", "Cy"), ACTS)
    assert by_author["Ana"] == ACTS + 2  # the standard and the evidence before
    assert {key for (key,) in sorties if "S-" not in str(key)} == {
        f"{name}-{number}" for name in ("Ana", "Bo") for number in numbers
    }
    assert {key for (key,) in people if str(key).startswith("Cy")} == {
        f"Cy-{number}" for number in numbers
    }


class Writer:
    """Another program that holds the record to write, until it is told to let go."""

    def __init__(self, path: Path) -> None:
        self.connection = sqlite3.connect(path, isolation_level=None)
        self.connection.execute("BEGIN IMMEDIATE")
        self.asked = 0

    def let_go(self) -> None:
        """Let the next one write."""
        self.asked += 1
        self.connection.execute("ROLLBACK")


def test_who_waits_for_another_writer_is_told_and_then_comes_in(full_unit: Unit) -> None:
    other = Writer(full_unit.office.record.path)
    full_unit.office.on_waiting(other.let_go)
    changes = record(full_unit.office, [Entry(SORTIES, sortie("S-66"))], Order("Ana"))
    other.connection.close()
    assert (other.asked, changes.added) == (1, {"sorties": 1})


def test_nobody_is_told_where_there_is_nothing_to_wait_for(full_unit: Unit) -> None:
    told: list[str] = []
    full_unit.office.on_waiting(lambda: told.append("waiting"))
    full_unit.take(people="person,name\nK-66,Eve\n")
    assert told == []


def test_waiting_is_told_again_and_again_and_ends_in_a_refusal(full_unit: Unit) -> None:
    told: list[str] = []
    path = full_unit.office.record.path
    with (
        Record.open(path, busy_seconds=2.5) as impatient,
        closing(sqlite3.connect(path, isolation_level=None)) as other,
    ):
        impatient.waiting = lambda: told.append("waiting")
        other.execute("BEGIN IMMEDIATE")
        with (
            pytest.raises(RecordUnusable, match="is in use by another program"),
            impatient.act("record", "Ana", Clock()()),
        ):
            raise AssertionError("two write at once")
    assert told == ["waiting", "waiting"]


def test_what_ends_the_waiting_ends_the_act_too(full_unit: Unit) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    before = full_unit.head()
    other = Writer(full_unit.office.record.path)
    full_unit.office.on_waiting(stop)
    with pytest.raises(KeyboardInterrupt):
        record(full_unit.office, [Entry(SORTIES, sortie("S-66"))], Order("Ana"))
    other.let_go()
    other.connection.close()
    assert full_unit.head() == before
