"""How long malformed files keep the program busy: ``python -m tests.bench.malformed``.

Reads all ten thousand, and those that seem endless, and prints of each kind how many are taken and
refused, the seconds in all and those of the slowest.
"""

import tempfile
import time
from pathlib import Path

from crewtrack.errors import Refused
from crewtrack.office.office import Office
from tests.office.endless import NAMES
from tests.office.malformed_run import files, made_record, take
from tests.office.test_malformed_files import COUNTS
from tests.office.unit_at_work import Clock


def main() -> None:
    """Print the figures."""
    for kind, count in {**COUNTS, "endless": len(NAMES)}.items():
        with tempfile.TemporaryDirectory() as folder:
            _measure(kind, count, Path(folder))


def _measure(kind: str, count: int, folder: Path) -> None:
    seconds: dict[int, float] = {}
    refused = 0
    with Office.open(made_record(folder), Clock()) as office:
        for number, path in files(kind, range(count), folder):
            start = time.perf_counter()
            try:
                take(office, path)
            except Refused:
                refused += 1
            seconds[number] = time.perf_counter() - start
            path.unlink()
    slowest = max(seconds, key=lambda number: seconds[number])
    told = f", {NAMES[slowest][1]}" if kind == "endless" else ""
    print(
        f"{kind}: {count} files, {count - refused} taken, {refused} refused,"
        f" {sum(seconds.values()):.1f} s; the slowest, number {slowest}{told}:"
        f" {seconds[slowest]:.2f} s",
        flush=True,
    )


if __name__ == "__main__":
    main()
