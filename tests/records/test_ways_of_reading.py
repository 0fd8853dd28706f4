"""Whatever happened to facts, every way of reading them says the same."""

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack import facts
from crewtrack.facts import Row
from crewtrack.records.acting import Act
from crewtrack.records.reading import Reading
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import at

DETROIT = ZoneInfo("America/Detroit")
STEPS = st.lists(st.tuples(st.integers(0, 5), st.integers(1, 9)), max_size=12)


def step(act: Act, key: str, times: int) -> int | None:
    """Add a performance, or revise it, or strike it out where ``times`` is odd and it is there;
    returns how many times it says then, None where it is struck out."""
    row: Row = ("S-1", "K-07", key, times, None, None, None, None)
    held = act.current_or_struck(facts.PERFORMANCES).get(("S-1", "K-07", key))
    if held is None:
        act.add(facts.PERFORMANCES, [row])
    elif held.struck or times % 2 == 0:
        act.revise(facts.PERFORMANCES, [(held.entry, held.number, row)])
    else:
        act.strike(facts.PERFORMANCES, [(held.entry, held.number)])
        return None
    return times


@settings(max_examples=30)
@given(STEPS)
def test_whatever_is_added_revised_and_struck_out_is_read_alike_in_every_way(
    made_once: Path, steps: list[tuple[int, int]]
) -> None:
    with TemporaryDirectory() as folder:
        path = Path(shutil.copy(made_once, Path(folder) / "record.crewtrack"))
        with Record.open(path) as record:
            said: dict[str, int | None] = {}
            after = [dict(said)]
            for number, (task, times) in enumerate(steps):
                with record.act("x", "officer", at(5 + number)) as act:
                    said[f"task-{task}"] = step(act, f"task-{task}", times)
                after.append(dict(said))
            with record.reading() as reading:
                for number, known in enumerate(after):
                    there = {key: times for key, times in known.items() if times is not None}
                    assert told(reading, 4 + number) == [there] * 3
                    assert reading.count(facts.PERFORMANCES, 4 + number) == 4 + len(there)
            assert verify(record) == ()


def told(reading: Reading, seq: int) -> list[dict[str, int]]:
    """How many times each task was done, as each way of reading says."""
    listed = [row for row in reading.rows(facts.PERFORMANCES, seq) if "task-" in str(row[2])]
    current = reading.current(facts.PERFORMANCES, seq)
    known = reading.evidence(DETROIT, seq).books["K-07"].performances
    return [
        {str(row[2]): int(str(row[3])) for row in listed},
        {
            str(key[2]): int(str(one.row[3]))
            for key, one in current.items()
            if "task-" in str(key[2])
        },
        {task: done.times[0] for task, done in known.items() if "task-" in task},
    ]
