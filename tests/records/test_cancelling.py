"""Long work that whoever watches it breaks off: nothing half done is left behind."""

from collections.abc import Callable
from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.records.backups import backup, restore
from crewtrack.records.progress import Progress
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import at


class Cancelled(Exception):
    """What a watcher raises."""


class Watcher:
    """Raises at a step, counted from 0; ``told`` has all steps so far."""

    def __init__(self, at_step: int | None = None) -> None:
        self.at_step = at_step
        self.told: list[tuple[str, int, int]] = []

    def __call__(self, what: str, done: int, total: int) -> None:
        self.told.append((what, done, total))
        if len(self.told) - 1 == self.at_step:
            raise Cancelled


@pytest.fixture(autouse=True)
def page_by_page(monkeypatch: pytest.MonkeyPatch) -> None:
    """Copies go by few pages, so that there is something to break off."""
    monkeypatch.setattr("crewtrack.records.copying._AT_ONCE", 20)


@pytest.fixture
def copy(sample: Path, tmp_path: Path) -> Path:
    """A backup of the sample, with one act less."""
    path = tmp_path / "copy.crewtrack"
    with Record.open(sample) as record:
        backup(record, path)
        with record.act("import", "officer", at(5)) as act:
            act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
    return path


def contents(folder: Path) -> dict[str, bytes]:
    """Every file in a folder."""
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def cancelled_at_each_step(work: Callable[[Progress], object]) -> list[str]:
    """Break work off at one step after the other, then let it end; what the steps were of."""
    step = 0
    while True:
        watcher = Watcher(step)
        try:
            work(watcher)
        except Cancelled:
            step += 1
        else:
            return list(dict.fromkeys(what for what, _, _ in watcher.told))


def unchanged(folder: Path, work: Callable[[Progress], object]) -> Callable[[Progress], object]:
    """The work; where it is broken off, the folder must be as it was."""
    before = contents(folder), sorted(folder.iterdir())

    def checked(progress: Progress) -> object:
        try:
            return work(progress)
        except Cancelled:
            assert (contents(folder), sorted(folder.iterdir())) == before
            raise

    return checked


def test_a_backup_that_is_broken_off_leaves_no_file(sample: Path, tmp_path: Path) -> None:
    def work(progress: Progress) -> None:
        with Record.open(sample) as record:
            backup(record, tmp_path / "copy.crewtrack", progress)

    steps = cancelled_at_each_step(unchanged(tmp_path, work))
    assert steps[:3] == ["copying", "the file", "people"]
    assert (tmp_path / "copy.crewtrack").is_file()


def test_a_backup_tells_how_many_pages_are_copied(sample: Path, tmp_path: Path) -> None:
    watcher = Watcher()
    with Record.open(sample) as record:
        backup(record, tmp_path / "copy.crewtrack", watcher)
    copied = [(done, total) for what, done, total in watcher.told if what == "copying"]
    pages = sample.stat().st_size // 4096
    assert copied == [(min(done, pages), pages) for done in range(20, pages + 20, 20)]


def test_a_restore_that_is_broken_off_leaves_all_as_it_was(sample: Path, copy: Path) -> None:
    steps = cancelled_at_each_step(
        unchanged(sample.parent, lambda progress: restore(copy, sample, progress))
    )
    assert steps[:3] == ["copying", "the file", "people"]
    with Record.open(sample) as record:
        assert record.head_seq() == 4


def test_a_restore_to_where_nothing_is_leaves_nothing(copy: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.crewtrack"
    cancelled_at_each_step(unchanged(tmp_path, lambda progress: restore(copy, new, progress)))
    assert new.is_file()


def test_a_check_that_is_broken_off_changes_nothing(sample: Path) -> None:
    def work(progress: Progress) -> None:
        with Record.open(sample) as record:
            assert verify(record, progress) == ()

    cancelled_at_each_step(unchanged(sample.parent, work))


def test_a_record_can_be_used_after_a_check_was_broken_off(record: Record) -> None:
    with pytest.raises(Cancelled):
        verify(record, Watcher(0))
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [("K-30", "Ö", None, None, None, None, ())])
    assert verify(record) == ()


def test_a_copy_is_of_one_state_though_somebody_writes_between_its_steps(
    record: Record, tmp_path: Path
) -> None:
    wrote: list[int] = []

    def write(what: str, done: int, total: int) -> None:
        if what == "copying":
            with record.act("import", "officer", at(5)) as act:
                act.add(facts.PEOPLE, [(f"P-{done}", "x", None, None, None, None, ())])
            wrote.append(done)

    backup(record, tmp_path / "copy.crewtrack", write)
    assert (len(set(wrote)), record.head_seq()) == (len(wrote), 4 + len(wrote))
    with Record.open(tmp_path / "copy.crewtrack") as copied:
        assert copied.head_seq() == 4
