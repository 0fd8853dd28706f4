"""Automatic backups: when one is taken, what goes, and which is the best to put back."""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from crewtrack.errors import NotBackedUp, RecordUnusable, Refused
from crewtrack.office import keeping, safekeeping
from crewtrack.office.importing import ImportOrder, import_evidence
from crewtrack.office.office import Office
from tests.behind_its_back import change
from tests.migrations.saved_records import FOLDER
from tests.office.unit_at_work import EVIDENCE, FIRST_ACT, STANDARD, Clock, Unit, unit_in

pytestmark = pytest.mark.usefixtures("backups_file")


@pytest.fixture
def at_work(made_once: Path, tmp_path: Path) -> Iterator[Unit]:
    """A unit with a standard and no evidence, an hour after its first act."""
    with unit_in(tmp_path, made_once) as made:
        made.clock.at = FIRST_ACT + timedelta(hours=1)
        yield made


def folder(unit: Unit) -> Path:
    return unit.folder / "record-backups"


def names(unit: Unit) -> list[str]:
    """The files in the folder of backups."""
    return sorted(path.name for path in folder(unit).iterdir()) if folder(unit).exists() else []


def person(number: int) -> dict[str, str]:
    return {"people": f"person,name\nN-{number},New {number}\n"}


def closed_daily(unit: Unit, days: int, first: int = 1) -> None:
    """Something is recorded and the window closed, once a day."""
    for number in range(first, first + days):
        unit.clock.at += timedelta(days=1)
        import_evidence(unit.office, unit.files(person(number)), ImportOrder("Ana", backup=False))
        assert safekeeping.on_closing(unit.office) is not None


def damage(path: Path) -> None:
    """Change a name behind the journal's back."""
    change(path, "UPDATE people SET name = 'Ann'")


def test_an_import_is_preceded_by_a_backup_of_what_was(at_work: Unit) -> None:
    before = at_work.head()
    at_work.take(EVIDENCE)
    assert names(at_work) == ["record.2026-06-01T130000Z.before-import.crewtrack"]
    with Office.open(folder(at_work) / names(at_work)[0], at_work.clock) as office:
        assert keeping.verify(office) == ()
        with office.view() as view:
            assert view.head.digest == before


def test_an_adoption_is_preceded_by_a_backup(at_work: Unit) -> None:
    at_work.adopt(STANDARD.replace('"2026-1"', '"2026-2"').replace("2026-01-01", "2026-09-01"))
    assert names(at_work) == ["record.2026-06-01T130000Z.before-adoption.crewtrack"]


@pytest.mark.parametrize("dry_run", [True, False])
def test_none_is_taken_where_nothing_is_written(at_work: Unit, dry_run: bool) -> None:
    wrong = "person,name,born\nK-01,Ana,2026-13-01\n"
    if dry_run:
        at_work.take(EVIDENCE, dry_run=True)
    else:
        with pytest.raises(Refused):
            at_work.take(people=wrong)
    assert names(at_work) == []


def test_none_is_taken_where_nothing_changed_since_the_last(at_work: Unit) -> None:
    assert safekeeping.on_closing(at_work.office) is not None
    at_work.clock.at += timedelta(days=1)
    assert safekeeping.on_closing(at_work.office) is None
    at_work.take(EVIDENCE)
    assert len(names(at_work)) == 1


def test_a_backup_by_hand_is_taken_all_the_same(at_work: Unit) -> None:
    first, second = (safekeeping.keep_now(at_work.office) for _ in range(2))
    assert first.path.name == "record.2026-06-01T130000Z.by-hand.crewtrack"
    assert second.path.name == "record.2026-06-01T130000Z.by-hand-2.crewtrack"


def test_after_a_restore_the_state_that_was_put_back_is_backed_up_anew(at_work: Unit) -> None:
    closed_daily(at_work, 2)
    _, oldest = safekeeping.listed(at_work.office.record.path)
    at_work.office.close()
    keeping.restore(at_work.office.record.path, oldest.path)
    at_work.clock.at += timedelta(days=1)
    taken = safekeeping.on_closing(at_work.office)
    assert taken is not None
    assert safekeeping.listed(at_work.office.record.path)[0].head == oldest.head


def test_a_backup_that_a_clock_ahead_dated_is_not_taken_for_the_last(at_work: Unit) -> None:
    at_work.clock.at += timedelta(days=400)
    safekeeping.on_closing(at_work.office)
    at_work.clock.at -= timedelta(days=400)
    at_work.take(person(1))
    assert safekeeping.on_closing(at_work.office) is not None
    assert safekeeping.on_closing(at_work.office) is None


def test_older_ones_go_by_day_week_and_month(at_work: Unit, backups_file: Path) -> None:
    backups_file.write_text("days = 2\nweeks = 2\nmonths = 2\n", encoding="utf-8")
    closed_daily(at_work, 40)  # from Tuesday 2 June to Saturday 11 July
    assert [name[7:17] for name in names(at_work)] == [
        "2026-06-30", "2026-07-05", "2026-07-10", "2026-07-11",
    ]  # fmt: skip


def test_what_it_did_not_make_for_this_record_is_left_alone(
    at_work: Unit, backups_file: Path
) -> None:
    backups_file.write_text("days = 1\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    others = ["notes.txt", "record.before-restore.crewtrack",
              "record.2026-01-01T000000Z.on-closing.crewtrack",
              "record.2026-02-30T000000Z.on-closing.crewtrack",
              "record.2026-01-01T000000Z.sometime.crewtrack",
              "other.2026-01-01T000000Z.on-closing.crewtrack"]  # fmt: skip
    folder(at_work).mkdir()
    for name in others:
        shutil.copy(FOLDER / "0002.crewtrack", folder(at_work) / name)
    (folder(at_work) / "record.2026-01-02T000000Z.on-closing.crewtrack").write_text("no record")
    (folder(at_work) / "record.2026-01-03T000000Z.on-closing.crewtrack").mkdir()
    before = names(at_work)
    closed_daily(at_work, 3)
    assert set(before) <= set(names(at_work))
    assert len(names(at_work)) == len(before) + 1


def test_a_link_to_a_backup_is_left_alone(at_work: Unit, backups_file: Path) -> None:
    backups_file.write_text("days = 1\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    closed_daily(at_work, 1)
    link = folder(at_work) / "record.2026-01-01T000000Z.on-closing.crewtrack"
    try:
        link.symlink_to(folder(at_work) / names(at_work)[0])
    except OSError:
        pytest.skip("no links here")
    closed_daily(at_work, 1, first=2)
    assert link.is_symlink()


def test_one_that_can_t_be_removed_is_told(
    at_work: Unit, backups_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    backups_file.write_text("days = 1\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    closed_daily(at_work, 1)
    (first,) = folder(at_work).iterdir()

    def refuse(path: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    at_work.take(person(9))
    at_work.clock.at += timedelta(days=1)
    monkeypatch.setattr(Path, "unlink", refuse)
    taken = safekeeping.keep_now(at_work.office)
    monkeypatch.undo()
    assert first.exists()
    assert taken.removed == ()
    assert taken.stuck == ()  # the newest on closing stays anyway
    at_work.clock.at += timedelta(days=1)
    monkeypatch.setattr(Path, "unlink", refuse)
    assert safekeeping.keep_now(at_work.office).stuck == (taken.path,)


def test_the_folder_of_the_settings_may_hold_those_of_several_records(
    at_work: Unit, backups_file: Path, tmp_path: Path
) -> None:
    backups_file.write_text(f"folder = '{tmp_path / 'all'}'\ndays = 1\nweeks = 0\nmonths = 0\n")
    (tmp_path / "other").mkdir()
    other = Path(shutil.copy(FOLDER / "0002.crewtrack", tmp_path / "other" / "record.crewtrack"))
    with Office.open(at_work.office.record.path, at_work.clock) as office:
        ours = safekeeping.keep_now(office).path
    shutil.copy(other, tmp_path / "all" / "record.2026-05-01T000000Z.by-hand.crewtrack")
    assert safekeeping.safe_kept(at_work.office).count == 1
    assert safekeeping.best_backup(at_work.office.record.path) == ours
    assert safekeeping.listed(other)[0].instant == datetime(2026, 5, 1, tzinfo=UTC)


def test_switched_off_none_is_taken_by_itself_and_none_goes(
    at_work: Unit, backups_file: Path
) -> None:
    closed_daily(at_work, 9)
    backups_file.write_text("days = 0\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    before = names(at_work)
    at_work.take(EVIDENCE)
    assert safekeeping.on_closing(at_work.office) is None
    assert names(at_work) == before
    assert safekeeping.keep_now(at_work.office).removed == ()
    assert safekeeping.safe_kept(at_work.office).off


def test_without_a_backup_nothing_is_imported_unless_somebody_says_so(at_work: Unit) -> None:
    folder(at_work).write_text("a file is in its place")
    before = at_work.head()
    with pytest.raises(NotBackedUp, match=r"nothing was done, .*--no-backup"):
        at_work.take(EVIDENCE)
    assert at_work.head() == before
    order = ImportOrder("Ana", backup=False)
    assert import_evidence(at_work.office, at_work.files(EVIDENCE), order).changed


def test_without_a_backup_nothing_is_adopted_unless_somebody_says_so(at_work: Unit) -> None:
    folder(at_work).write_text("a file is in its place")
    later = STANDARD.replace('"2026-1"', '"2026-2"').replace("2026-01-01", "2026-09-01")
    before = at_work.head()
    with pytest.raises(NotBackedUp):
        at_work.adopt(later)
    assert at_work.head() == before
    done = keeping.adopt(at_work.office, at_work.standard(later), "Ana", backup=False)
    assert done.digest == at_work.head()


def test_faults_of_the_settings_are_told_in_place(at_work: Unit, backups_file: Path) -> None:
    backups_file.write_text("days = -1\n", encoding="utf-8")
    with pytest.raises(NotBackedUp) as refusal:
        at_work.take(EVIDENCE)
    assert f"{backups_file}: days: -1 is less than 0; write a whole" in str(refusal.value)


def test_a_backup_that_is_not_whole_gets_no_name(at_work: Unit) -> None:
    at_work.take(EVIDENCE)
    before = names(at_work)
    damage(at_work.office.record.path)
    with pytest.raises(RecordUnusable, match="not as it was recorded"):
        safekeeping.on_closing(at_work.office)
    assert names(at_work) == before


def test_what_its_progress_raises_breaks_it_off_without_a_trace(at_work: Unit) -> None:
    class Enough(Exception):
        pass

    def stop(what: str, done: int, total: int) -> None:
        raise Enough

    with pytest.raises(Enough):
        safekeeping.on_closing(at_work.office, stop)
    assert names(at_work) == []


def test_a_record_of_an_older_program_is_copied_among_its_backups(tmp_path: Path) -> None:
    record = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "unit.crewtrack"))
    record.chmod(0o644)
    whole = record.read_bytes()
    with Office.open(record, Clock()) as office:
        assert keeping.verify(office) == ()
    (copy,) = safekeeping.listed(record)
    assert copy.path.name == "unit.2026-06-01T120000Z.before-migration.crewtrack"
    assert copy.path.parent == tmp_path / "unit-backups"
    with closing(sqlite3.connect(f"{copy.path.as_uri()}?mode=ro", uri=True)) as database:
        assert database.execute("SELECT version_num FROM alembic_version").fetchone() == ("0001",)
    assert whole != record.read_bytes()


def test_a_record_of_an_older_program_is_copied_though_backups_are_off(
    tmp_path: Path, backups_file: Path
) -> None:
    backups_file.write_text("days = 0\nweeks = 0\nmonths = 0\n", encoding="utf-8")
    record = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "unit.crewtrack"))
    record.chmod(0o644)
    Office.open(record, Clock()).close()
    assert len(safekeeping.listed(record)) == 1


def test_without_room_for_its_copy_an_older_record_stays_as_it_is(tmp_path: Path) -> None:
    record = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "unit.crewtrack"))
    record.chmod(0o644)
    (tmp_path / "unit-backups").write_text("a file is in its place")
    with pytest.raises(RecordUnusable, match="can't be made"):
        Office.open(record, Clock())
    with closing(sqlite3.connect(record)) as database:
        assert database.execute("SELECT version_num FROM alembic_version").fetchone() == ("0001",)


def test_how_a_record_is_kept_safe_is_told(at_work: Unit) -> None:
    kept = safekeeping.safe_kept(at_work.office)
    assert (kept.folder, kept.last, kept.count, kept.off) == (folder(at_work), None, 0, False)
    closed_daily(at_work, 3)
    kept = safekeeping.safe_kept(at_work.office)
    assert kept.last is not None
    assert (kept.last.instant, kept.last.occasion) == (at_work.clock.at, "on-closing")
    assert (kept.last.head.digest, kept.count) == (at_work.head(), 3)


def test_the_best_backup_is_the_newest_that_is_whole(at_work: Unit) -> None:
    closed_daily(at_work, 3)
    newest, middle, _ = safekeeping.listed(at_work.office.record.path)
    damage(newest.path)
    before = middle.path.read_bytes()
    assert safekeeping.best_backup(at_work.office.record.path) == middle.path
    assert middle.path.read_bytes() == before
    assert len(names(at_work)) == 3  # nothing was left beside them


@pytest.mark.parametrize("left", [0, 50, 5000])
def test_the_best_backup_of_what_is_no_record_any_more_is_found(at_work: Unit, left: int) -> None:
    closed_daily(at_work, 1)
    path = at_work.office.record.path
    at_work.office.close()
    path.write_bytes(path.read_bytes()[:left])
    assert safekeeping.best_backup(path) == folder(at_work) / names(at_work)[0]
    path.unlink()
    assert safekeeping.best_backup(path) == folder(at_work) / names(at_work)[0]


def test_of_backups_of_two_records_none_is_guessed_to_be_the_best(at_work: Unit) -> None:
    closed_daily(at_work, 1)
    other = folder(at_work) / "record.2026-05-01T000000Z.by-hand.crewtrack"
    shutil.copy(FOLDER / "0002.crewtrack", other)
    path = at_work.office.record.path
    at_work.office.close()
    path.write_bytes(b"")
    assert safekeeping.best_backup(path) is None


def test_a_backup_of_an_older_program_can_be_the_best(tmp_path: Path) -> None:
    record = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "unit.crewtrack"))
    record.chmod(0o644)
    Office.open(record, Clock()).close()
    (copy,) = safekeeping.listed(record)
    record.write_bytes(b"")
    assert safekeeping.best_backup(record) == copy.path


def test_with_faults_in_the_settings_backups_are_sought_where_they_usually_lie(
    at_work: Unit, backups_file: Path
) -> None:
    closed_daily(at_work, 1)
    backups_file.write_text("days = -1\n", encoding="utf-8")
    assert safekeeping.best_backup(at_work.office.record.path) is not None


def test_a_record_without_an_act_is_not_backed_up(tmp_path: Path) -> None:
    from crewtrack.records import store

    store.create(tmp_path / "empty.crewtrack")
    with Office.open(tmp_path / "empty.crewtrack", Clock()) as office:
        assert safekeeping.on_closing(office) is None
        with pytest.raises(RecordUnusable, match="holds nothing yet"):
            safekeeping.keep_now(office)


def test_where_the_folder_can_t_be_read_there_is_no_best_backup(
    at_work: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    closed_daily(at_work, 1)
    path = at_work.office.record.path
    assert safekeeping.newest(path) is not None
    assert safekeeping.best_backup(path) is not None

    def refuse(folder: Path) -> Iterator[Path]:
        raise PermissionError(13, "Permission denied", str(folder))

    monkeypatch.setattr(Path, "iterdir", refuse)
    assert safekeeping.newest(path) is safekeeping.best_backup(path) is None
    with pytest.raises(PermissionError):
        safekeeping.safe_kept(at_work.office)
