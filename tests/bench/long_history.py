"""A long history for the benchmarks, generated from a seed: invented, and the same every time.

``python -m tests.bench.long_history FOLDER [PERFORMANCES]`` writes its files of evidence and its
standard into a folder.
"""

import csv
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

PEOPLE = 200
YEARS = 10
TASKS = tuple(f"task-{n}" for n in range(1, 9))
START = datetime(2016, 1, 1, 6, tzinfo=UTC)
ZONE = "America/Detroit"

HEAD = f"""title = "Benchmark"
edition = "1"
effective = 2015-01-01
zone = "{ZONE}"
position = {{ lat = 47.1, lon = -88.6 }}
"""


def standard() -> str:
    """Fifteen qualifications with twenty-four rules of the common kinds."""
    told = [HEAD]
    told += [f'[tasks.{task}]\ntitle = "Task {task[5:]}"\n' for task in TASKS]
    for number in range(15):
        task, other = TASKS[number % 8], TASKS[(number + 3) % 8]
        rules = [f'{{ recent = "{task}", times = 3, within = "P90D" }}']
        if number % 3 == 0:
            rules.append(f'{{ recent = "{other}", sorties = 2, within = "P6M", drills = 1 }}')
        if number % 5 == 1:
            rules.append(
                f'{{ recent = ["{task}", "{other}"], times = 2, within = "P6M", '
                'through = "month-end", floor = { light = "night" } }'
            )
        if number == 7:
            rules.append(f'{{ recent = "{task}", within = "P30D", regain = "supervised" }}')
        told.append(f"[qualifications.q{number}]\nneeds = [\n  " + ",\n  ".join(rules) + ",\n]\n")
    return "\n".join(told)


def _people() -> Iterator[list[str]]:
    yield ["person", "name"]
    for number in range(1, PEOPLE + 1):
        yield [f"K-{number:03}", f"Person {number}"]


def _assignments() -> Iterator[list[str]]:
    yield ["person", "qualification", "from"]
    for person in range(1, PEOPLE + 1):
        for number in range(15):
            yield [f"K-{person:03}", f"q{number}", "2016-01-01"]


def _sorties(random: Random, count: int) -> Iterator[list[str]]:
    yield ["sortie", "launched", "minutes", "setting", "way", "sea", "wind"]
    for number in range(count):
        launched = START + timedelta(minutes=number * YEARS * 365.25 * 1440 / count)
        yield [
            f"S-{number:06}",
            launched.strftime("%Y-%m-%dT%H:%M:%SZ"),
            str(random.randint(8, 18)),
            "drill" if random.random() < 0.3 else "live",
            random.choice(["moored", "anchored", "drifting", "under-way"]),
            str(random.randint(0, 4)),
            str(random.randint(0, 20)),
        ]


def _performances(random: Random, count: int) -> Iterator[list[str]]:
    yield ["sortie", "person", "task", "times", "supervisor"]
    for number in range(count):
        crew = random.sample(range(1, PEOPLE + 1), 5)
        for person in crew[:4]:
            supervisor = f"K-{crew[4]:03}" if random.random() < 0.2 else ""
            yield [
                f"S-{number:06}", f"K-{person:03}", random.choice(TASKS),
                str(random.randint(1, 2)), supervisor,
            ]  # fmt: skip


def write(folder: Path, performances: int = 500_000) -> None:
    """Write the files; four performances to a sortie."""
    folder.mkdir(parents=True, exist_ok=True)
    random = Random(1)
    sorties = performances // 4
    (folder / "standard.toml").write_text(standard(), encoding="utf-8")
    for name, rows in (
        ("people", _people()),
        ("assignments", _assignments()),
        ("sorties", _sorties(random, sorties)),
        ("performances", _performances(random, sorties)),
    ):
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)


if __name__ == "__main__":
    write(Path(sys.argv[1]), *map(int, sys.argv[2:3]))
