"""What a loss of power, or a hand in the folder, leaves of a record's files: it opens with every
act that was committed, or is refused in a sentence with the cure, and then nothing is changed."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records import pairing, store
from crewtrack.records.backups import backup, restore
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import at, make_sample, open_sample

ENDS = ("", "-wal", "-shm")
ACTS = 4
LATER = 6
"""Acts that the log holds, each with a person more."""
PAGE = 4096
FRAME = PAGE + 24


def add_person(record: Record, key: str) -> None:
    with record.act("import", "officer", at(5)) as act:
        act.add(facts.PEOPLE, [(key, "Somebody", None, None, None, None, ())])


def files(path: Path) -> dict[str, bytes]:
    """What lies in a record's folder, but for what SQLite keeps in memory for all its users."""
    return {
        one.name: one.read_bytes() for one in path.parent.iterdir() if not one.name.endswith("-shm")
    }


def beside(path: Path, end: str) -> Path:
    return path.with_name(path.name + end)


@pytest.fixture
def used(sample: Path, tmp_path: Path) -> Path:
    """A record as it is on disk in the midst of use: the last acts stand in its log alone."""
    return left_by(sample, tmp_path / "used", "P")


def left_by(sample: Path, folder: Path, key: str) -> Path:
    """The files of a record, copied when the acts of somebody who has it open were committed."""
    folder.mkdir()
    with open_sample(sample, ACTS + 1) as record:
        record.head_seq()  # stays open, so that the log is not folded in
        for number in range(LATER):
            add_person(record, f"{key}-{number}")
        for end in ENDS:
            shutil.copyfile(beside(sample, end), beside(folder / sample.name, end))
    return folder / sample.name


def acts_in(path: Path) -> int:
    """How many acts a record holds, which is whole."""
    with Record.open(path) as record:
        assert verify(record) == ()
        with record.reading() as reading:
            return reading.head().seq


def why_not(path: Path) -> str:
    """What is said of a record that is refused, and left as it was."""
    before = files(path)
    with pytest.raises(RecordUnusable) as refused:
        Record.open(path, busy_seconds=0)
    assert files(path) == before
    sentence = str(refused.value)
    assert sentence.startswith(f"{path} ")
    assert "\n" not in sentence
    assert "crewtrack restore" in sentence
    return sentence.removeprefix(f"{path} ")


OF_ANOTHER = "has a log beside it that is not its own"


@pytest.mark.parametrize("shm", ["there", "missing", "empty", "of another"])
def test_acts_in_the_log_are_there_whatever_became_of_the_shared_memory(
    used: Path, shm: str
) -> None:
    match shm:
        case "missing":
            beside(used, "-shm").unlink()
        case "empty":
            beside(used, "-shm").write_bytes(b"")
        case "of another":
            beside(used, "-shm").write_bytes(bytes(range(256)) * 128)
    assert acts_in(used) == ACTS + LATER
    assert not beside(used, "-wal").exists()


def test_a_log_that_is_torn_anywhere_gives_the_acts_that_were_whole_in_it(
    used: Path, tmp_path: Path
) -> None:
    whole, log = used.read_bytes(), beside(used, "-wal").read_bytes()
    ends = [
        end for end in range(32 + FRAME, len(log) + 1, FRAME) if log[end - FRAME :][4:8] != bytes(4)
    ]
    assert len(ends) == LATER
    cuts = {
        0,
        1,
        31,
        32,
        33,
        *range(32, len(log) + 1, FRAME // 3),
        *ends,
        *(end - 1 for end in ends),
    }
    torn = tmp_path / "torn" / used.name
    torn.parent.mkdir()
    for cut in sorted(cuts):
        torn.write_bytes(whole)
        beside(torn, "-wal").write_bytes(log[:cut])
        assert acts_in(torn) == ACTS + sum(end <= cut for end in ends), cut


def test_a_log_whose_last_frame_is_half_another_gives_the_acts_before_it(used: Path) -> None:
    log = bytearray(beside(used, "-wal").read_bytes())
    log[-PAGE // 2 :] = bytes(PAGE // 2)
    beside(used, "-wal").write_bytes(log)
    assert acts_in(used) == ACTS + LATER - 1


def test_a_file_that_had_half_of_the_log_folded_into_it_is_whole_again(
    used: Path, tmp_path: Path
) -> None:
    log = beside(used, "-wal").read_bytes()
    frames = [log[start : start + FRAME] for start in range(32, len(log), FRAME)]
    last = {int.from_bytes(frame[:4], "big"): frame[24:] for frame in frames}
    folded = bytearray(used.read_bytes())
    copy = tmp_path / "half" / used.name
    copy.parent.mkdir()
    for number, page in sorted(last.items()):
        folded[(number - 1) * PAGE : number * PAGE] = page
        copy.write_bytes(folded)
        beside(copy, "-wal").write_bytes(log)
        assert acts_in(copy) == ACTS + LATER, number


def linked(path: Path) -> Path:
    """A link that leads to a record from another folder."""
    link = path.parent.parent / "linked" / path.name
    link.parent.mkdir()
    try:
        link.symlink_to(path)
    except OSError:
        pytest.skip("no links here")
    return link


def test_acts_in_the_log_are_there_by_way_of_a_link_too(used: Path) -> None:
    assert acts_in(linked(used)) == ACTS + LATER


def test_a_journal_of_another_record_is_refused_by_way_of_a_link_too(
    used: Path, sample: Path
) -> None:
    for end in ("-wal", "-shm"):
        beside(used, end).unlink()
    with Record.open(used) as record:
        for number in range(300):
            add_person(record, f"A-{number}")
    beside(used, "-journal").write_bytes(changed_without_end(sample))
    before = files(used)
    assert why_not(linked(used)).startswith(OF_ANOTHER)
    assert files(used) == before


def test_a_log_of_another_record_is_refused(used: Path, tmp_path: Path) -> None:
    other = tmp_path / "other" / used.name
    other.parent.mkdir()
    make_sample(other)
    with Record.open(other) as record:
        add_person(record, "A-1")
    beside(used, "-wal").replace(beside(other, "-wal"))
    told = why_not(other)
    assert told.startswith(OF_ANOTHER)
    assert f"{other.name}-wal" in told
    beside(other, "-wal").unlink()
    assert acts_in(other) == ACTS + 1


def test_a_log_of_another_record_that_holds_all_of_it_is_refused(
    tmp_path: Path, sample: Path
) -> None:
    whole = tmp_path / "whole" / sample.name
    whole.parent.mkdir()
    with closing(sqlite3.connect(whole, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode=WAL").close()
        with closing(sqlite3.connect(sample)) as source:
            source.backup(connection)
        shutil.copyfile(beside(whole, "-wal"), tmp_path / "log")
    shutil.copyfile(tmp_path / "log", beside(sample, "-wal"))
    other = tmp_path / "other" / sample.name
    other.parent.mkdir()
    store.create(other)
    with open_sample(other, first=100) as record:
        add_person(record, "A-1")
    shutil.copyfile(tmp_path / "log", beside(other, "-wal"))
    assert why_not(other).startswith(OF_ANOTHER)


def from_before(sample: Path, tmp_path: Path, kind: facts.Kind, row: facts.Row) -> Path:
    """A record over which somebody copied a backup by hand: its log stays, and one act was
    folded into the record between the two."""
    kept = tmp_path / "backup"
    with Record.open(sample) as record:
        backup(record, kept)
        with record.act("import", "officer", at(5)) as act:
            act.add(kind, [row])
    used = left_by(sample, tmp_path / "used", "P")
    shutil.copyfile(kept, used)
    return used


def test_a_log_beside_a_copy_from_before_it_is_refused(sample: Path, tmp_path: Path) -> None:
    used = from_before(sample, tmp_path, facts.VESSELS, ("V-9", "Rowan", None, None))
    assert why_not(used).startswith(OF_ANOTHER)


def test_a_log_beside_a_copy_from_before_it_that_holds_all_since_is_as_good_as_its_own(
    sample: Path, tmp_path: Path
) -> None:
    person: facts.Row = ("B-1", "Somebody", None, None, None, None, ())
    used = from_before(sample, tmp_path, facts.PEOPLE, person)
    assert acts_in(used) == ACTS + 1 + LATER


def test_a_log_beside_a_copy_from_after_it_is_refused(used: Path, sample: Path) -> None:
    with Record.open(sample) as record:
        add_person(record, "B-1")
    shutil.copyfile(sample, used)
    assert why_not(used).startswith(OF_ANOTHER)


def test_a_log_beside_the_copy_that_it_follows_is_its_own(used: Path, made_once: Path) -> None:
    shutil.copyfile(made_once, used)
    assert acts_in(used) == ACTS + LATER


def test_a_backup_is_put_in_the_place_of_a_record_with_the_log_of_another(
    used: Path, sample: Path, tmp_path: Path
) -> None:
    kept = tmp_path / "backup"
    with Record.open(sample) as record:
        backup(record, kept)
        add_person(record, "B-1")
    shutil.copyfile(sample, used)
    before = used.read_bytes(), beside(used, "-wal").read_bytes()
    aside = restore(kept, used)
    assert aside is not None
    assert (aside.read_bytes(), beside(aside, "-wal").read_bytes()) == before
    assert acts_in(used) == ACTS + LATER


def whole_with_log(path: Path) -> bool:
    """Whether SQLite's own check finds the file whole, played together with its log, in a copy."""
    copy = path.with_name("copy")
    for end in ("", "-wal"):
        shutil.copyfile(beside(path, end), beside(copy, end))
    try:
        with closing(sqlite3.connect(copy)) as connection:
            whole = connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            acts = connection.execute("SELECT count(*) FROM acts").fetchall()
    except sqlite3.DatabaseError:
        return False
    finally:
        for end in ("", "-wal", "-shm"):
            beside(copy, end).unlink(missing_ok=True)
    return whole and acts == [(ACTS + LATER,)]


@pytest.mark.parametrize("log", [True, False])
def test_a_file_that_was_copied_half_is_refused(used: Path, tmp_path: Path, log: bool) -> None:
    """Unless its log has all that the file lacks: then nothing is lost."""
    whole = used.read_bytes()
    cut_file = tmp_path / "half" / used.name
    cut_file.parent.mkdir()
    for cut in {0, 1, 15, 16, 99, 100, *range(512, len(whole), 9 * 1024), len(whole) - 1}:
        for one in cut_file.parent.iterdir():
            one.unlink()
        cut_file.write_bytes(whole[:cut])
        if log:
            shutil.copyfile(beside(used, "-wal"), beside(cut_file, "-wal"))
        if log and cut and whole_with_log(cut_file):
            continue
        assert why_not(cut_file).startswith(("is cut short", "is empty", "is damaged")), cut


def test_a_file_that_is_longer_than_it_says_is_its_own_first_part(used: Path) -> None:
    with used.open("ab") as file:
        file.write(b"x" * 5000)
    assert acts_in(used) == ACTS + LATER


def changed_without_end(path: Path) -> bytes:
    """The journal that lies beside a record while a change is made that is never committed; the
    change stands in the file already."""
    copy = path.with_name("copy")
    shutil.copyfile(path, copy)
    with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
        for pragma in ("journal_mode=DELETE", "cache_size=1", "cache_spill=1"):
            connection.execute(f"PRAGMA {pragma}").close()
        shutil.copyfile(copy, path)
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("DROP TRIGGER people_no_update")
        connection.execute("UPDATE people SET name = hex(zeroblob(20000))")
        shutil.copyfile(copy, path)
        journal = beside(copy, "-journal").read_bytes()
        connection.execute("ROLLBACK")
    copy.unlink()
    return journal


def test_what_was_never_committed_is_undone_from_the_journal(sample: Path) -> None:
    before = sample.stat().st_size
    journal = changed_without_end(sample)
    assert sample.stat().st_size > before
    beside(sample, "-journal").write_bytes(journal)
    assert acts_in(sample) == ACTS
    assert not beside(sample, "-journal").exists()


def test_a_journal_of_another_record_is_refused(sample: Path, tmp_path: Path) -> None:
    other = tmp_path / "other" / sample.name
    other.parent.mkdir()
    make_sample(other)
    with Record.open(other) as record:
        for number in range(300):
            add_person(record, f"A-{number}")
    beside(other, "-journal").write_bytes(changed_without_end(sample))
    told = why_not(other)
    assert told.startswith(OF_ANOTHER)
    assert f"{other.name}-journal" in told


@pytest.mark.parametrize("journal", [b"", bytes(4096)])
def test_a_journal_that_was_done_with_is_nothing(sample: Path, journal: bytes) -> None:
    beside(sample, "-journal").write_bytes(journal)
    assert acts_in(sample) == ACTS


def test_a_log_that_is_folded_in_while_it_is_looked_at_is_no_trouble(
    used: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(path: Path) -> int:
        raise FileNotFoundError(2, "No such file", str(beside(path, "-wal")))

    monkeypatch.setattr(pairing, "_commits", gone)
    assert pairing.not_paired(used) is None
