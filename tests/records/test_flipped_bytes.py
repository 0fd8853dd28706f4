"""A byte that a failing disk gave back otherwise than it was written, anywhere in a record or in a
backup: it is found, and a backup named as the cure, or nothing that is recorded reads otherwise."""

import shutil
import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records import in_use
from crewtrack.records.backups import restore
from crewtrack.records.store import Record
from crewtrack.records.verifying import verify
from tests.records.samples import open_sample, strike_some

AT_ONCE = 100
"""Places that one test tries."""

DENSE, AS_MADE, BACKUPS = 12, 8, 3
"""How many such tests there are."""

HEADER = 100
"""Bytes of the file's header, each of which is tried in each bit."""


def everything(path: Path) -> list[Any]:
    """All that SQLite reads in a file: what is defined, and every row of every table."""
    with closing(sqlite3.connect(path)) as connection:
        connection.text_factory = bytes
        read = connection.execute
        tables = read("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
        defined = read("SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY name")
        return [
            [(*of, sql and sql.split()) for *of, sql in defined],  # one blank is as good as another
            *(read(f"SELECT * FROM {name.decode()} NOT INDEXED").fetchall() for (name,) in tables),
        ]


def make_dense(path: Path) -> None:
    """Put a sample record into pages so small that few of its bytes are to spare."""
    with open_sample(path, first=5) as record:
        strike_some(record)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        for pragma in ("journal_mode=DELETE", "page_size=512"):
            connection.execute(f"PRAGMA {pragma}").close()
        connection.execute("VACUUM")
        connection.execute("PRAGMA journal_mode=WAL").close()


@pytest.fixture(scope="session")
def dense(made_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample in small pages; not to be written to."""
    path = tmp_path_factory.mktemp("dense") / "record.crewtrack"
    make_dense(Path(shutil.copy(made_once, path)))
    assert path.stat().st_size < 100 * 1024
    return path


def places(seed: str, size: int) -> Iterator[tuple[int, int]]:
    """Places in a file, and what each is changed by."""
    chance = Random(seed)
    for _ in range(AT_ONCE):
        yield chance.randrange(size), chance.randrange(1, 256)


def flipped(whole: bytes, place: int, by: int) -> bytes:
    """The bytes with one of them changed."""
    return whole[:place] + bytes([whole[place] ^ by]) + whole[place + 1 :]


def found_by(path: Path, read: bool = True) -> str | None:
    """Who finds a change in a record; None where nobody does. ``read``: what nobody finds is read
    in the program's own way too."""
    try:
        with Record.open(path) as record:
            if breaks := verify(record):
                return "verify" if all(one_line(str(one)) for one in breaks) else "wrong sentence"
            if read:
                with record.reading() as reading:  # what verify finds whole can be read
                    reading.evidence(ZoneInfo("UTC"))
                    assert [list(reading.rows(kind)) for kind in facts.KINDS]
    except RecordUnusable as error:
        return "opening" if well_told(error, path, "crewtrack restore") else "wrong sentence"
    return None


def one_line(said: str) -> bool:
    """Whether a text is one line, of letters only that any output takes."""
    return len(said.splitlines()) == 1 and said.encode("utf-8", "replace").decode() == said


def well_told(error: RecordUnusable, path: Path, cure: str) -> bool:
    """One sentence about the file, which can be shown, with these words in its cure."""
    said = str(error)
    return said.startswith(f"{path} ") and one_line(said) and cure in said


def tally(original: Path, copy: Path, changes: Iterator[tuple[int, int]]) -> "Counter[str]":
    """Who finds how many of the changes, each made in a copy of its own; ``nothing`` are those
    that change nothing of what is recorded."""
    whole, recorded, counted = original.read_bytes(), everything(original), Counter[str]()
    for place, by in changes:
        copy.write_bytes(flipped(whole, place, by))
        found = found_by(copy, place % 8 == 0)
        if found is None:
            assert everything(copy) == recorded, (place, by)
        counted[found or "nothing"] += 1
    assert not counted["wrong sentence"]
    return counted


@pytest.mark.parametrize("seed", range(DENSE))
def test_a_flipped_byte_in_a_record_is_found_or_changes_nothing(
    dense: Path, tmp_path: Path, seed: int
) -> None:
    copy = tmp_path / "record.crewtrack"
    counted = tally(dense, copy, places(f"dense {seed}", dense.stat().st_size))
    assert counted["opening"] + counted["verify"] > AT_ONCE // 3


@pytest.mark.parametrize("seed", range(AS_MADE))
def test_a_flipped_byte_in_a_record_as_it_is_made_is_found_or_changes_nothing(
    made_once: Path, tmp_path: Path, seed: int
) -> None:
    copy = tmp_path / "record.crewtrack"
    counted = tally(made_once, copy, places(f"sample {seed}", made_once.stat().st_size))
    assert counted["opening"] + counted["verify"] > 0


def test_a_flipped_bit_in_the_header_of_a_record_is_found_or_changes_nothing(
    dense: Path, tmp_path: Path
) -> None:
    bits = ((place, 1 << Random(place).randrange(8)) for place in range(HEADER))
    counted = tally(dense, tmp_path / "record.crewtrack", bits)
    assert counted["opening"] > 30


def put_back(original: Path, folder: Path, changes: Iterator[tuple[int, int]]) -> "Counter[str]":
    """How many changes, each made in a backup of its own, keep that from being put back;
    ``nothing`` are those that change nothing of what is recorded."""
    whole, recorded, counted = original.read_bytes(), everything(original), Counter[str]()
    backup = folder / "backup.crewtrack"
    target = folder / "put-back.crewtrack"
    for place, by in changes:
        backup.write_bytes(flipped(whole, place, by))
        try:
            restore(backup, target)
        except RecordUnusable as error:
            well = well_told(error, backup, "whole") and not target.exists()
            counted["restore" if well else "wrong sentence"] += 1
        else:
            assert everything(target) == recorded, (place, by)
            counted["nothing"] += 1
            target.unlink()
    assert not counted["wrong sentence"]
    return counted


@pytest.mark.parametrize("seed", range(BACKUPS))
def test_a_flipped_byte_in_a_backup_is_found_when_it_is_put_back_or_changes_nothing(
    dense: Path, tmp_path: Path, seed: int
) -> None:
    counted = put_back(dense, tmp_path, places(f"backup {seed}", dense.stat().st_size))
    assert counted["restore"] > AT_ONCE // 3


def test_rows_that_do_not_stand_in_their_order_are_told_and_not_read_for_ever(sample: Path) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        root = "SELECT rootpage FROM sqlite_schema WHERE name = 'people'"
        ((page,),) = connection.execute(root).fetchall()
    whole, start = bytearray(sample.read_bytes()), (page - 1) * 4096
    cells = int.from_bytes(whole[start + 3 : start + 5], "big")
    last = start + 8 + 2 * (cells - 1)
    place = start + int.from_bytes(whole[last : last + 2], "big")
    while whole[place] & 0x80:  # how long the row is, in as many bytes as that takes
        place += 1
    assert whole[place + 1] == cells  # the row's id
    whole[place + 1] = 1
    sample.write_bytes(whole)
    with Record.open(sample) as record:
        problems = [found.problem for found in verify(record)]
    assert "its rows do not stand in their order" in problems


def test_a_file_that_was_refused_for_damage_is_let_go(sample: Path) -> None:
    whole = sample.read_bytes()
    sample.write_bytes(whole.replace(b"CREATE TABLE acts", b"CREATE \xff\xfeBLE acts"))
    with pytest.raises(RecordUnusable, match="is damaged"):
        Record.open(sample)
    with in_use.looking(sample) as free:
        assert free
