"""Bad input, end to end: a sentence with its place and a cure, exit code 2, and the record stays
as it was."""

import csv
import json
import shutil
from collections.abc import Callable
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
import pytest

from tests.cli.conftest import Answer, Ask
from tests.cli.small_unit import STANDARD

NEED = '{ id = "recency", recent = "hand-recovery", times = 3, within = "P90D" }'

State = dict[str, bytes]
Refuse = Callable[..., Answer]


def state(ask: Ask, record: Path) -> State:
    """Everything that a record holds, the journal and its last digest included."""
    with TemporaryDirectory() as name:
        folder = Path(name) / "all"
        answer = ask("--db", record, "export", folder)
        assert answer.code == 0, answer.err
        return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture(scope="module")
def before(small_unit: Path, tmp_path_factory: pytest.TempPathFactory) -> State:
    """What the small unit's record holds."""
    from crewtrack.cli.outcome import run

    folder = tmp_path_factory.mktemp("before") / "all"
    assert run(["--db", str(small_unit), "export", str(folder)]) == 0
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture
def record(small_unit: Path, tmp_path: Path) -> Path:
    """A copy of the small unit's record."""
    return Path(shutil.copy(small_unit, tmp_path / "unit.crewtrack"))


@pytest.fixture
def refuse(ask: Ask, record: Path, before: State) -> Refuse:
    """Runs a command that must be refused, one line for each fault, and change nothing."""

    def refused(*arguments: str | Path) -> Answer:
        answer = ask("--db", record, *arguments)
        assert answer.code == 2
        assert answer.out == ""
        assert "Traceback" not in answer.err
        assert state(ask, record) == before
        assert ask("--db", record, "verify").code == 0
        return answer

    return refused


STANDARDS = {
    "an unknown key": (
        STANDARD.replace("times = 3", "tmes = 3"),
        "bad.toml:12: qualifications.deck-pilot.needs[1].tmes: ",
        "did you mean 'times'?",
    ),
    "an unknown key at the top": (
        STANDARD.replace("zone =", "zones = 1\nzone ="),
        "bad.toml:5: zones: ",
        "did you mean 'zone'?",
    ),
    "a loop": (
        STANDARD.replace(NEED, '{ holds = "night" }'),
        "bad.toml:16: qualifications.night.needs[1].holds: ",
        "deck-pilot → night → deck-pilot",
    ),
    "two units in a duration": (
        STANDARD.replace("P90D", "P1M15D"),
        "bad.toml:12: qualifications.deck-pilot.needs[1].within: 'P1M15D'",
        "one unit only, such as P45D",
    ),
    "no duration at all": (
        STANDARD.replace("P90D", "P0D"),
        "bad.toml:12: qualifications.deck-pilot.needs[1].within: 'P0D'",
        "write a positive duration",
    ),
    "hours": (
        STANDARD.replace("P90D", "PT5H"),
        "bad.toml:12: qualifications.deck-pilot.needs[1].within: 'PT5H'",
        "write whole days",
    ),
    "no TOML": (
        STANDARD.replace('"Small unit"', "Small unit"),
        "bad.toml:2: this is not TOML",
        "text goes in quotes",
    ),
}


@pytest.mark.parametrize("command", [("standard", "check"), ("standard", "adopt")])
@pytest.mark.parametrize("wrong", STANDARDS)
def test_a_standard_with_a_fault(
    refuse: Refuse, tmp_path: Path, wrong: str, command: tuple[str, ...]
) -> None:
    text, place, cure = STANDARDS[wrong]
    bad = tmp_path / "bad.toml"
    bad.write_text(text.replace('"2026-1"', '"2090-1"'), encoding="utf-8")
    (line,) = refuse(*command, bad).err.splitlines()
    assert line.startswith(place)
    assert cure in line


@pytest.mark.parametrize("wrong", STANDARDS)
def test_no_record_is_made_with_it(ask: Ask, tmp_path: Path, wrong: str) -> None:
    text, place, _ = STANDARDS[wrong]
    (tmp_path / "bad.toml").write_text(text, encoding="utf-8")
    answer = ask("--db", tmp_path / "new.crewtrack", "init", "--standard", tmp_path / "bad.toml")
    assert answer.code == 2
    assert place in answer.err
    assert [path.name for path in tmp_path.iterdir()] == ["bad.toml"]


def test_all_faults_of_a_standard_are_told_at_once(refuse: Refuse, tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    text = STANDARD.replace("P90D", "P0D").replace("times", "tmes").replace("zone", "zome")
    bad.write_text(text, encoding="utf-8")
    lines = refuse("standard", "check", bad).err.splitlines()
    assert len(lines) == 4  # the unknown keys, the duration, and the zone that is missing
    assert all(line.startswith("bad.toml") for line in lines)


SORTIE = "sortie,launched,minutes,setting"
FAULTS: dict[str, tuple[str, str | bytes, list[str]]] = {
    "a missing column": (
        "sorties.csv",
        "sortie,launched,setting\nS-9,2026-11-11T10:00,live\n",
        ["sorties.csv:1: minutes: the column is missing; add it"],
    ),
    "an unknown column": (
        "people.csv",
        "person,name,joind\nK-9,Zoë,2026-01-01\n",
        ["people.csv:1: no column 'joind' is known here; did you mean 'joined'?"],
    ),
    "a byte of Latin-1": (
        "people.csv",
        "person,name\nK-9,Zoë\n".encode("latin-1"),
        ["people.csv:2: name: 'Zo\\xeb' holds the byte 0xEB", "save the file as CSV UTF-8"],
    ),
    "rows that are too short and too long": (
        "people.csv",
        "person,name,joined\nK-8,Ana\nK-9,Lee, Sam,2026-01-01\n",
        ["people.csv:2: the row has 2 cells", "people.csv:3: the row has 4 cells", "put quotes"],
    ),
    "a sortie that ends before it starts": (
        "sorties.csv",
        f"{SORTIE}\nS-9,2026-11-11T10:00,-5,live\n",
        ["sorties.csv:2: minutes: -5: the sortie ends before it starts; write a whole number"],
    ),
    "an impossible date": (
        "people.csv",
        "person,name,joined\nK-9,Zoë,2026-02-30\n",
        ["people.csv:2: joined: there is no 2026-02-30; February 2026 has 28 days"],
    ),
    "a local time that the zone skips": (
        "sorties.csv",
        f"{SORTIE}\nS-9,2026-03-08T02:30,5,live\n",
        ["sorties.csv:2: launched: America/Detroit skips", "2026-03-08T03:30-04:00"],
    ),
    "a local time that the zone has twice": (
        "sorties.csv",
        f"{SORTIE}\nS-9,2026-11-01T01:30,5,live\n",
        ["sorties.csv:2: launched: 2026-11-01T01:30 comes twice", "2026-11-01T01:30-05:00"],
    ),
    "sea 12": (
        "sorties.csv",
        f"{SORTIE},sea\nS-9,2026-11-11T10:00,5,live,12\n",
        ["sorties.csv:2: sea: 12 is more than 9; write a whole number from 0 to 9"],
    ),
    "wind from 400": (
        "sorties.csv",
        f"{SORTIE},wind_from\nS-9,2026-11-11T10:00,5,live,400\n",
        ["sorties.csv:2: wind_from: 400 is more than 360; write a number from 0 to 360"],
    ),
    "latitude 91": (
        "sorties.csv",
        f"{SORTIE},lat,lon\nS-9,2026-11-11T10:00,5,live,91,-88\n",
        ["sorties.csv:2: lat: 91 is more than 90; write a number from -90 to 90"],
    ),
    "one's own supervisor": (
        "performances.csv",
        "sortie,person,task,supervisor\nS-1,K-01,hand-recovery,K-01\n",
        ["performances.csv:2: supervisor: 'K-01' supervises himself or herself; name somebody"],
    ),
    "one's own evaluator": (
        "signoffs.csv",
        "signoff,person,task,date,level,result,evaluator\n"
        "E-1,K-01,hand-recovery,2026-11-01,alone,passed,K-01\n",
        ["signoffs.csv:2: evaluator: 'K-01' evaluates himself or herself; name somebody"],
    ),
    "a performance on a sortie that does not exist": (
        "performances.csv",
        "sortie,person,task\nmonday,K-01,hand-recovery\n",
        ["performances.csv:2: sortie: no sortie 'monday'; write the key of one", "sorties.csv"],
    ),
    "a duplicate key": (
        "people.csv",
        "person,name\nK-9,Zoë\nK-9,Lee\n",
        ["people.csv:3: person: person 'K-9' is already in line 2; keep one of the two rows"],
    ),
    "a name of 40,000 characters": (
        "people.csv",
        "person,name\nK-9," + "x" * 40_000 + "\n",
        ["people.csv:2: name: 'xxx", "is 40,000 characters long; at most 200 fit here"],
    ),
    "an empty file": ("people.csv", "", ["people.csv: it is empty; its first row names"]),
    "a quote that is never closed": (
        "people.csv",
        'person,name\nK-9,"Zoë\n',
        ["people.csv:2: a quote is opened in this row and never closed; close it"],
    ),
}


@pytest.mark.parametrize(("file", "content", "sentences"), FAULTS.values(), ids=FAULTS)
def test_a_file_with_a_fault(
    refuse: Refuse, tmp_path: Path, file: str, content: str | bytes, sentences: list[str]
) -> None:
    given = content if isinstance(content, bytes) else content.encode()
    (tmp_path / file).write_bytes(given)
    answer = refuse("import", tmp_path / file)
    for sentence in sentences:
        assert sentence in answer.err
    *faults, end = answer.err.splitlines()
    assert all(line.startswith(file) for line in faults)
    assert end == f"{len(faults)} fault{'s' if len(faults) > 1 else ''}; nothing was written."
    assert max(map(len, answer.err.splitlines())) < 250


def test_every_mistake_at_once(refuse: Refuse, tmp_path: Path) -> None:
    """One bad row for each fault that a row can have, all told, in the order of the lines."""
    rows = [
        ("S-9,2026-11-11T10:00,-5,live,,,,", "minutes"),
        ("S-10,2026-02-30T10:00,5,live,,,,", "launched"),
        ("S-11,2026-03-08T02:30,5,live,,,,", "launched"),
        ("S-12,2026-11-11T10:00,5,live,12,,,", "sea"),
        ("S-13,2026-11-11T10:00,5,live,,400,,", "wind_from"),
        ("S-14,2026-11-11T10:00,5,live,,,91,0", "lat"),
        ("S-9,2026-11-11T10:00,5,live,,,,", "sortie"),
    ]
    lines = [f"{SORTIE},sea,wind_from,lat,lon", *(row for row, _ in rows)]
    (tmp_path / "sorties.csv").write_text("\n".join(lines), encoding="utf-8")
    *told, end = refuse("import", tmp_path / "sorties.csv").err.splitlines()
    assert end == f"{len(rows)} faults; nothing was written."
    assert [line.split(": ")[:2] for line in told] == [
        [f"sorties.csv:{number}", field] for number, (_, field) in enumerate(rows, 2)
    ]


def test_fifty_faults_are_told_and_the_rest_counted(refuse: Refuse, tmp_path: Path) -> None:
    rows = "".join(f"K-{n},x,2026-02-30\n" for n in range(1000, 1300))
    (tmp_path / "people.csv").write_text("person,name,joined\n" + rows, encoding="utf-8")
    told = refuse("import", tmp_path / "people.csv").err.splitlines()
    assert len(told) == 52
    assert told[-2:] == ["… and 250 more faults.", "300 faults; nothing was written."]


def test_a_workbook_with_faults(refuse: Refuse, tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    people = book.create_sheet("people", 0)
    for row in (["person", "name", "joined"], ["K-9", "Zoë", "2026-02-30"], ["K-9", "x" * 999]):
        people.append(row)
    book.save(tmp_path / "book.xlsx")
    *told, _ = refuse("import", tmp_path / "book.xlsx").err.splitlines()
    assert [line.split(": ")[0] for line in told] == [
        "book.xlsx!people:2",
        "book.xlsx!people:3",
        "book.xlsx!people:3",
    ]


@pytest.mark.parametrize("file", ["notes.docx", "crew.csv", "people.ods", "none.csv"])
def test_a_file_that_is_no_evidence(refuse: Refuse, tmp_path: Path, file: str) -> None:
    if file != "none.csv":
        (tmp_path / file).write_text("person,name\nK-9,Zoë\n", encoding="utf-8")
    assert file in refuse("import", tmp_path / file).err


RUN = ["=1+1", "'=1+1", "@SUM(A1:A9)", "-2+3", "+1", '=HYPERLINK("x","y")', "=cmd|' /C x'!A0"]


def export_of(ask: Ask, record: Path, folder: Path) -> Path:
    assert ask("--db", record, "export", folder).code == 0
    return folder


def names_in(ask: Ask, record: Path) -> list[str]:
    told = ask("--db", record, "roster", "--on", "2026-11-25", "--format", "json").out
    rows = json.loads(told)["rows"]
    return [row["name"] for row in rows if row["qualification"] == "deck-pilot"]


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_text_that_looks_like_a_formula_is_kept_and_never_run(
    ask: Ask, own_unit: Path, tmp_path: Path, kind: str
) -> None:
    rows = [["person", "name"], *([f"={n}", name] for n, name in enumerate(RUN))]
    given = tmp_path / ("people.csv" if kind == "csv" else "book.xlsx")
    if kind == "csv":
        with given.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(
                [[cell if cell[0] != "'" else "'" + cell for cell in row] for row in rows]
            )
    else:
        book = openpyxl.Workbook()
        sheet = book.create_sheet("people", 0)
        for number, row in enumerate(rows, 1):
            for column, text in enumerate(row, 1):
                cell = sheet.cell(number, column)
                cell.value = text
                cell.data_type = "s"  # text that looks like a formula, not a formula
        book.save(given)
    answer = ask("--db", own_unit, "import", given)
    assert (answer.code, answer.err) == (0, "")
    meant = RUN if kind == "csv" else [name.removeprefix("'") for name in RUN]
    assert names_in(ask, own_unit) == meant
    folder = export_of(ask, own_unit, tmp_path / "all")
    assert not [cell for cell in cells(folder) if cell.startswith(("=", "+", "-", "@"))]
    copy = tmp_path / "copy.crewtrack"
    ask("--db", copy, "init", "--standard", folder / "standard-2026-1.toml")
    assert ask("--db", copy, "import", folder / "people.csv").code == 0
    assert names_in(ask, copy) == meant


def cells(folder: Path) -> list[str]:
    """Every cell of every file of evidence in a folder."""
    return [
        cell
        for file in folder.glob("*.csv")
        for row in csv.reader(StringIO(file.read_text(encoding="utf-8"), newline=""))
        for cell in row
    ]


def test_no_answer_as_csv_is_run_by_a_spreadsheet(ask: Ask, own_unit: Path, tmp_path: Path) -> None:
    (tmp_path / "people.csv").write_text("person,name\n=K,=1+1\n", encoding="utf-8")
    (tmp_path / "assignments.csv").write_text(
        "person,qualification,from\n=K,deck-pilot,2026-01-01\n", encoding="utf-8"
    )
    ask("--db", own_unit, "import", tmp_path / "people.csv", tmp_path / "assignments.csv")
    for question in (("roster",), ("history",)):
        told = ask("--db", own_unit, *question, "--format", "csv").out
        rows = csv.reader(StringIO(told, newline=""))
        assert not [cell for row in rows for cell in row if cell.startswith("=")]
