"""Two desks and a command line that write to one record for a minute: ``python -m
tests.bench.crowd [SECONDS]``. Prints acts, acts in a second, and the longest that one took."""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from crewtrack.office import keeping
from crewtrack.office.office import Office
from tests.office.malformed_run import made_record
from tests.office.test_crowd import CROWD

COMMAND = (sys.executable, "-m", "tests.office.crowd")


def main(seconds: float) -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        record = made_record(Path(folder))
        crowd = {
            name: subprocess.Popen(
                [*COMMAND, how, name, "0", str(record)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                encoding="utf-8",
            )
            for name, how in CROWD.items()
        }
        time.sleep(seconds)
        told = {name: json.loads(process.communicate("")[0]) for name, process in crowd.items()}
        _report(told, seconds)
        with Office.open(record) as office:
            done = sum(len(one["seconds"]) for one in told.values())
            print(f"missing: {2 + done - office.newest()}; breaks: {keeping.verify(office)}")


def _report(told: dict[str, dict[str, list[float]]], seconds: float) -> None:
    for name, one in told.items():
        taken = one["seconds"]
        print(
            f"{CROWD[name]} {name}: {len(taken)} acts, {len(taken) / seconds:.1f} a second, the"
            f" longest {max(taken):.2f} s, told to wait {one['waits']} times,"
            f" wrong: {one['wrong'][:3]}"
        )


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 60)
