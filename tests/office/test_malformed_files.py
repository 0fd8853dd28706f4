"""Ten thousand malformed files, and small ones that would never end: each is taken or refused with
its faults and their places, in time, and the record stays as it was."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from crewtrack.errors import Refused
from crewtrack.files.standard_file import read_standard_file
from crewtrack.office.importing import ImportOrder, import_evidence
from tests.office.endless import NAMES, whole
from tests.office.malformed import TABLES, malformed
from tests.office.malformed_books import packed, parts_of
from tests.office.malformed_run import Outcome
from tests.office.unit_at_work import Unit

HERE = Path(__file__).parents[2]
AT_ONCE = {"csv": 500, "xlsx": 500, "toml": 2_000}
COUNTS = {"csv": 1_500, "xlsx": 500, "toml": 8_000}
CHUNKS = [(kind, first) for kind, most in COUNTS.items() for first in range(0, most, AT_ONCE[kind])]
FEW = 12
SECONDS = 250
"""A bound for what takes ten: it ends what would never end."""


def outcome(kind: str, first: int, count: int, folder: Path) -> Outcome:
    """What became of some files, read in a process of its own."""
    command = [sys.executable, "-m", "tests.office.malformed_run"]
    done = subprocess.run(
        [*command, kind, str(first), str(count), str(folder)],
        cwd=HERE,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=SECONDS,
    )
    assert done.returncode == 0, done.stderr
    return Outcome(**json.loads(done.stdout))


@pytest.mark.parametrize(("kind", "first"), CHUNKS)
def test_a_malformed_file_is_refused_in_sentences_and_changes_nothing(
    kind: str, first: int, tmp_path: Path
) -> None:
    found = outcome(kind, first, AT_ONCE[kind], tmp_path)
    assert found.wrong == []
    assert found.taken > 0, "nothing comes near to being right"
    assert found.taken + found.refused == AT_ONCE[kind]


@pytest.mark.parametrize("first", range(0, len(NAMES), FEW))
def test_a_small_file_that_seems_endless_is_read_in_time(first: int, tmp_path: Path) -> None:
    count = len(NAMES[first : first + FEW])
    found = outcome("endless", first, count, tmp_path)
    assert found.wrong == []
    assert found.taken + found.refused == count


def test_what_the_malformed_files_are_made_of_is_sound(unit: Unit) -> None:
    taken = unit.take(TABLES)
    assert taken.added == {name: text.count("\n") - 1 for name, text in TABLES.items()}
    for name, content in whole():
        (unit.folder / name).write_bytes(content)
    book = unit.folder / "all.xlsx"
    book.write_bytes(packed(parts_of(TABLES)))
    again = import_evidence(unit.office, [book], ImportOrder("Ana"))
    assert (again.unchanged, again.changed) == (taken.added, False)
    with pytest.raises(Refused) as refused:
        import_evidence(unit.office, [unit.folder / "book.xlsx"], ImportOrder("Ana"))
    assert "is recorded otherwise" in str(refused.value)
    assert read_standard_file(unit.folder / "unit.toml")[1].edition == "2026-1"


@pytest.mark.parametrize("kind", COUNTS)
def test_a_number_always_makes_the_same_file(kind: str) -> None:
    made = [malformed(kind, number) for number in range(40)]
    assert made == [malformed(kind, number) for number in range(40)]
    assert len({file.content for file in made}) > 35
