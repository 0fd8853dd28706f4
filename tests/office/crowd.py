"""One who writes to a record while others do, as a process of its own.

``python -m tests.office.crowd HOW NAME COUNT RECORD``: HOW is ``desk`` (the office, which looks
between acts whether others have written) or ``command`` (imports by the command line). Each act is
one sortie, or one person, called NAME-number. Prints JSON: what went wrong, and how often others
were waited for. With COUNT 0 it goes on until its standard input ends, and adds how long each act
took.
"""

import json
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from datetime import UTC, datetime
from io import StringIO
from itertools import count
from pathlib import Path
from select import select
from tempfile import TemporaryDirectory

from crewtrack.cli.outcome import run
from crewtrack.facts import SORTIES, Row, Value
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from crewtrack.office.recording import record

LAUNCHED = datetime(2026, 5, 1, 12, tzinfo=UTC)


def sortie(key: str) -> Row:
    """A sortie of which little is known."""
    values: dict[str, Value] = {
        "sortie": key,
        "launched": LAUNCHED,
        "minutes": 12,
        "setting": "live",
    }
    return tuple(values.get(column.name, column.default) for column in SORTIES.columns)


def at_a_desk(office: Office, name: str) -> Callable[[int], str]:
    """Logs one sortie, and then looks whether others have written."""

    def act(number: int) -> str:
        before = office.newest()
        changes = record(office, [Entry(SORTIES, sortie(f"{name}-{number}"))], Order(name))
        if changes.seq is None or not before < changes.seq <= office.newest():
            return f"act {changes.seq} is not after {before}"
        return ""

    return act


def by_command(where: Path, folder: Path, name: str, waits: list[str]) -> Callable[[int], str]:
    """Imports one person."""
    file = folder / "people.csv"

    def act(number: int) -> str:
        file.write_text(f"person,name\n{name}-{number},{name}\n", encoding="utf-8")
        said, told = StringIO(), StringIO()
        with redirect_stderr(said), redirect_stdout(told):
            code = run(["--db", str(where), "import", str(file), "--by", name])
        if said.getvalue().startswith("Another program is writing"):
            waits.append(name)
            return "" if code == 0 else said.getvalue()
        return said.getvalue() if code == 0 else f"{code}: {said.getvalue()}"

    return act


def numbers(most: int) -> Iterator[int]:
    """The numbers of the acts: so many, or (0) on until standard input ends."""
    for number in count(1):
        if number > most > 0 or (not most and select([sys.stdin], [], [], 0)[0]):
            return
        yield number


def write(how: str, name: str, most: int, where: Path) -> dict[str, object]:
    """Write as one of the crowd; what came of it."""
    wrong: list[str] = []
    waits: list[str] = []
    seconds: list[float] = []
    with TemporaryDirectory() as folder, Office.open(where) as office:
        office.on_waiting(lambda: waits.append(name))
        act = at_a_desk(office, name)
        if how == "command":
            act = by_command(where, Path(folder), name, waits)
        for number in numbers(most):
            began = 0.0 if most else time.perf_counter()
            told = act(number)
            if told:
                wrong.append(f"{name}-{number}: {told}")
            if not most:
                seconds.append(time.perf_counter() - began)
    return {"wrong": wrong, "waits": len(waits), "seconds": seconds}


if __name__ == "__main__":
    given, author, acts, path = sys.argv[1:]
    sys.stdout.write(json.dumps(write(given, author, int(acts), Path(path))))
