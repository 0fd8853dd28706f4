"""How fast the program is, as whole processes: ``python -m tests.bench.speed [PERFORMANCES]``.

Prints seconds and, beside them, the ratio to a loop of ten million additions run in between, so
that figures from a busy or a slow machine can be told from those of a change.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from statistics import median

from tests.bench.long_history import write

CREWTRACK = (sys.executable, "-m", "crewtrack")


def _loop() -> float:
    start = time.perf_counter()
    total = 0
    for number in range(10_000_000):
        total += number
    return time.perf_counter() - start


def _run(arguments: Sequence[str], folder: Path) -> tuple[float, int]:
    """Seconds and peak MiB of one process, which must succeed."""
    start = time.perf_counter()
    child = subprocess.Popen(arguments, cwd=folder, stdout=subprocess.DEVNULL, env=_environment())
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{' '.join(arguments)} ended with {child.returncode}")
    return time.perf_counter() - start, usage.ru_maxrss // 1024


def _environment() -> dict[str, str]:
    here = str(Path(__file__).resolve().parents[2])
    return {**os.environ, "PYTHONPATH": here, "CREWTRACK_DB": "long.crewtrack"}


def _report(what: str, arguments: Sequence[str], folder: Path, times: int = 3) -> float:
    taken, peaks, loops = [], [], []
    for _ in range(times):
        loops.append(_loop())
        seconds, peak = _run(arguments, folder)
        taken.append(seconds)
        peaks.append(peak)
    ratio = median(taken) / median(loops)
    print(f"{what:44} {median(taken):8.3f} s {ratio:8.2f} loops {max(peaks):6} MiB", flush=True)
    return median(taken)


def main(performances: int) -> None:
    """Generate, measure, print."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _report("python -c pass", (sys.executable, "-c", "pass"), folder)
        _report("crewtrack --help", (*CREWTRACK, "--help"), folder)
        _run((*CREWTRACK, "demo", "demo"), folder)
        demo = ("--db", "demo/tamarack-harbor.crewtrack")
        _report("crewtrack roster, demonstration", (*CREWTRACK, *demo, "roster"), folder)
        _report("crewtrack demo, nothing to PDF", (*CREWTRACK, "demo"), folder)
        write(folder / "long", performances)
        _run((*CREWTRACK, "init", "--standard", "long/standard.toml"), folder)
        rows = performances + performances // 4
        taken = _report(f"import of {rows} rows", (*CREWTRACK, "import", "long"), folder, 1)
        print(f"{'':44} {rows / taken:8.0f} rows a second")
        _report("roster on a day", (*CREWTRACK, "roster", "--on", "2025-12-31"), folder)
        _report("all spans of everybody", (*CREWTRACK, "history", "--format", "json"), folder)
        _report("verify", (*CREWTRACK, "verify"), folder, 1)
        size = (folder / "long.crewtrack").stat().st_size
        print(json.dumps({"performances": performances, "record_mib": size >> 20}))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500_000)
