"""Reads malformed files on the paths that users have, and says what came of it.

``python -m tests.office.malformed_run KIND FIRST COUNT FOLDER``, as a process of its own, so that
one that never ends can be ended. Prints JSON; ``wrong`` has a line for every file of which anything
came but a value or faults with their places.
"""

import json
import sys
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field
from hashlib import sha256
from pathlib import Path

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.files.standard_file import read_standard_file
from crewtrack.office import keeping
from crewtrack.office.importing import ImportOrder, import_evidence
from crewtrack.office.office import Office
from tests.office.malformed import TABLES, malformed
from tests.office.unit_at_work import STANDARD, Clock

_ACTS = 2
"""What the record's journal holds at first."""


@dataclass
class Outcome:
    """How many files were taken and refused, and what went wrong with others."""

    taken: int = 0
    refused: int = 0
    wrong: list[str] = field(default_factory=list)


def outcome_of(kind: str, numbers: range, folder: Path) -> Outcome:
    """What becomes of some files; ``folder`` is empty, and nothing in it stays but a record that
    was found as it had been."""
    found = Outcome()
    record = made_record(folder)
    before = sha256(record.read_bytes()).digest()
    with Office.open(record, Clock()) as office:
        head = _head(office)
        for number, path in files(kind, numbers, folder):
            _try(lambda path=path: take(office, path), f"{kind} {number}", found)  # type: ignore[misc] # a default binds it
            path.unlink()
            if office.newest() != _ACTS:
                found.wrong.append(f"{kind} {number}: the record has grown")
        if _head(office) != head:
            found.wrong.append("the journal ends otherwise")
    if sha256(record.read_bytes()).digest() != before:
        found.wrong.append("the record's file has changed")
    found.wrong += [f"left behind: {path.name}" for path in folder.iterdir() if path != record]
    return found


def made_record(folder: Path) -> Path:
    """A record with evidence, alone in its folder."""
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    record = folder / "record.crewtrack"
    keeping.init(record, folder / "unit.toml", "Ana", Clock())
    paths = [folder / f"{name}.csv" for name in TABLES]
    for path in paths:
        path.write_text(TABLES[path.stem], encoding="utf-8")
    with Office.open(record, Clock()) as office:
        import_evidence(office, paths, ImportOrder("Ana"))
    for path in (*paths, folder / "unit.toml"):
        path.unlink()
    return record


def files(kind: str, numbers: range, folder: Path) -> Iterator[tuple[int, Path]]:
    """The files, written one by one."""
    for number in numbers:
        file = malformed(kind, number)
        path = folder / file.name
        path.write_bytes(file.content)
        yield number, path


def take(office: Office, path: Path) -> None:
    """Take a file in as a user would, but for writing anything."""
    if path.suffix != ".toml":
        import_evidence(office, [path], ImportOrder("Ana", dry_run=True))
        return
    try:
        read_standard_file(path)
    except Refused:
        keeping.adopt(office, path, "Ana", "a reason")
        raise AssertionError("what can't be read was adopted") from None


def _try(act: Callable[[], None], what: str, found: Outcome) -> None:
    try:
        act()
    except Refused as refused:
        found.refused += 1
        if not refused.faults or not all(one.place and one.problem for one in refused.faults):
            found.wrong.append(f"{what}: {refused.faults}")
    except RecordUnusable as unusable:
        found.wrong.append(f"{what}: {unusable}")
    except BaseException as unexpected:  # noqa: BLE001 - it is what is looked for
        found.wrong.append(f"{what}: {unexpected!r}")
    else:
        found.taken += 1


def _head(office: Office) -> str:
    with office.view() as view:
        return view.head.digest


if __name__ == "__main__":
    given, first, count, where = sys.argv[1:]
    start = int(first)
    sys.stdout.write(
        json.dumps(asdict(outcome_of(given, range(start, start + int(count)), Path(where))))
    )
