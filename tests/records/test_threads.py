"""One record used from several threads at once."""

import gc
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier, Event
from zoneinfo import ZoneInfo

from crewtrack import facts
from crewtrack.records.collecting import no_collection
from crewtrack.records.store import Record, create
from crewtrack.records.verifying import verify
from tests.records.samples import PEOPLE, at

DETROIT = ZoneInfo("America/Detroit")
LONG = 30
"""Seconds after which a test that hangs fails."""


def at_once(work: Callable[[int], object], threads: int) -> list[object]:
    """What each of several threads gives that begin together."""
    barrier = Barrier(threads)

    def one(number: int) -> object:
        barrier.wait(LONG)
        return work(number)

    with ThreadPoolExecutor(threads) as pool:
        return list(pool.map(one, range(threads)))


def add(record: Record, key: str) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [(key, "x", None, None, None, None, ())])


def test_a_thread_reads_one_state_while_another_writes(record: Record) -> None:
    began, wrote = Event(), Event()

    def read() -> tuple[int, int, int]:
        with record.reading() as reading:
            before = reading.count(facts.PEOPLE)
            began.set()
            assert wrote.wait(LONG)
            return before, reading.count(facts.PEOPLE), len(reading.evidence(DETROIT).books)

    with ThreadPoolExecutor(1) as pool:
        told = pool.submit(read)
        assert began.wait(LONG)
        add(record, "K-30")
        wrote.set()
        assert told.result(LONG) == (len(PEOPLE) + 1,) * 3
    with record.reading() as reading:
        assert reading.count(facts.PEOPLE) == len(PEOPLE) + 2


def test_a_thread_reads_and_looks_while_another_is_within_an_act(record: Record) -> None:
    def look() -> tuple[int, int]:
        with record.reading() as reading:
            return record.head_seq(), reading.count(facts.PEOPLE)

    with (
        ThreadPoolExecutor(1) as pool,
        record.act("import", "officer", at(5)) as act,
    ):
        act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
        assert pool.submit(look).result(LONG) == (4, len(PEOPLE) + 1)


def test_threads_that_write_at_once_take_turns(sample: Path) -> None:
    def work(number: int) -> None:
        for n in range(5):
            add(record, f"P-{number}-{n}")

    with Record.open(sample, busy_seconds=LONG) as record:
        at_once(work, 4)
        assert record.head_seq() == 24
        assert verify(record) == ()


def test_threads_look_and_read_and_write_at_once(sample: Path) -> None:
    def work(number: int) -> bool:
        if number == 0:
            for n in range(10):
                add(record, f"P-{n}")
            return True
        seen = []
        for _ in range(20):
            with record.reading() as reading:
                head = reading.head().seq
                whole = reading.count(facts.PEOPLE) == len(PEOPLE) + 1 + head - 4
                seen.append(whole and record.head_seq() >= head)
        return all(seen)

    with Record.open(sample, busy_seconds=LONG) as record:
        assert at_once(work, 4) == [True] * 4
        assert record.head_seq() == 14


def test_threads_may_make_and_verify_records_at_once(tmp_path: Path) -> None:
    def make(number: int) -> object:
        path = tmp_path / f"{number}.crewtrack"
        create(path)
        with Record.open(path) as record:
            return verify(record)

    assert at_once(make, 4) == [()] * 4


def test_cycles_are_looked_for_again_once_the_last_thread_has_read() -> None:
    assert gc.isenabled()
    first, second = no_collection(), no_collection()
    first.__enter__()
    second.__enter__()
    first.__exit__(None, None, None)
    between = gc.isenabled()
    second.__exit__(None, None, None)
    assert (between, gc.isenabled()) == (False, True)
