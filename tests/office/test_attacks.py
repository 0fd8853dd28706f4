"""Attacks, tried: each is refused, or taken for the plain text that it is, and nothing is run.

Each table has a line for every attack, with what it would do if it worked.
"""

import csv
import os
import re
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from pypdf import PdfReader

from crewtrack.errors import CrewtrackError, RecordUnusable, Refused
from crewtrack.facts import KINDS, PEOPLE, SORTIES, Kind, Row, Text
from crewtrack.files.harmless import harmless
from crewtrack.office import asking, exporting, importing, keeping, recording
from crewtrack.office.entries import Entry, Order
from crewtrack.office.importing import ImportOrder
from crewtrack.office.office import Office
from crewtrack.prints.roster_sheet import render
from crewtrack.screens import roster_text
from tests.office.malformed import TABLES
from tests.office.malformed_books import packed, parts_of
from tests.office.unit_at_work import EVIDENCE, ON, STANDARD, Unit, refused

SQL = "'; DROP TABLE people;--"

TAKEN = {
    "ends the statement and drops a table": SQL,
    "ends the statement in double quotes": '"; DELETE FROM acts; --',
    "fills in a placeholder of a statement": "?1 :name @name $name",
    "fills in a format": "{0.__class__} %s %(name)s ${HOME} `id`",
    "is run by a spreadsheet": '=HYPERLINK("http://x","y")',
    "is run by a spreadsheet, by a sum": "+1+1",
    "is run by a spreadsheet, by a difference": "-2+3+cmd|' /C calc'!A0",
    "is run by a spreadsheet, by a function": "@SUM(1+1)",
    "is run by a spreadsheet, full width": "＝1+1",
    "is run by a spreadsheet once an apostrophe is taken away": "'=1+1",
    "is a tag of a page": "<b>x</b><img src=x onerror=alert(1)>&lt;",
    "is a command of a print": ") Tj ET (",
    "is a pattern that takes for ever": "(a+)+$" + "a" * 40,
}
"""Text that something else would run, kept as it is."""

NOT_TAKEN = {
    "clears the terminal": "Ana\x1b[2J",
    "sets the terminal's title": "\x1b]0;x\x07Ana",
    "clears the terminal by a single byte": "Ana\x9b2J",
    "rings, and goes back to write over": "Ana\x07\x08\x08\x08Eve",
    "writes over its line": "Ana\rEve",
    "turns the reading order": "Ana \u202eevE",
    "turns the reading order within": "Ana \u2066evE\u2069",
    "ends the text early": "Ana\0Eve",
    "makes a line of its own": "Ana\nK-99,Eve",
    "is half a letter": "Ana\ud83d",
    "never ends": "x" * 10_000_000,
}
"""Text that would show as something else, or fill the record."""


def entry(kind: Kind, **values: object) -> Entry:
    """A fact, by its columns."""
    row: Row = tuple(values.get(column.name, column.default) for column in kind.columns)  # type: ignore[misc] # of any column
    return Entry(kind, row)


def names(office: Office) -> list[str]:
    """What everybody is called."""
    with office.view() as view:
        found = view.reading.current(PEOPLE)
        return [str(held.row[1]) for held in found.values()]


def people(path: Path, name: str) -> Path:
    """A file of one person with a name."""
    with path.open("w", encoding="utf-8", errors="surrogatepass", newline="") as file:
        csv.writer(file).writerows([["person", "name"], ["K-66", name]])
    return path


@pytest.fixture
def whole(full_unit: Unit) -> Iterator[Unit]:
    """A unit that is found whole afterwards."""
    yield full_unit
    assert keeping.verify(full_unit.office) == ()


@pytest.mark.parametrize("text", TAKEN.values(), ids=TAKEN)
def test_text_that_something_else_would_run_is_kept_and_shown_as_text(
    whole: Unit, tmp_path: Path, text: str
) -> None:
    recording.record(whole.office, [entry(PEOPLE, person="K-66", name=text)], Order(text, text))
    assert text in names(whole.office)
    roster = asking.roster(whole.office, ON)
    assert "\x1b" not in roster_text.told(roster, 80, lambda told, word: told)
    pages = PdfReader(BytesIO(render(roster, "A4", text))).pages
    assert len(pages) == 1
    exporting.export(whole.office, tmp_path / "all")
    assert not list(_run_by_spreadsheets(tmp_path / "all"))
    assert importing.import_evidence(
        whole.office, [tmp_path / "all" / "people.csv"], ImportOrder("Ana")
    ).unchanged == {"people": 4}


def _run_by_spreadsheets(folder: Path) -> Iterator[str]:
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.reader(file):
                yield from (cell for cell in row if re.match(r"[=+@\uff1d]|-[^0-9]", cell))


@pytest.mark.parametrize("text", TAKEN.values(), ids=TAKEN)
def test_text_that_something_else_would_run_is_imported_as_text(whole: Unit, text: str) -> None:
    path = people(whole.folder / "people.csv", harmless(text))
    importing.import_evidence(whole.office, [path], ImportOrder(text))
    assert text in names(whole.office)


@pytest.mark.parametrize("text", NOT_TAKEN.values(), ids=NOT_TAKEN)
def test_text_that_would_show_as_something_else_is_refused(whole: Unit, text: str) -> None:
    before = whole.head()
    later = STANDARD.replace("2026-1", "2026-2").replace("2026-01-01", "2026-09-01")
    given: list[Callable[[], object]] = [
        lambda: recording.record(
            whole.office, [entry(PEOPLE, person="K-66", name=text)], Order("Ana")
        ),
        lambda: recording.record(
            whole.office, [entry(PEOPLE, person="K-66", name="Eve")], Order(text)
        ),
        lambda: importing.import_evidence(
            whole.office, [people(whole.folder / "people.csv", text)], ImportOrder("Ana")
        ),
        lambda: importing.import_evidence(
            whole.office, [people(whole.folder / "people.csv", "Eve")], ImportOrder(text)
        ),
        lambda: keeping.adopt(whole.office, whole.standard(later), text, "why"),
    ]
    for act in given:
        with pytest.raises(Refused) as refusal:
            act()
        told = str(refusal.value)
        assert len(told) < 500
        assert told.isprintable()
    assert whole.head() == before


def _texts() -> list[tuple[str, str]]:
    return [
        (kind.name, column.name)
        for kind in KINDS
        for column in kind.columns
        if isinstance(column.type, Text) and kind.name in TABLES
    ]


@pytest.mark.parametrize(("kind", "column"), _texts())
def test_sql_in_any_text_is_only_text(whole: Unit, kind: str, column: str) -> None:
    whole.take({name: table for name, table in TABLES.items() if name not in EVIDENCE})
    lines = [line.split(",") for line in TABLES[kind].splitlines()]
    if column not in lines[0]:
        lines = [[*line, ""] for line in lines]
        lines[0][-1] = column
    place = lines[0].index(column)
    lines[1][place] = SQL
    if column == "light_reason":
        lines = [[*line, "" if number else "light"] for number, line in enumerate(lines)]
        lines[1][-1] = "night"
    if column in ("withdrawn_by", "withdrawn_reason"):
        lines[0] += ["withdrawn", *({"withdrawn_by", "withdrawn_reason"} - {column})]
        lines[1:] = [[*line, "", ""] for line in lines[1:]]
        lines[1][-2:] = ["2026-05-30", SQL]
    table = "\n".join(map(",".join, lines)) + "\n"
    assert whole.take({kind: table}, reason=SQL).revised == {kind: 1}
    index = next(one for one in KINDS if one.name == kind).index(column)
    with whole.office.view() as view:
        found = view.reading.current(next(one for one in KINDS if one.name == kind))
        assert SQL in [held.row[index] for held in found.values()]


def test_a_remark_of_ten_million_letters_is_refused_wherever_it_comes_in(whole: Unit) -> None:
    remark = "x" * 10_000_000
    sortie = entry(SORTIES, sortie="S-66", launched=None, minutes=1, setting="live", remarks=remark)
    with pytest.raises(Refused, match="is 10,000,000 characters long"):
        recording.record(whole.office, [sortie], Order("Ana"))
    (fault,) = refused(
        whole,
        sorties=f"sortie,launched,minutes,setting,remarks\nS-66,2026-05-20T10:00,1,live,{remark}\n",
    )
    assert (fault.place, fault.problem) == (
        "sorties.csv:2",
        "a cell holds more than 131,072 characters",
    )


def _link(to: Path, at: Path) -> Path:
    at.symlink_to(to)
    return at


def _hard_link(to: Path, at: Path) -> Path:
    os.link(to, at)
    return at


def _ring(at: Path) -> Path:
    other = at.with_name("ring")
    at.symlink_to(other)
    other.symlink_to(at)
    return at


def _pipe(at: Path) -> Path:
    os.mkfifo(at)
    return at


NO_BACKUPS: dict[str, tuple[Callable[[Path, Path], Path], str]] = {
    "reads a device for ever": (lambda at, _: Path("/dev/zero"), "is not a file"),
    "waits at a pipe for ever": (lambda at, _: _pipe(at), "is not a file"),
    "takes a folder for a file": (lambda at, _: at.parent, "is not a file"),
    "follows a link to a device": (lambda at, _: _link(Path("/dev/zero"), at), "is not a file"),
    "follows a ring of links": (lambda at, _: _ring(at), "can't be looked at"),
    "follows a link to nowhere": (lambda at, _: _link(at.with_name("no"), at), "does not exist"),
    "moves the record away, then misses it": (lambda at, record: record, "is the record itself"),
    "does so through a link": (lambda at, record: _link(record, at), "is the record itself"),
    "does so by a second name": (lambda at, record: _hard_link(record, at), "is the record itself"),
    "takes what the system hides for a backup": (
        lambda at, _: _link(Path("/etc/passwd"), at),
        "is not a crewtrack record",
    ),
}
"""What is no backup, and what restoring it would do."""


@pytest.mark.skipif(sys.platform == "win32", reason="no devices, and links only for few")
@pytest.mark.parametrize(("make", "why"), NO_BACKUPS.values(), ids=NO_BACKUPS)
def test_what_is_no_backup_is_not_put_back(
    full_unit: Unit, tmp_path: Path, make: Callable[[Path, Path], Path], why: str
) -> None:
    record = full_unit.office.record.path
    before = full_unit.head()
    full_unit.office.close()
    source = make(tmp_path / "given.crewtrack", record)
    with pytest.raises(CrewtrackError, match=why):
        keeping.restore(record, source)
    with Office.open(record) as office, office.view() as view:
        assert view.head.digest == before
    assert not list(tmp_path.glob("*before-restore*"))


@pytest.mark.skipif(sys.platform == "win32", reason="links only for few")
def test_a_link_to_a_record_in_use_gives_all_that_is_in_its_log(
    full_unit: Unit, tmp_path: Path
) -> None:
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    link = _link(full_unit.office.record.path, folder / "link.crewtrack")
    with closing(sqlite3.connect(full_unit.office.record.path)) as other:
        other.execute("SELECT count(*) FROM acts").fetchall()  # keeps the log from being folded in
        full_unit.take(people="person,name\nK-66,Eve\n")
        keeping.restore(folder / "new.crewtrack", link)
    with Office.open(folder / "new.crewtrack") as office:
        assert "Eve" in names(office)


HOSTILE = {
    "changes what is recorded next": (
        "CREATE TRIGGER sly AFTER INSERT ON acts BEGIN"
        " UPDATE people SET name = 'Eve' WHERE id = 1; END"
    ),
    "records by itself": (
        "CREATE TRIGGER sly AFTER INSERT ON sorties BEGIN"
        " INSERT INTO signoffs SELECT * FROM signoffs; END"
    ),
    "clears the terminal by its name": 'CREATE TRIGGER "\x1b[2Jsly" AFTER INSERT ON acts BEGIN'
    " SELECT 1; END",
    "carries something along": "CREATE TABLE hidden (content BLOB)",
    "answers in place of a table": (
        "ALTER TABLE people RENAME TO people_before;"
        "CREATE VIEW people AS SELECT * FROM people_before"
    ),
    "counts something else than the rows": "CREATE VIEW sly AS SELECT count(*) FROM people",
    "loads a library when it is asked": "CREATE VIEW sly AS SELECT load_extension('/x.so')",
    "takes a guard away": "DROP TRIGGER people_no_update",
    "finds rows by another order": "CREATE INDEX sly ON people (name COLLATE NOCASE)",
}
"""What a backup may have been given beside its rows, and what that would do."""


@pytest.mark.parametrize("script", HOSTILE.values(), ids=HOSTILE)
def test_a_backup_that_brings_statements_of_its_own_is_refused(
    full_unit: Unit, tmp_path: Path, script: str
) -> None:
    keeping.backup(full_unit.office, tmp_path / "given.crewtrack")
    with closing(sqlite3.connect(tmp_path / "given.crewtrack")) as database:
        database.executescript(script)
    content = (tmp_path / "given.crewtrack").read_bytes()
    with pytest.raises(RecordUnusable, match=r"is not as it was recorded|is damaged"):
        keeping.restore(tmp_path / "new.crewtrack", tmp_path / "given.crewtrack")
    assert not (tmp_path / "new.crewtrack").exists()
    assert (tmp_path / "given.crewtrack").read_bytes() == content


ENTRIES = {
    "writes outside the folder": "../../../out.txt",
    "writes to the root": "/out.txt",
    "writes to a drive": "C:\\out.txt",
    "writes over a sheet with another case": "XL/WORKBOOK.XML",
}
"""Names in a workbook's archive, and what unpacking them would do."""


@pytest.mark.parametrize("name", ENTRIES.values(), ids=ENTRIES)
def test_nothing_of_a_workbook_is_ever_unpacked_to_a_file(whole: Unit, name: str) -> None:
    book = whole.folder / "book.xlsx"
    book.write_bytes(packed({**parts_of({"people": EVIDENCE["people"]}), name: b"x"}))
    before = {path for path in whole.folder.parent.rglob("*") if "record" not in path.name}
    done = importing.import_evidence(whole.office, [book], ImportOrder("Ana"))
    assert done.unchanged == {"people": 3}
    assert {path for path in whole.folder.parent.rglob("*") if "record" not in path.name} == before
    with ZipFile(book) as archive:
        assert name in archive.namelist()


OUTSIDE = {
    "reads a file of the system": '<!DOCTYPE a [<!ENTITY e SYSTEM "file:///etc/passwd">]>',
    "asks another machine": '<!DOCTYPE a [<!ENTITY e SYSTEM "http://127.0.0.1:9/">]>',
    "grows without end": "<!DOCTYPE a ["
    + '<!ENTITY e0 "haha">'
    + "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 12))
    + '<!ENTITY e "&e11;">]>',
}
"""Definitions at the head of a sheet, and what the reader of its text would do."""


@pytest.mark.parametrize("head", OUTSIDE.values(), ids=OUTSIDE)
def test_a_sheet_that_defines_text_of_its_own_is_refused(whole: Unit, head: str) -> None:
    parts = parts_of({"people": EVIDENCE["people"]})
    name = "xl/worksheets/sheet1.xml"
    parts[name] = head.encode() + parts[name].replace(b"Sam Lee", b"&e;")
    book = whole.folder / "book.xlsx"
    book.write_bytes(packed(parts))
    with pytest.raises(Refused, match="it is not a workbook that can be read"):
        importing.import_evidence(whole.office, [book], ImportOrder("Ana"))
