"""XLSX workbooks in: typed cells, formulas, and workbooks that are not what they should be."""

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile
from zoneinfo import ZoneInfo

import openpyxl
import pytest

from crewtrack.files import workbook, workbook_archive
from crewtrack.files.evidence_files import ReadEvidence, read

DETROIT = ZoneInfo("America/Detroit")
PEOPLE = ["person", "name", "joined"]
SORTIES = ["sortie", "launched", "minutes", "setting", "lat", "lon"]

Sheets = Mapping[str, Sequence[Sequence[object]]]
Give = Callable[[Sheets], ReadEvidence]


def ignore(place: str, done: int, total: int) -> None:
    """Progress that nobody watches."""


def save(path: Path, sheets: Sheets) -> Path:
    book = openpyxl.Workbook()
    book.remove(book["Sheet"])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    book.save(path)
    return path


@pytest.fixture
def give(tmp_path: Path) -> Give:
    """Write a workbook and read it."""
    return lambda sheets: read([save(tmp_path / "book.xlsx", sheets)], DETROIT, ignore)


def told(evidence: ReadEvidence) -> list[str]:
    return [str(fault) for fault in evidence.faults]


def rewrite(path: Path, change: Callable[[str, bytes], bytes]) -> Path:
    """The workbook again, with its parts changed."""
    with ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    with ZipFile(path, "w", ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, change(name, content))
    return path


def test_each_sheet_is_a_file_of_its_name(give: Give) -> None:
    found = give({"Sorties ": [SORTIES], "people": [PEOPLE, ["K-1", "Ada", date(2026, 1, 5)]]})
    assert told(found) == []
    people, sorties = found.sheets
    assert (people.kind.name, sorties.kind.name) == ("people", "sorties")
    assert people.rows == [("K-1", "Ada", date(2026, 1, 5), None, None, None, ())]
    assert people.at(0) == "book.xlsx!people:2"


def test_numbers_dates_and_instants_are_read_by_their_type(give: Give) -> None:
    row = ["S-1", datetime(2026, 11, 25, 6, 40), 20.0, "live", 47.12, -88]  # noqa: DTZ001
    found = give({"sorties": [SORTIES, row]})
    assert told(found) == []
    launched = datetime(2026, 11, 25, 11, 40, tzinfo=UTC)
    assert found.sheets[0].rows[0][:4] == ("S-1", launched, 20, "live")
    assert found.sheets[0].rows[0][6:8] == (47.12, -88.0)


def test_an_instant_written_as_text_keeps_its_offset(give: Give) -> None:
    found = give({"sorties": [SORTIES, ["S-1", "2026-11-25T06:40+01:00", 20, "live"]]})
    assert told(found) == []
    assert str(found.sheets[0].rows[0][1]) == "2026-11-25 06:40:00+01:00"


def test_a_date_at_midnight_is_a_date(give: Give) -> None:
    joined = datetime(2026, 1, 5)  # noqa: DTZ001
    found = give({"people": [PEOPLE, ["K-1", "Ada", joined]]})
    assert found.sheets[0].rows[0][2] == date(2026, 1, 5)


def test_a_launch_at_midnight_is_an_instant(give: Give) -> None:
    launched = datetime(2026, 1, 5)  # noqa: DTZ001
    found = give({"sorties": [SORTIES, ["S-1", launched, 20, "live"]]})
    assert told(found) == []
    assert str(found.sheets[0].rows[0][1]) == "2026-01-05 00:00:00-05:00"


def test_a_launch_that_is_a_date_only_is_refused(give: Give) -> None:
    found = give({"sorties": [SORTIES, ["S-1", date(2026, 1, 5), 20, "live"]]})
    assert told(found) == [
        "book.xlsx!sorties:2: launched: '2026-01-05' is not a date with a time; write it as "
        "YYYY-MM-DDTHH:MM and the offset, such as 2026-11-25T06:40-05:00"
    ]


def test_a_launch_in_the_hour_that_comes_twice_is_refused(give: Give) -> None:
    launched = datetime(2026, 11, 1, 1, 30)  # noqa: DTZ001
    (sentence,) = told(give({"sorties": [SORTIES, ["S-1", launched, 20, "live"]]}))
    assert "2026-11-01T01:30 comes twice in America/Detroit" in sentence


def test_a_time_is_rounded_to_whole_seconds(give: Give) -> None:
    launched = datetime(2026, 1, 5, 6, 39, 59, 999000)  # noqa: DTZ001
    found = give({"sorties": [SORTIES, ["S-1", launched, 20, "live"]]})
    assert str(found.sheets[0].rows[0][1]) == "2026-01-05 06:40:00-05:00"


def test_a_key_that_was_typed_as_a_number_is_its_digits(give: Give) -> None:
    found = give({"people": [PEOPLE, [7, "Ada"], [8.0, "Bo"], [True, "Cy"], [time(6, 40), "Di"]]})
    assert [row[0] for row in found.sheets[0].rows] == ["7", "8", "TRUE", "06:40:00"]


def test_empty_rows_and_columns_at_the_edge_do_not_matter(give: Give) -> None:
    rows: list[list[object]] = [
        [],
        [*PEOPLE, None, " "],
        [],
        ["K-1", "Ada"],
        [None, " "],
        ["K-2", "Bo", None, None],
    ]
    found = give({"people": rows})
    assert told(found) == []
    assert list(found.sheets[0].lines) == [4, 6]


def test_a_cell_beside_the_last_column_is_refused(give: Give) -> None:
    found = give({"people": [PEOPLE, ["K-1", "Ada", None, None, "see note"]]})
    assert told(found) == [
        "book.xlsx!people:2: 'see note' stands to the right of the last column; "
        "name its column in the header row, or take it out"
    ]


def test_an_error_value_is_refused_and_told_once(give: Give) -> None:
    found = give({"people": [PEOPLE, ["K-1", "#N/A"]]})
    assert told(found) == [
        "book.xlsx!people:2: name: the cell holds the error #N/A; write the value itself"
    ]


def test_a_formula_without_a_value_is_refused(give: Give) -> None:
    found = give({"people": [PEOPLE, ["K-1", '="A"&"da"'], ["K-2", "Bo"]]})
    assert told(found) == [
        'book.xlsx!people:2: name: the formula \'="A"&"da"\' holds no value; '
        "let the spreadsheet work it out and save again, or write the value itself"
    ]
    assert [row[0] for row in found.sheets[0].rows] == ["K-1", "K-2"]


@pytest.mark.parametrize(
    ("cell", "name"),
    [
        (b'<c r="B2" t="str"><f>A2</f><v>Ada</v></c>', "Ada"),
        (b'<c r="B2"><f>1+1</f><v>2</v></c>', "2"),
    ],
)
def test_a_formula_counts_as_the_value_worked_out_for_it(
    tmp_path: Path, cell: bytes, name: str
) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "=A2"]]})
    rewrite(path, lambda part, old: old.replace(b'<c r="B2"><f>A2</f><v /></c>', cell))
    found = read([path], DETROIT, ignore)
    assert told(found) == []
    assert found.sheets[0].rows[0][1] == name


def test_a_formula_whose_value_is_an_empty_text_is_an_empty_cell(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "Ada", "=A2"]]})
    empty = b'<c r="C2" t="str"><f>A2</f><v></v></c>'
    rewrite(path, lambda part, old: old.replace(b'<c r="C2"><f>A2</f><v /></c>', empty))
    found = read([path], DETROIT, ignore)
    assert told(found) == []
    assert found.sheets[0].rows[0][2] is None


def test_text_that_looks_like_a_formula_is_kept_as_text(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.create_sheet("people")
    sheet.append(PEOPLE)
    sheet.append(["K-1", "x"])
    sheet["B2"].value = "=1+1"
    sheet["B2"].data_type = "s"
    book.save(tmp_path / "book.xlsx")
    found = read([tmp_path / "book.xlsx"], DETROIT, ignore)
    assert told(found) == []
    assert found.sheets[0].rows[0][1] == "=1+1"


def test_escaped_characters_are_read_as_what_they_stand_for(give: Give) -> None:
    remarks = [*SORTIES, "remarks"]
    row = ["S-1", "2026-01-05T10:00Z", 20, "live", None, None, "one_x000D_\ntwo"]
    found = give({"sorties": [remarks, row]})
    assert found.sheets[0].rows[0][-1] == "one\ntwo"


def test_a_sheet_of_an_unknown_name_is_refused_unless_it_is_empty(give: Give) -> None:
    found = give({"people": [PEOPLE], "Sheet2": [], "Persons": [["x"]], "peoples": [["x"]]})
    assert told(found) == [
        "book.xlsx!Persons: no kind of evidence is called 'Persons'; the sheets are people, "
        "assignments, vessels, aircraft, sorties, performances, signoffs, certifications, "
        "certificates, waivers, standdowns",
        "book.xlsx!peoples: no kind of evidence is called 'peoples'; did you mean 'people'?",
    ]


def test_an_empty_sheet_of_a_kind_is_refused(give: Give) -> None:
    assert told(give({"vessels": []})) == [
        "book.xlsx!vessels: it is empty; its first row names the columns: vessel,name,kind,length_m"
    ]


def test_a_sheet_and_a_file_of_one_kind_are_refused(tmp_path: Path) -> None:
    book = save(tmp_path / "book.xlsx", {"people": [PEOPLE]})
    (tmp_path / "people.csv").write_text("person,name\n", encoding="utf-8")
    found = read([tmp_path / "people.csv", book], DETROIT, ignore)
    assert told(found) == [
        f"{book}!people: people come from {tmp_path / 'people.csv'} already; "
        "put all of them into one file"
    ]


UNREADABLE = (
    "book.xlsx: it is not a workbook that can be read; "
    "open it in a spreadsheet and save it again as .xlsx, without a password"
)


@pytest.mark.parametrize("content", [b"", b"not a workbook", b"\xd0\xcf\x11\xe0 of old"])
def test_a_file_that_is_no_workbook_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "book.xlsx"
    path.write_bytes(content)
    assert told(read([path], DETROIT, ignore)) == [UNREADABLE]


def test_an_archive_of_something_else_is_refused(tmp_path: Path) -> None:
    with ZipFile(tmp_path / "book.xlsx", "w") as archive:
        archive.writestr("letter.txt", "hello")
    assert told(read([tmp_path / "book.xlsx"], DETROIT, ignore)) == [UNREADABLE]


def test_a_truncated_workbook_is_refused(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE]})
    path.write_bytes(path.read_bytes()[:-200])
    assert told(read([path], DETROIT, ignore)) == [UNREADABLE]


def test_a_sheet_that_is_damaged_is_placed(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "Ada"]]})
    rewrite(path, lambda part, old: old.replace(b"</sheetData>", b"</sheetDat>"))
    (sentence,) = told(read([path], DETROIT, ignore))
    assert sentence.startswith("book.xlsx!people:3: the workbook is damaged here; open it")


def test_a_part_that_unpacks_to_too_much_is_refused(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE]})
    bomb = b" " * (33 << 20)
    rewrite(path, lambda part, old: bomb if part.endswith("styles.xml") else old)
    assert path.stat().st_size < 100_000
    assert told(read([path], DETROIT, ignore)) == [
        "book.xlsx: it unpacks to too much: 'xl/styles.xml' holds 33 MiB; "
        "split it, or save its sheets as CSV"
    ]


def test_what_a_sheet_says_of_its_size_is_not_believed(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "Ada"]]})
    rewrite(path, lambda part, old: old.replace(b'ref="A1:C2"', b'ref="A1:XFD1048576"'))
    found = read([path], DETROIT, ignore)
    assert told(found) == []
    assert len(found.sheets[0].rows) == 1


def test_a_row_far_below_the_largest_sheet_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(workbook, "MOST_ROWS", 50)
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "Ada"]]})

    def far(part: str, old: bytes) -> bytes:
        return old.replace(b'r="2"', b'r="2000000000"').replace(b'"A2"', b'"A2000000000"')

    found = read([rewrite(path, far)], DETROIT, ignore)
    assert told(found) == ["book.xlsx!people: it has more than 50 rows; split it, or use CSV"]


def test_progress_is_told_up_to_the_last_row(tmp_path: Path) -> None:
    rows = [PEOPLE, *([f"K-{number}", "Ada"] for number in range(600))]
    seen: list[tuple[str, int, int]] = []
    path = save(tmp_path / "book.xlsx", {"people": rows})
    read([path], DETROIT, lambda *step: seen.append(step))
    assert seen[-1] == ("book.xlsx!people", 601, 601)
    assert len(seen) == 3


def test_a_sheet_of_an_unknown_name_that_is_damaged_is_refused_too(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"notes": []})
    rewrite(path, lambda part, old: old.replace(b"</worksheet>", b""))
    (sentence,) = told(read([path], DETROIT, ignore))
    assert sentence.startswith("book.xlsx!notes: no kind of evidence is called 'notes'")


def test_a_workbook_that_can_not_be_opened_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: Path) -> object:
        raise PermissionError(13, "Permission denied")

    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE]})
    monkeypatch.setattr(workbook_archive, "ZipFile", refuse)
    assert told(read([path], DETROIT, ignore)) == [
        "book.xlsx: it can't be read (Permission denied)"
    ]


def test_a_date_beyond_the_calendar_is_an_error_value(tmp_path: Path) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "Ada", date(2026, 1, 5)]]})
    rewrite(path, lambda part, old: old.replace(b"<v>46027</v>", b"<v>99999999</v>"))
    assert told(read([path], DETROIT, ignore)) == [
        "book.xlsx!people:2: joined: the cell holds the error #VALUE!; write the value itself"
    ]


def test_a_formula_is_found_wherever_it_stands_in_a_part(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = save(tmp_path / "book.xlsx", {"people": [PEOPLE, ["K-1", "=A2"]]})
    for piece in range(3, 9):
        monkeypatch.setattr(workbook_archive, "_PIECE", piece)
        assert "the formula '=A2' holds no value" in told(read([path], DETROIT, ignore))[0]


def test_times_of_day_and_other_values_are_text(give: Give) -> None:
    found = give({"people": [PEOPLE, ["K-1", timedelta(hours=30)]]})
    assert found.sheets[0].rows[0][1] == "1 day, 6:00:00"
