"""Files that can't be used as a record: one sentence each, which says what to do."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.records import opening
from crewtrack.records.migrating import REVISIONS
from crewtrack.records.store import Record, create


def why(path: Path) -> str:
    """What is said of a file that can't be opened, less its name."""
    with pytest.raises(RecordUnusable) as refused:
        Record.open(path, busy_seconds=0)
    sentence = str(refused.value)
    assert sentence.startswith(f"{path} ")
    assert "\n" not in sentence
    return sentence.removeprefix(f"{path} ")


def test_a_record_that_is_missing_is_made_with_init(tmp_path: Path) -> None:
    assert why(tmp_path / "none.crewtrack") == (
        "does not exist; make a record with 'crewtrack init --standard FILE', or name another "
        "with --db"
    )
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_no_record(tmp_path: Path) -> None:
    assert why(tmp_path) == "is not a file; name a record's file with --db"


def test_a_path_through_a_file_is_told(sample: Path) -> None:
    assert "can't be looked at" in why(sample / "record.crewtrack")


def test_an_empty_file_is_no_record(tmp_path: Path) -> None:
    path = tmp_path / "empty.crewtrack"
    path.touch()
    assert why(path).startswith("is empty; put a backup back with 'crewtrack restore FILE'")
    assert path.stat().st_size == 0


@pytest.mark.parametrize(
    "content", [b"person,name\r\n", b"\x00" * 5000, b"SQLite format 4\x00" * 9]
)
def test_a_file_that_is_no_database_is_told(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "people.csv"
    path.write_bytes(content)
    assert why(path) == "is not a crewtrack record; name another with --db"
    assert path.read_bytes() == content


def test_another_programs_database_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE acts (seq INTEGER)")
        connection.execute("PRAGMA application_id=252006674")
    before = path.read_bytes()
    assert why(path) == "is another program's database; name a crewtrack record with --db"
    assert path.read_bytes() == before


@pytest.mark.parametrize("kept", [5, 50, 4096, 40_000])
def test_a_file_that_is_cut_short_is_told(sample: Path, kept: int) -> None:
    sample.write_bytes(sample.read_bytes()[:kept])
    assert why(sample) == "is cut short; put the last backup back with 'crewtrack restore FILE'"


def damage_schema(whole: bytearray) -> None:
    whole[100:4096] = b"\xff" * 3996


def damage_versions(whole: bytearray) -> None:
    place = whole.index(REVISIONS[-1].encode(), 4096)
    whole[place : place + 4] = b"    "


@pytest.mark.parametrize("damage", [damage_schema, damage_versions])
def test_a_file_that_is_damaged_is_told(sample: Path, damage: Callable[[bytearray], None]) -> None:
    whole = bytearray(sample.read_bytes())
    damage(whole)
    sample.write_bytes(whole)
    assert why(sample) == "is damaged; put the last backup back with 'crewtrack restore FILE'"


@pytest.mark.parametrize("table", ["acts", "alembic_version"])
def test_a_record_without_one_of_its_tables_is_damaged(sample: Path, table: str) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        connection.execute(f"DROP TABLE {table}")
    assert why(sample).startswith("is damaged")


def test_damage_that_shows_only_in_reading_is_told_then(record: Record, sample: Path) -> None:
    with closing(sqlite3.connect(sample)) as connection:
        (page,) = connection.execute(
            "SELECT rootpage FROM sqlite_schema WHERE name = 'acts'"
        ).fetchone()
    whole = bytearray(sample.read_bytes())
    whole[(page - 1) * 4096 : page * 4096] = bytes(4096)
    sample.write_bytes(whole)
    with pytest.raises(RecordUnusable, match="is damaged; put the last"), record.reading() as read:
        list(read.acts())


def test_a_record_of_a_newer_program_is_left_alone(sample: Path) -> None:
    with closing(sqlite3.connect(sample)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    assert why(sample) == (
        "was written by a newer crewtrack; bring this program up to date to open it"
    )


def test_a_record_that_is_read_only_is_told_even_to_an_administrator(sample: Path) -> None:
    sample.chmod(0o444)
    assert why(sample) == (
        "is read-only; allow writing to the file, or name another record with --db"
    )


def test_a_record_that_another_program_holds_is_told(sample: Path) -> None:
    with closing(sqlite3.connect(sample, isolation_level=None)) as connection:
        connection.execute("PRAGMA locking_mode=EXCLUSIVE")
        connection.execute("BEGIN EXCLUSIVE")
        assert why(sample) == "is in use by another program; try again when that is done"


def test_a_record_of_a_strange_name_is_made_and_opened(tmp_path: Path) -> None:
    path = tmp_path / "a folder" / "re?c%20ö#rd.crewtrack"
    create(path)
    with Record.open(path) as record, record.reading() as reading:
        assert reading.head().seq == 0
    assert [entry.name for entry in path.parent.iterdir()] == [path.name]


def test_a_record_is_never_made_over_a_file(sample: Path) -> None:
    before = sample.read_bytes()
    with pytest.raises(Refused, match="there is a file of this name already"):
        create(sample)
    assert sample.read_bytes() == before


def test_a_record_that_cannot_be_made_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("crewtrack.records.migrating.make_tables", fails)
    with pytest.raises(ZeroDivisionError):
        create(tmp_path / "record.crewtrack")
    assert list(tmp_path.iterdir()) == []


def test_a_record_in_a_folder_that_is_a_file_is_told(sample: Path) -> None:
    with pytest.raises(RecordUnusable, match="can't be made"):
        create(sample / "record.crewtrack")


def test_a_file_that_grows_while_it_is_looked_at_is_not_cut_short(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, real = sample.read_bytes(), opening._header

    def header_then_grown(path: Path) -> bytes:
        header = real(path)
        path.write_bytes(whole)
        return header

    sample.write_bytes(whole[: len(whole) // 2])
    monkeypatch.setattr(opening, "_header", header_then_grown)
    assert opening.no_record(sample) is None
