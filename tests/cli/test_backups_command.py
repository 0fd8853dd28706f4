"""``backups`` and ``backups keep``, and what other commands say of backups."""

import shutil
from pathlib import Path

import pytest

from tests.behind_its_back import change
from tests.cli.conftest import Ask
from tests.migrations.saved_records import FOLDER

pytestmark = pytest.mark.usefixtures("backups_file")


def backups_of(record: Path) -> list[Path]:
    """The backups of a record, by name."""
    return sorted(record.with_name(f"{record.stem}-backups").glob("*.crewtrack"))


def damage(record: Path) -> None:
    """Change a name behind the journal's back."""
    change(record, "UPDATE people SET name = 'Somebody else' WHERE person = 'K-03'")


def test_an_import_takes_a_backup_and_the_list_shows_it(ask: Ask, own_unit: Path) -> None:
    assert ask("import", own_unit.parent / "evidence", "--db", own_unit).code == 0
    (taken,) = backups_of(own_unit)
    answer = ask("backups", "--db", own_unit)
    assert (answer.code, answer.err) == (0, "")
    heads, line = answer.out.splitlines()
    assert heads.split() == ["taken", "(UTC)", "occasion", "acts", "size", "file"]
    assert "before an import" in line
    assert line.endswith(f"  {taken}")


def test_an_adoption_takes_a_backup(ask: Ask, own_unit: Path) -> None:
    assert ask("standard", "adopt", own_unit.parent / "second.toml", "--db", own_unit).code == 0
    assert [path.name.split(".")[2] for path in backups_of(own_unit)] == ["before-adoption"]


def test_one_is_taken_now(ask: Ask, own_unit: Path) -> None:
    answer = ask("backups", "keep", "--db", own_unit)
    (taken,) = backups_of(own_unit)
    assert (answer.code, answer.out, answer.err) == (0, f"Wrote and checked {taken}.\n", "")


def test_the_record_may_be_named_before_the_command(ask: Ask, own_unit: Path) -> None:
    assert ask("--db", own_unit, "backups", "keep").code == 0
    assert ask("--db", own_unit, "backups").out.count("by hand") == 1


def test_where_there_are_none_that_is_said(ask: Ask, own_unit: Path) -> None:
    answer = ask("backups", "--db", own_unit)
    assert (answer.code, answer.out) == (0, "")
    assert answer.err == (
        f"There are no backups of {own_unit} in {own_unit.parent / 'unit-backups'}.\n"
    )


def test_checked_a_backup_that_is_not_whole_is_a_no(ask: Ask, own_unit: Path) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    ask("backups", "keep", "--db", own_unit)
    assert ask("backups", "--check", "--db", own_unit).code == 0
    by_hand = next(path for path in backups_of(own_unit) if "by-hand" in path.name)
    damage(by_hand)
    answer = ask("backups", "--check", "--db", own_unit)
    assert answer.code == 1
    told = {line.split()[-1]: line.split()[-2] for line in answer.out.splitlines()[1:]}
    assert told == {str(path): "NO" if path == by_hand else "yes" for path in backups_of(own_unit)}


@pytest.mark.parametrize(
    ("command", "file"), [(("import",), "evidence"), (("standard", "adopt"), "second.toml")]
)
def test_without_a_backup_nothing_is_done_unless_somebody_says_so(
    ask: Ask, own_unit: Path, command: tuple[str, ...], file: str
) -> None:
    (own_unit.parent / "unit-backups").write_text("a file is in its place")
    refused = ask(*command, own_unit.parent / file, "--db", own_unit)
    assert (refused.code, refused.out) == (3, "")
    assert refused.err.startswith("nothing was done, since there can be no backup before it: ")
    assert refused.err.endswith("; see to that, or go on without one: --no-backup\n")
    again = ask(*command, own_unit.parent / file, "--no-backup", "--db", own_unit)
    assert (again.code, again.err) == (0, "")


def test_where_verifying_finds_a_break_the_backup_to_restore_is_named(
    ask: Ask, own_unit: Path
) -> None:
    ask("import", own_unit.parent / "evidence", "--db", own_unit)
    ask("backups", "keep", "--db", own_unit)
    (best,) = (path for path in backups_of(own_unit) if "by-hand" in path.name)
    damage(own_unit)
    answer = ask("verify", "--db", own_unit)
    assert answer.code == 1
    advice = f"crewtrack --db {own_unit} restore {best}"
    assert answer.err.endswith(f"Put it back with: {advice}\n")
    assert ask(*advice.split()[1:]).code == 0
    assert ask("verify", "--db", own_unit).code == 0


def test_where_a_record_can_t_be_opened_the_backup_to_restore_is_named(
    ask: Ask, own_unit: Path
) -> None:
    ask("backups", "keep", "--db", own_unit)
    (best,) = backups_of(own_unit)
    own_unit.write_bytes(own_unit.read_bytes()[:5000])
    answer = ask("roster", "--db", own_unit)
    assert answer.code == 3
    first, second = answer.err.splitlines()
    assert first.endswith("is cut short; put the last backup back with 'crewtrack restore FILE'")
    assert second.startswith(f"The newest backup that is whole is {best}. Put it back with: ")


def test_where_there_is_no_backup_to_restore_that_is_said(ask: Ask, own_unit: Path) -> None:
    own_unit.write_bytes(b"")
    answer = ask("roster", "--db", own_unit)
    folder = own_unit.parent / "unit-backups"
    assert answer.err.splitlines()[1] == (f"No backup of it that is whole was found in {folder}.")


def test_a_record_that_is_not_there_needs_no_backup(ask: Ask, tmp_path: Path) -> None:
    answer = ask("roster", "--db", tmp_path / "none.crewtrack")
    assert len(answer.err.splitlines()) == 1


def test_a_record_of_an_older_program_is_opened_behind_a_backup(ask: Ask, tmp_path: Path) -> None:
    record = Path(shutil.copy(FOLDER / "0001.crewtrack", tmp_path / "unit.crewtrack"))
    record.chmod(0o644)
    assert ask("verify", "--db", record).code == 0
    assert "before a change of its tables" in ask("backups", "--db", record).out
    assert ask("backups", "--check", "--db", record).code == 0


@pytest.mark.parametrize("command", [("backups",), ("backups", "keep")], ids=" ".join)
def test_faults_of_the_settings_are_told_and_cured(
    ask: Ask, own_unit: Path, backups_file: Path, command: tuple[str, ...]
) -> None:
    backups_file.write_text("days = 'seven'\n", encoding="utf-8")
    answer = ask(*command, "--db", own_unit)
    assert answer.code == 2
    assert answer.err == (
        f"{backups_file}: days: 'seven' is not a whole number; write a whole number from 0 to 999\n"
    )
