"""``python -m tests.bench.faults``: the faults that a record is put through, counted."""

import json
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from crewtrack.office import keeping
from crewtrack.office.office import Office
from tests.office.deeds import DEEDS, write_people
from tests.office.test_full_disk import refusals
from tests.office.test_killed import KILLS, RECORDS
from tests.office.unit_at_work import EVIDENCE, STANDARD, Clock, unit_in
from tests.records.samples import make_sample
from tests.records.test_flipped_bytes import (
    AS_MADE,
    BACKUPS,
    DENSE,
    make_dense,
    places,
    put_back,
    tally,
)

ROOT = Path(__file__).parents[2]


def record_in(folder: Path) -> Path:
    """A small unit's record with evidence, in a folder of its own."""
    (folder / "unit.toml").write_text(STANDARD, encoding="utf-8")
    keeping.init(folder / "made", folder / "unit.toml", "Ana", Clock())
    (folder / "unit").mkdir()
    with unit_in(folder / "unit", folder / "made") as unit:
        unit.take(EVIDENCE)
    shutil.rmtree(folder / "unit" / "given-1")
    return folder / "unit" / "record.crewtrack"


def told_by(*command: str) -> list[Any]:
    """The lines of JSON that a program of ours writes."""
    done = subprocess.run(command, cwd=ROOT, capture_output=True, encoding="utf-8", check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def kills(record: Path) -> Iterator[str]:
    """A program killed at any moment."""
    run = (
        sys.executable,
        "-m",
        "tests.office.crashing",
        str(record),
        "kills",
        str(KILLS * RECORDS),
    )
    *each, last = told_by(*run)
    yield f"{len(each)} kills: {dict(Counter(one['signal'] for one in each))} by signal"
    yield f"by way: {dict(Counter(one['way'] for one in each))}"
    for name in ("acknowledged", "lost", "unsaid"):
        yield f"{name}: {sum(one[name] for one in each)}"
    yield f"backups found and verified: {sum(len(one['backups']) for one in each)}"
    yield f"at the end: {last}"


def full_disk(record: Path, folder: Path) -> Iterator[str]:
    """A file that may not grow, at every size, for a record that somebody else has open too."""
    write_people(folder, 1)
    for deed in DEEDS:
        copy = Path(shutil.copy(record, folder / "record.crewtrack"))
        with Office.open(copy, Clock()) as other:
            other.newest()
            told = Counter(said for _, said in refusals(copy, folder, deed))
        yield f"{deed}: {told.total()} sizes refused, in {len(told)} ways"


def small_disk(record: Path, folder: Path) -> Iterator[str]:
    """A disk with room for so many pages."""
    disk, kept = folder / "disk", folder / "kept"
    disk.mkdir()
    kept.mkdir()
    write_people(kept, 1)
    mount = f"mount -t tmpfs -o size=2m none '{disk}' && exec \"$@\""
    filling = (sys.executable, "-m", "tests.office.filling", str(record), str(disk), str(kept))
    steps = told_by("unshare", "--mount", "sh", "-c", mount, "sh", *filling)
    tries = Counter(one["deed"] for one in steps)
    yield f"tries on a small disk, the last of each done: {dict(tries)}, {len(steps)} in all"


def flips(folder: Path) -> Iterator[str]:
    """A byte that changed."""
    sample, dense = folder / "record.crewtrack", folder / "dense"
    make_sample(sample)
    make_dense(Path(shutil.copy(sample, dense)))
    copy = folder / "copy.crewtrack"
    for name, path, seeds in (("dense", dense, DENSE), ("sample", sample, AS_MADE)):
        size = path.stat().st_size
        found = [tally(path, copy, places(f"{name} {seed}", size)) for seed in range(seeds)]
        yield f"{name}, {size} bytes: {dict(sum(found, Counter[str]()))}"
    size = dense.stat().st_size
    back = [put_back(dense, folder, places(f"backup {seed}", size)) for seed in range(BACKUPS)]
    yield f"backup, {size} bytes: {dict(sum(back, Counter[str]()))}"


def main() -> None:
    """All of them."""
    with TemporaryDirectory() as name:
        folders = [Path(name) / each for each in ("unit", "kills", "full", "small", "flips")]
        for folder in folders:
            folder.mkdir()
        made = record_in(folders[0])
        for lines in (
            kills(Path(shutil.copy(made, folders[1]))),
            full_disk(made, folders[2]),
            small_disk(made, folders[3]),
            flips(folders[4]),
        ):
            for line in lines:
                print(line, flush=True)


if __name__ == "__main__":
    main()
