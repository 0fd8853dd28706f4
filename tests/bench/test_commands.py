"""How long whole processes take: the promise is for a quiet machine, so the best run counts.

Run by itself: ``pytest tests/bench -s``.
"""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import pytest

RUNS = 7


def crewtrack(*arguments: str | Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "crewtrack", *map(str, arguments)],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        check=True,
    )


def best(run: Callable[[], None], runs: int = RUNS) -> float:
    """Seconds of the fastest run."""
    seconds = []
    for _ in range(runs):
        start = perf_counter()
        run()
        seconds.append(perf_counter() - start)
    return min(seconds)


@pytest.fixture(scope="module")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    crewtrack("demo", folder)
    return folder / "tamarack-harbor.crewtrack"


def test_help_answers_at_once() -> None:
    seconds = best(lambda: crewtrack("--help"))
    print(f"\ncrewtrack --help: {seconds:.3f} s")
    assert seconds < 0.15


def test_the_demonstrations_roster_comes_while_one_looks(demonstration: Path) -> None:
    seconds = best(lambda: crewtrack("--db", demonstration, "roster"))
    print(f"\ncrewtrack roster: {seconds:.3f} s")
    assert seconds < 0.6


def test_the_demonstration_is_made_while_one_waits(tmp_path: Path) -> None:
    seconds = best(lambda: crewtrack("demo", tmp_path / "demo"), runs=1)
    print(f"\ncrewtrack demo: {seconds:.3f} s")
    assert seconds < 5
