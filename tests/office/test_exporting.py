"""Export: files that give the same answers in a new record."""

import csv
import errno
import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack.errors import Refused
from crewtrack.facts import KINDS, PERFORMANCES
from crewtrack.office import exporting, importing, keeping
from crewtrack.office.exporting import JOURNAL
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office
from tests.office.small_histories import EDITIONS, FIRST, Files, as_csv, histories, turned
from tests.office.unit_at_work import EVIDENCE, FIRST_ACT, ON, Clock, Unit, answers, unit_in

DAYS = [FIRST + timedelta(days=n) for n in (61, 200, 560)]


def exported(unit: Unit) -> Path:
    """Everything, in a new folder."""
    unit.written += 1
    folder = unit.folder / f"exported-{unit.written}"
    exporting.export(unit.office, folder)
    return folder


def taken_in(folder: Path, where: Path, first: str) -> Office:
    """A new record made of an export, beginning with the edition in the file ``first``."""
    keeping.init(where, folder / first, "Ben", Clock())
    office = Office.open(where, Clock())
    for standard in sorted(folder.glob("standard-*.toml")):
        keeping.adopt(office, standard, "Ben", "taken over")
    evidence = sorted(folder.glob("*.csv"))
    importing.import_evidence(office, evidence, ImportOrder("Ben"))
    return office


def test_an_export_holds_a_file_of_each_kind_the_standard_and_the_journal(full_unit: Unit) -> None:
    folder = full_unit.folder / "all"
    written = exporting.export(full_unit.office, folder)
    names = [*(f"{kind.name}.csv" for kind in KINDS), "standard-2026-1.toml", "journal.jsonl"]
    assert [path.name for path in written] == names
    assert sorted(path.name for path in folder.iterdir()) == sorted(names)


def test_rows_come_out_in_the_order_in_which_they_came(unit: Unit) -> None:
    unit.take(people="person,name\nZ,Zoë\nA,Ana\n")
    unit.take(people="person,name\nM,Mo\n")
    unit.take(people="person,name\nZ,Zoe\n", reason="as in the passport")
    content = (exported(unit) / "people.csv").read_text(encoding="utf-8")
    assert [line.split(",")[:2] for line in content.splitlines()[1:]] == [
        ["Z", "Zoe"],
        ["A", "Ana"],
        ["M", "Mo"],
    ]


def test_a_standard_comes_out_as_it_was_adopted(unit: Unit) -> None:
    text = EDITIONS[1].replace("\n", "\r\n")
    unit.adopt(text, "of old")
    assert (exported(unit) / "standard-second_1.toml").read_bytes() == text.encode()


def test_editions_whose_names_look_alike_get_files_of_their_own(unit: Unit) -> None:
    for text in EDITIONS[1:]:
        unit.adopt(text, "of old")
    folder = exported(unit)
    assert (folder / "standard-second_1.toml").read_text(encoding="utf-8") == EDITIONS[1]
    assert (folder / "standard-second_1-2.toml").read_text(encoding="utf-8") == EDITIONS[2]


def test_the_journal_comes_out_act_by_act(full_unit: Unit) -> None:
    lines = (exported(full_unit) / "journal.jsonl").read_text(encoding="utf-8").splitlines()
    acts = [told for line in lines if "act" in (told := json.loads(line))]
    assert [told["act"]["kind"] for told in acts] == ["adopt", "import"]
    assert acts[-1]["digest"] == full_unit.head()
    assert len(lines) == 2 + 1 + sum(len(text.splitlines()) - 1 for text in EVIDENCE.values())


def test_an_export_writes_over_nothing(full_unit: Unit) -> None:
    folder = exported(full_unit)
    (folder / "people.csv").write_text("mine", encoding="utf-8")
    with pytest.raises(Refused, match=r"people\.csv is there already"):
        exporting.export(full_unit.office, folder)
    assert (folder / "people.csv").read_text(encoding="utf-8") == "mine"


def test_a_file_is_no_folder_to_export_to(full_unit: Unit) -> None:
    (file,) = full_unit.files({"people": ""})
    with pytest.raises(Refused, match="this is a file"):
        exporting.export(full_unit.office, file)


def test_an_export_beside_other_files_leaves_them_alone(full_unit: Unit) -> None:
    folder = full_unit.folder / "shared"
    folder.mkdir()
    (folder / "letter.txt").write_text("dear", encoding="utf-8")
    exporting.export(full_unit.office, folder)
    assert (folder / "letter.txt").read_text(encoding="utf-8") == "dear"


def test_an_export_is_no_act(full_unit: Unit) -> None:
    before = full_unit.head()
    exported(full_unit)
    assert full_unit.head() == before


def test_progress_is_told_file_by_file(full_unit: Unit) -> None:
    told: list[tuple[str, int, int]] = []
    exporting.export(full_unit.office, full_unit.folder / "all", lambda *now: told.append(now))
    assert told[0] == ("people.csv", 0, 13)
    assert told[-1] == ("journal.jsonl", 12, 13)


@pytest.mark.parametrize("name", ["=1+1", "'=1+1", "@SUM(A1)", '-2+3"', "+A,B", "=cmd|' /C'!A0"])
def test_no_cell_of_an_export_is_run_by_a_spreadsheet(unit: Unit, name: str) -> None:
    rows = [{"person": "=K", "name": name}, {"person": "-1", "name": "Ana"}]
    unit.take(
        people=as_csv(["person", "name"], rows),
        assignments="person,qualification,from\n=K,deck-pilot,2026-01-01\n",
    )
    folder = exported(unit)
    cells = [
        cell
        for file in folder.glob("*.csv")
        for row in csv.reader(StringIO(file.read_text(encoding="utf-8"), newline=""))
        for cell in row
    ]
    assert not [cell for cell in cells if cell.lstrip().startswith(("=", "+", "-", "@"))]


def test_a_corrected_record_taken_in_again_gives_the_same_answers(full_unit: Unit) -> None:
    full_unit.clock.at = FIRST_ACT + timedelta(days=1)
    full_unit.take(
        performances="sortie,person,task,times\nS-2,K-01,hand-recovery,2\n", reason="the log"
    )
    folder = exported(full_unit)
    with taken_in(folder, full_unit.folder / "new.crewtrack", "standard-2026-1.toml") as office:
        assert answers(office, ON) == answers(full_unit.office, ON)


@pytest.fixture(scope="module")
def three_editions(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record with three editions and no evidence; not to be written to."""
    folder = tmp_path_factory.mktemp("three-editions")
    record = folder / "made.crewtrack"
    (folder / "first.toml").write_text(EDITIONS[0], encoding="utf-8")
    keeping.init(record, folder / "first.toml", "Ana", Clock())
    with Office.open(record, Clock()) as office:
        unit = Unit(folder, office, Clock())
        for text in EDITIONS[1:]:
            unit.adopt(text, "of old")
    return record


@contextmanager
def unit_with(record: Path, files: Files) -> Iterator[Unit]:
    """A unit with a copy of a record in a folder of its own, and these files taken in."""
    with TemporaryDirectory() as name, unit_in(Path(name), record) as unit:
        unit.take(files)
        yield unit


@given(files=histories())
@settings(max_examples=8)
def test_whatever_is_exported_gives_the_same_answers_in_a_new_record(
    three_editions: Path, files: Files
) -> None:
    with unit_with(three_editions, files) as unit, unit_with(three_editions, {}) as other:
        folder = exported(unit)
        evidence = sorted(folder.glob("*.csv"))
        importing.import_evidence(other.office, evidence, ImportOrder("Ben"))
        assert answers(other.office, *DAYS) == answers(unit.office, *DAYS)
        again = exported(other)
        assert [file.read_bytes() for file in evidence] == [
            (again / file.name).read_bytes() for file in evidence
        ]


@given(files=histories(), data=st.data())
@settings(max_examples=8)
def test_the_order_of_files_and_rows_never_matters(
    three_editions: Path, files: Files, data: st.DataObject
) -> None:
    other_files = data.draw(turned(files))
    with unit_with(three_editions, files) as unit, unit_with(three_editions, other_files) as other:
        assert answers(other.office, *DAYS) == answers(unit.office, *DAYS)


@given(files=histories())
@settings(max_examples=4)
def test_files_taken_one_by_one_are_as_good_as_all_at_once(
    three_editions: Path, files: Files
) -> None:
    with unit_with(three_editions, files) as unit, unit_with(three_editions, {}) as other:
        for kind, content in files.items():
            other.take({kind: content})
        assert answers(other.office, *DAYS) == answers(unit.office, *DAYS)


def test_a_disk_that_fills_up_is_told_by_the_folder_written_to(
    unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> Path:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("crewtrack.office.exporting.write", full)
    folder = unit.folder / "exported"
    with pytest.raises(OSError, match="No space left on device") as told:
        exporting.export(unit.office, folder)
    assert told.value.filename == str(folder)


def test_what_is_struck_out_stands_in_the_journal_alone(full_unit: Unit) -> None:
    with full_unit.office.record.act("strike", "Ana", FIRST_ACT, "by mistake") as act:
        held = act.current(PERFORMANCES)["S-3", "K-01", "hand-recovery"]
        act.strike(PERFORMANCES, [(held.entry, held.number)])
    folder = exported(full_unit)
    assert "S-3" not in (folder / "performances.csv").read_text(encoding="utf-8")
    last = (folder / "journal.jsonl").read_text(encoding="utf-8").splitlines()[-1]
    told = json.loads(last)
    assert (told["row"]["sortie"], told["revision"], told["struck"]) == ("S-3", 2, True)


@pytest.mark.parametrize("there", [True, False])
def test_an_export_that_is_broken_off_leaves_nothing(full_unit: Unit, there: bool) -> None:
    folder = full_unit.folder / "new" / "all"
    if there:
        folder.mkdir(parents=True)
    steps: list[str] = []

    def stop(what: str, _done: int, _total: int) -> None:
        steps.append(what)
        if len(steps) > len(set(steps)) or what == JOURNAL:
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        exporting.export(full_unit.office, folder, stop)
    assert len(steps) == 12
    assert [path.exists() for path in (folder, folder.parent)] == [there, there]
    assert list(folder.rglob("*")) == []


def test_a_file_that_comes_up_meanwhile_is_not_written_over_and_nothing_else_is_left(
    full_unit: Unit,
) -> None:
    folder = full_unit.folder / "all"

    def meanwhile(what: str, _done: int, _total: int) -> None:
        if what == JOURNAL:
            (folder / "vessels.csv").write_text("mine", encoding="utf-8")

    with pytest.raises(Refused, match="there is a file of this name already"):
        exporting.export(full_unit.office, folder, meanwhile)
    assert [path.name for path in folder.iterdir()] == ["vessels.csv"]
    assert (folder / "vessels.csv").read_text(encoding="utf-8") == "mine"


def test_long_files_tell_now_and_again_how_far_they_are(
    full_unit: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.office.exporting._AT_ONCE", 2)
    told: list[str] = []
    exporting.export(full_unit.office, full_unit.folder / "all", lambda *now: told.append(now[0]))
    assert [told.count(name) for name in ("people.csv", "vessels.csv", JOURNAL)] == [2, 1, 9]
