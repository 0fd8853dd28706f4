"""Schema revisions: today's tables are what the scripts make, and older records are brought up
to date behind a checked copy."""

import json
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import CheckConstraint, Column, MetaData, Table, Text

from crewtrack import facts
from crewtrack.errors import RecordUnusable
from crewtrack.records import migrating
from crewtrack.records.connecting import engine_for
from crewtrack.records.journal import signed_line
from crewtrack.records.migrating import REVISIONS, script_folder, settings
from crewtrack.records.signatures import SigningKey, is_signature
from crewtrack.records.store import Record, create
from crewtrack.records.tables import ACTS, metadata
from crewtrack.records.verifying import verify
from tests.migrations.saved_records import FOLDER
from tests.records.samples import SORTIES, STRUCK, at, strike_some

FURTHER = '''
"""A column more, for the test."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    op.add_column("vessels", sa.Column("colour", sa.Text))
    {more}
'''


def differences(path: Path, tables: MetaData | None = None) -> list[Any]:
    """What autogenerate would change in a record to make it today's tables."""
    options = {
        "autogenerate_plugins": ["alembic.autogenerate.*", "alembic.ext.checkconstraint_byname"],
        "compare_type": True,
        "compare_server_default": True,
    }
    with engine_for(path, 1).connect() as connection:
        context = MigrationContext.configure(connection, opts=options)
        return list(compare_metadata(context, tables or metadata()))


@pytest.fixture
def empty(tmp_path: Path) -> Path:
    """A record that has just been made."""
    path = tmp_path / "record.crewtrack"
    create(path)
    return path


def test_the_scripts_make_todays_tables(empty: Path) -> None:
    assert differences(empty) == []


def changed_tables() -> tuple[MetaData, Table]:
    """A copy of one of today's tables, to be changed."""
    today = metadata()
    changed = MetaData(naming_convention=today.naming_convention)
    return changed, today.tables[ACTS].to_metadata(changed)


def test_a_check_that_the_scripts_do_not_make_would_be_noticed(empty: Path) -> None:
    tables, table = changed_tables()
    table.append_constraint(CheckConstraint("seq > 0", name="extra"))
    assert "ck_acts_extra" in str(differences(empty, tables))


def test_a_column_that_the_scripts_do_not_make_would_be_noticed(empty: Path) -> None:
    tables, table = changed_tables()
    table.append_column(Column("more", Text))
    assert "more" in str(differences(empty, tables))


def test_the_revisions_named_in_the_program_are_those_of_the_scripts() -> None:
    scripts = ScriptDirectory.from_config(settings())
    in_order = [script.revision for script in scripts.walk_revisions()][::-1]
    assert tuple(in_order) == REVISIONS
    assert scripts.get_heads() == [migrating.newest()]


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_saved_record_of_every_revision_opens_verifies_and_takes_an_act(
    revision: str, tmp_path: Path
) -> None:
    path = Path(shutil.copy(FOLDER / f"{revision}.crewtrack", tmp_path / "record.crewtrack"))
    path.chmod(0o644)
    with Record.open(path) as record:
        assert verify(record) == ()
        with record.reading() as reading:
            assert list(reading.rows(facts.SORTIES, 2)) == SORTIES
        with record.act("import", "officer", at(5)) as act:
            act.add(facts.PEOPLE, [("K-30", "x", None, None, None, None, ())])
        assert verify(record) == ()


def test_the_saved_records_digest_is_what_it_was(tmp_path: Path) -> None:
    # As written when the first revision was released: the canonical form must never change.
    path = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "record.crewtrack"))
    with Record.open(path) as record, record.reading() as reading:
        assert (
            reading.head(at(4)).digest
            == "961c56cbf591ea808b42f220bd39ca853b8f0d9b10c5fed8cbc6f5baf4f5e4f8"
        )


def test_the_digest_of_the_saved_record_with_struck_facts_is_what_it_was(tmp_path: Path) -> None:
    path = Path(shutil.copy(FOLDER / "0002.crewtrack", tmp_path / "record.crewtrack"))
    with Record.open(path) as record, record.reading() as reading:
        assert STRUCK not in reading.current(facts.PERFORMANCES)
        assert (
            reading.head(at(6)).digest
            == "03a84f27494be293ad63ae71c52335c6de762f68e2879ae9c1d3cc9a5e86e6b7"
        )


def test_the_digest_and_the_signature_of_the_saved_record_are_what_they_were(
    tmp_path: Path,
) -> None:
    path = Path(shutil.copy(FOLDER / "0003.crewtrack", tmp_path / "record.crewtrack"))
    with Record.open(path) as record, record.reading() as reading:
        *_, last = reading.acts()
    assert last.digest == ("65be70cc5b7a07bf9d5c6d7a4d91a101228276a30723029b86519c963b85bb1f")
    (signature,) = json.loads(last.signatures or "[]")
    line = signed_line(last, json.loads(last.facts)).encode()
    public = SigningKey.of("K-11", bytes(range(32))).public
    assert is_signature(public, line, signature["signature"])


def test_facts_of_a_record_of_the_first_revision_can_be_struck_out(tmp_path: Path) -> None:
    path = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "record.crewtrack"))
    with Record.open(path) as record:
        strike_some(record)
        with record.reading() as reading:
            assert reading.count(facts.PERFORMANCES) == 3
        assert verify(record) == ()


@pytest.fixture
def further(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A script folder with a further revision; the path of its script."""
    folder = tmp_path / "scripts"
    shutil.copytree(script_folder(), folder, ignore=shutil.ignore_patterns("__pycache__"))
    script = folder / "versions" / "0004_further.py"
    script.write_text(FURTHER.format(more=""), encoding="utf-8")
    monkeypatch.setattr(migrating, "script_folder", lambda: folder)
    monkeypatch.setattr(migrating, "REVISIONS", (*REVISIONS, "0004"))
    return script


def columns(path: Path) -> set[str]:
    with closing(sqlite3.connect(path)) as connection:
        return {row[1] for row in connection.execute("PRAGMA table_info(vessels)")}


def test_an_older_record_is_copied_and_brought_up_to_date(sample: Path, further: Path) -> None:
    with Record.open(sample) as record:
        assert verify(record) == ()
    copy = sample.with_name("record.revision-0003.crewtrack")
    assert ("colour" in columns(sample), "colour" in columns(copy)) == (True, False)


def test_the_copy_of_an_older_record_can_be_restored(sample: Path, further: Path) -> None:
    Record.open(sample).close()
    copy = sample.with_name("record.revision-0003.crewtrack")
    with Record.open(copy) as record, record.reading() as reading:
        assert reading.head(at(4)).seq == 4


def test_a_record_that_is_up_to_date_is_not_copied(sample: Path, further: Path) -> None:
    Record.open(sample).close()
    before = set(sample.parent.iterdir())
    Record.open(sample).close()
    assert set(sample.parent.iterdir()) == before


def test_a_migration_that_fails_leaves_the_record_as_it_was(sample: Path, further: Path) -> None:
    further.write_text(FURTHER.format(more="raise ZeroDivisionError"), encoding="utf-8")
    with pytest.raises(ZeroDivisionError):
        Record.open(sample)
    with closing(sqlite3.connect(sample)) as connection:
        version = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    assert (version, "colour" in columns(sample)) == (("0003",), False)


def test_a_migration_that_breaks_a_reference_is_undone(sample: Path, further: Path) -> None:
    more = (
        'op.execute("DROP TRIGGER vessels_no_delete"); '
        'op.execute("DELETE FROM vessels WHERE id = 1")'
    )
    further.write_text(FURTHER.format(more=more), encoding="utf-8")
    with pytest.raises(ValueError, match="references to nothing"):
        Record.open(sample)
    assert "colour" not in columns(sample)


def test_a_copy_that_is_not_sound_keeps_the_record_from_being_migrated(
    sample: Path, further: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def half(source: Path, made: Path, query: str = "") -> None:
        make_empty(made)

    monkeypatch.setattr("crewtrack.records.copying.copy_consistent", half)
    with pytest.raises(RecordUnusable, match="could not be copied soundly"):
        Record.open(sample)
    assert "colour" not in columns(sample)
    assert not sample.with_name("record.revision-0003.crewtrack").exists()


def make_empty(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("VACUUM")


def test_opening_a_record_that_is_up_to_date_does_not_load_alembic(sample: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from crewtrack.records.store import Record; "
        "Record.open(Path(sys.argv[1])).close(); print('alembic' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(sample)],
        cwd=Path(__file__).parents[2], capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert done.stdout.strip() == "False"
