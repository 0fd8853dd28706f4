"""Files of evidence in: what each file gives, and the sentence told of each fault."""

import gc
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from crewtrack.facts import KINDS
from crewtrack.files.evidence_files import ReadEvidence, read
from crewtrack.files.sheet_rows import MOST_FAULTS, ReadSheet

DETROIT = ZoneInfo("America/Detroit")
NAMES = ", ".join(f"{kind.name}.csv" for kind in KINDS)
PERFORMANCES = "sortie,person,task,times,supervisor\n"

Give = Callable[..., ReadEvidence]


def ignore(place: str, done: int, total: int) -> None:
    """Progress that nobody watches."""


@pytest.fixture
def give(tmp_path: Path) -> Give:
    """Write one file and read it."""

    def give(name: str, content: str | bytes) -> ReadEvidence:
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return read([path], DETROIT, ignore)

    return give


def told(evidence: ReadEvidence) -> list[str]:
    return [str(fault) for fault in evidence.faults]


def only(evidence: ReadEvidence) -> ReadSheet:
    (sheet,) = evidence.sheets
    return sheet


def test_a_row_is_read_in_the_order_of_the_kinds_columns(give: Give) -> None:
    found = give("people.csv", "name,person,joined\nAda,K-1,2026-01-05\n")
    assert told(found) == []
    sheet = only(found)
    assert sheet.kind.name == "people"
    assert sheet.rows == [("K-1", "Ada", date(2026, 1, 5), None, None, None, ())]
    assert list(sheet.lines) == [2]
    assert sheet.at(0) == "people.csv:2"
    assert sheet.whole
    assert sheet.faulty == frozenset()


def test_a_performance_without_times_was_done_once(give: Give) -> None:
    found = give("performances.csv", "sortie,person,task\nS-1,K-1,deck-launch\n")
    assert only(found).rows == [("S-1", "K-1", "deck-launch", 1, None, None, None, None)]


def test_an_instant_without_an_offset_is_read_in_the_units_zone(give: Give) -> None:
    found = give("sorties.csv", "sortie,launched,minutes,setting\nS-1,2026-11-25T06:40,20,live\n")
    assert only(found).rows[0][1] == datetime(2026, 11, 25, 11, 40, tzinfo=UTC)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_line_end_is_taken(give: Give, end: str) -> None:
    found = give("people.csv", f"person,name{end}K-1,Ada{end}{end}K-2,Bo{end},{end}K-3,Cy")
    assert told(found) == []
    assert [row[0] for row in only(found).rows] == ["K-1", "K-2", "K-3"]
    assert list(only(found).lines) == [2, 4, 6]


def test_a_byte_order_mark_is_taken(give: Give) -> None:
    found = give("people.csv", b"\xef\xbb\xbfperson,name\r\nK-1,Ada\r\n")
    assert told(found) == []


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_row_is_placed_on_the_line_where_it_starts(give: Give, end: str) -> None:
    rows = [
        "sortie,launched,minutes,setting,remarks",
        f'S-1,2026-01-01T10:00Z,20,live,"one{end}two{end}{end}four"',
        "S-2,2026-01-01T11:00Z,20,live,",
        "",
        "S-3,2026-01-01T12:00Z,-5,live,",
    ]
    found = give("sorties.csv", end.join(rows))
    assert list(only(found).lines) == [2, 6, 8]
    assert only(found).rows[0][-1] == "one\ntwo\n\nfour"
    assert told(found) == [
        "sorties.csv:8: minutes: -5: the sortie ends before it starts; "
        "write a whole number from 0 to 1440"
    ]


def test_rows_are_placed_rightly_throughout_a_long_file(give: Give) -> None:
    rows = [f'S-{n},2026-01-01T10:00Z,{"x" if n == 900 else 5},live,"a\nb"' for n in range(1000)]
    found = give("sorties.csv", "\n".join(["sortie,launched,minutes,setting,remarks", *rows]))
    assert found.faults[0].place == "sorties.csv:1802"
    assert len(only(found).rows) == 1000
    assert only(found).faulty == frozenset({900})


def test_a_header_without_rows_is_a_file_without_evidence(give: Give) -> None:
    found = give("people.csv", "person,name\n")
    assert told(found) == []
    assert list(only(found).rows) == []
    assert only(found).whole


@pytest.mark.parametrize("content", ["", "\n\n", "\ufeff"])
def test_an_empty_file_is_refused(give: Give, content: str) -> None:
    found = give("vessels.csv", content)
    assert told(found) == [
        "vessels.csv: it is empty; its first row names the columns: vessel,name,kind,length_m"
    ]
    assert not only(found).whole


def test_capitals_and_blanks_in_the_header_do_not_matter(give: Give) -> None:
    assert told(give("people.csv", "Person, NAME \nK-1,Ada\n")) == []


def test_a_missing_column_is_named(give: Give) -> None:
    found = give("performances.csv", "sortie,person\nS-1,K-1\n")
    assert told(found) == [
        "performances.csv:1: task: the column is missing; add it to the header row"
    ]
    assert not only(found).whole


def test_an_unknown_column_is_named_with_the_one_that_may_be_meant(give: Give) -> None:
    found = give("performances.csv", "sortie,person,tasks,task,grade\nS-1,K-1,,deck-launch,5\n")
    assert told(found) == [
        "performances.csv:1: no column 'tasks' is known here; the columns are sortie, person, "
        "task, times, supervisor, attempts, waveoffs, stood",
        "performances.csv:1: no column 'grade' is known here; the columns are sortie, person, "
        "task, times, supervisor, attempts, waveoffs, stood",
    ]
    found = give("sorties.csv", "sortie,launched,minutes,setting,wind from\n")
    assert told(found) == [
        "sorties.csv:1: no column 'wind from' is known here; did you mean 'wind_from'?"
    ]


def test_a_column_that_is_there_twice_is_refused(give: Give) -> None:
    assert told(give("people.csv", "person,name,Person\nK-1,Ada,K-1\n")) == [
        "people.csv:1: person: the column is there twice; take one of them out"
    ]


def test_a_column_without_a_name_is_refused(give: Give) -> None:
    assert told(give("people.csv", "person,name,\nK-1,Ada,\n")) == [
        "people.csv:1: column 3 has no name; name it, or take it out"
    ]


@pytest.mark.parametrize(
    ("separator", "word"), [(";", "semicolons"), ("\t", "tabs"), ("|", "bars")]
)
def test_a_file_with_other_separators_is_told_so(give: Give, separator: str, word: str) -> None:
    rows = [["person", "name", "duties"], ["K-1", "Ada, B", "pilot"]]
    found = give("people.csv", "\n".join(separator.join(row) for row in rows))
    assert told(found) == [
        f"people.csv:1: its cells are separated by {word}, not by commas; "
        "save it as CSV with commas, or as a workbook (.xlsx)"
    ]


def test_a_header_of_which_nothing_is_known_ends_the_reading(give: Give) -> None:
    found = give("people.csv", "K-1,Ada\nK-2,Bo\n")
    assert list(only(found).rows) == []
    assert "people.csv:1: person: the column is missing; add it to the header row" in told(found)


def test_a_byte_that_is_not_utf_8_is_told_with_its_line_and_column(give: Give) -> None:
    found = give("people.csv", "person,name\nK-1,Ada\nK-2,Andr\u00e9\n".encode("latin-1"))
    assert told(found) == [
        "people.csv:3: name: 'Andr\\xe9' holds the byte 0xE9, which is not UTF-8; "
        "save the file as CSV UTF-8"
    ]
    assert only(found).rows[0][0] == "K-1"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le"])
def test_a_file_in_utf_16_is_told_so(give: Give, encoding: str) -> None:
    assert told(give("people.csv", "person,name\nK-1,Ada\n".encode(encoding))) == [
        "people.csv: it is not UTF-8 text (it looks like UTF-16); save it as CSV UTF-8"
    ]


def test_a_nul_byte_in_a_cell_is_refused(give: Give) -> None:
    assert told(give("people.csv", b"person,name\nK-1,A\x00da\n")) == [
        "people.csv:2: name: 'A\\x00da' holds the control character U+0000; take it out"
    ]


def test_a_row_with_too_many_cells_is_refused(give: Give) -> None:
    found = give("performances.csv", PERFORMANCES + "S-1,K-1,deck-launch,1,,47,12\n")
    assert told(found) == [
        "performances.csv:2: the row has 7 cells where the header has 5; "
        "put quotes around a cell that holds a comma"
    ]


def test_a_row_with_too_few_cells_is_refused(give: Give) -> None:
    found = give("performances.csv", PERFORMANCES + "S-1,K-1,deck-launch\n")
    assert told(found) == [
        "performances.csv:2: the row has 3 cells where the header has 5; "
        "keep a comma for each empty cell"
    ]
    assert only(found).rows[0][:3] == ("S-1", "K-1", "deck-launch")


def test_quotes_that_are_never_closed_are_placed_where_their_row_starts(give: Give) -> None:
    found = give("people.csv", 'person,name\nK-1,Ada\nK-2,"Bo\nK-3,Cy\n')
    assert told(found) == [
        "people.csv:3: a quote is opened in this row and never closed; "
        'close it with " at the end of the cell, and write a quote inside it twice: ""'
    ]
    assert [row[0] for row in only(found).rows] == ["K-1"]
    assert not only(found).whole


def test_quotes_that_are_never_closed_in_a_long_file_are_told_alike(give: Give) -> None:
    rest = "".join(f"K-{number},somebody\n" for number in range(20_000))
    found = give("people.csv", 'person,name\nK-a,"Ada\n' + rest)
    assert told(found)[0].startswith("people.csv:2: a quote is opened in this row and never closed")


def test_text_after_a_closing_quote_is_refused(give: Give) -> None:
    assert told(give("people.csv", 'person,name\nK-1,"Ada "the" first"\n')) == [
        "people.csv:2: something follows a closing quote; "
        'put the whole cell in quotes, and write a quote inside it twice: ""'
    ]


@pytest.mark.parametrize(
    ("cells", "sentence"),
    [
        (
            "S-1,2026-02-30T10:00Z,20,live,,,,",
            "launched: there is no 2026-02-30; February 2026 has 28 days",
        ),
        (
            "S-1,2026-03-08T02:30,20,live,,,,",
            "launched: America/Detroit skips 2026-03-08T02:30; write the time that the clock "
            "showed: 2026-03-08T03:30-04:00 (by the old offset) or 2026-03-08T01:30-05:00 "
            "(by the new one)",
        ),
        (
            "S-1,2026-11-01T01:30,20,live,,,,",
            "launched: 2026-11-01T01:30 comes twice in America/Detroit; write "
            "2026-11-01T01:30-04:00 for the first or 2026-11-01T01:30-05:00 for the second",
        ),
        (
            "S-1,2026-01-01T10:00Z,-20,live,,,,",
            "minutes: -20: the sortie ends before it starts; write a whole number from 0 to 1440",
        ),
        (
            "S-1,2026-01-01T10:00Z,20,live,12,,,",
            "sea: 12 is more than 9; write a whole number from 0 to 9",
        ),
        (
            "S-1,2026-01-01T10:00Z,20,live,,400,,",
            "wind_from: 400 is more than 360; write a number from 0 to 360",
        ),
        (
            "S-1,2026-01-01T10:00Z,20,live,,,91,-88",
            "lat: 91 is more than 90; write a number from -90 to 90",
        ),
        (
            'S-1,2026-01-01T10:00Z,20,live,,,"47,12",-88',
            "lat: '47,12' is not a number; write a decimal point: 47.12",
        ),
        (
            "S-1,2026-01-01T10:00Z,20,live,,,47.1,",
            "lat: it is given without lon; write both, or neither",
        ),
        (
            "S-1,2026-01-01T10:00Z,,live,,,,",
            "minutes: the cell is empty; it is required in every row",
        ),
        (
            f"{'S' * 41},2026-01-01T10:00Z,20,live,,,,",
            f"sortie: '{'S' * 39}…' is 41 characters long; at most 40 fit here",
        ),
    ],
)
def test_a_wrong_cell_of_a_sortie_is_told_with_place_value_and_cure(
    give: Give, cells: str, sentence: str
) -> None:
    header = "sortie,launched,minutes,setting,sea,wind_from,lat,lon\n"
    found = give("sorties.csv", header + cells + "\n")
    assert told(found) == [f"sorties.csv:2: {sentence}"]
    assert only(found).faulty == frozenset({0})


def test_somebody_who_supervises_himself_or_herself_is_refused(give: Give) -> None:
    assert told(give("performances.csv", PERFORMANCES + "S-1,K-1,deck-launch,1,K-1\n")) == [
        "performances.csv:2: supervisor: 'K-1' supervises himself or herself; name somebody else"
    ]


def test_somebody_who_evaluates_himself_or_herself_is_refused(give: Give) -> None:
    content = (
        "signoff,person,task,date,level,result,evaluator\n"
        "E-1,K-1,deck-launch,2026-01-01,alone,passed,K-1\n"
    )
    assert told(give("signoffs.csv", content)) == [
        "signoffs.csv:2: evaluator: 'K-1' evaluates himself or herself; name somebody else"
    ]


def test_a_name_of_40_000_characters_is_refused(give: Give) -> None:
    assert told(give("people.csv", f"person,name\nK-1,{'x' * 40_000}\n")) == [
        f"people.csv:2: name: '{'x' * 39}…' is 40,000 characters long; at most 200 fit here"
    ]


def test_a_duty_that_is_not_known_is_refused(give: Give) -> None:
    assert told(give("people.csv", "person,name,duties\nK-1,Ada,pilot;handlers\n")) == [
        "people.csv:2: duties: 'handlers' is not one of pilot, observer, handler, helm, "
        "evaluator, officer, chief; did you mean 'handler'?"
    ]


def test_a_duplicate_key_names_both_lines(give: Give) -> None:
    found = give("people.csv", "person,name\nK-1,Ada\nK-2,Bo\nK-1,Cy\nK-1,Di\n")
    assert told(found) == [
        "people.csv:4: person: person 'K-1' is already in line 2; keep one of the two rows",
        "people.csv:5: person: person 'K-1' is already in line 2; keep one of the two rows",
    ]
    assert only(found).faulty == frozenset({2, 3})


def test_a_duplicate_key_of_several_columns_names_both_lines(give: Give) -> None:
    row = "S-1,K-1,deck-launch,1,\n"
    assert told(give("performances.csv", PERFORMANCES + row + row)) == [
        "performances.csv:3: performance 'S-1', 'K-1', 'deck-launch' is already in line 2; "
        "keep one of the two rows"
    ]


def test_keys_that_could_not_be_read_are_no_duplicates(give: Give) -> None:
    found = give("people.csv", "person,name\n,Ada\n,Bo\n")
    assert told(found) == [
        "people.csv:2: person: the cell is empty; it is required in every row",
        "people.csv:3: person: the cell is empty; it is required in every row",
    ]


def test_every_fault_of_every_row_is_told_at_once(give: Give) -> None:
    found = give("people.csv", "person,name,joined\n,Ada,2026-13-01\nK-2,\x07,2026-01-01\n")
    assert [fault.field for fault in found.faults] == ["person", "joined", "name"]
    assert [fault.place for fault in found.faults] == [f"people.csv:{line}" for line in (2, 2, 3)]


def test_text_that_looks_like_a_formula_is_kept_as_text(give: Give) -> None:
    found = give("people.csv", "person,name\nK-1,=1+1\nK-2,'=1+1\nK-3,''=1+1\nK-4,'tis\n")
    assert [row[1] for row in only(found).rows] == ["=1+1", "=1+1", "'=1+1", "'tis"]


def test_reading_stops_after_very_many_faults_and_says_so(give: Give) -> None:
    rows = "".join(f"K-{n},Ada,x\n" for n in range(MOST_FAULTS + 500))
    found = give("people.csv", "person,name,joined\n" + rows)
    assert len(found.faults) == MOST_FAULTS + 1
    assert str(found.faults[-1]).endswith(
        "people.csv: reading stopped at 10,000 faults; "
        "mend those that are listed, and read the file again"
    )


def test_a_file_of_an_unknown_name_is_refused_with_the_names_that_are_known(give: Give) -> None:
    assert told(give("foo.csv", "a,b\n")) == [
        f"foo.csv: no kind of evidence has this name; the files are {NAMES}"
    ]
    assert told(give("performance.csv", "a,b\n")) == [
        "performance.csv: no kind of evidence has this name; did you mean 'performances.csv'?"
    ]


def test_capitals_in_a_files_name_do_not_matter(give: Give) -> None:
    assert told(give("People.CSV", "person,name\nK-1,Ada\n")) == []


def test_a_file_of_another_program_is_refused_with_a_cure(give: Give) -> None:
    assert told(give("people.ods", "x")) == [
        "people.ods: .ods files can't be read; save it as CSV UTF-8 or as .xlsx"
    ]


def test_a_workbook_called_csv_is_told_so(give: Give) -> None:
    assert told(give("people.csv", b"PK\x03\x04rest")) == [
        "people.csv: it is a workbook or an archive, not CSV; name it .xlsx, or save as CSV"
    ]


def test_a_path_that_is_not_there_is_told(tmp_path: Path) -> None:
    missing = tmp_path / "people.csv"
    found = read([missing], DETROIT, ignore)
    assert told(found) == [f"{missing}: no such file or folder"]


def write(folder: Path, **files: str) -> None:
    folder.mkdir(exist_ok=True)
    for name, content in files.items():
        (folder / f"{name}.csv").write_text(content, encoding="utf-8")


def test_a_folder_gives_its_files_each_after_those_it_refers_to(tmp_path: Path) -> None:
    write(tmp_path, performances=PERFORMANCES, people="person,name\n", vessels="vessel,name\n")
    (tmp_path / "standard-2026-1.toml").touch()
    (tmp_path / ".people.csv").touch()
    found = read([tmp_path], DETROIT, ignore)
    assert told(found) == []
    assert [sheet.kind.name for sheet in found.sheets] == ["people", "vessels", "performances"]


def test_a_folder_without_a_known_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").touch()
    assert told(read([tmp_path], DETROIT, ignore)) == [
        f"{tmp_path}: the folder holds no file of evidence; the files are {NAMES}"
    ]


def test_a_workbook_in_a_folder_has_to_be_named_itself(tmp_path: Path) -> None:
    (tmp_path / "unit.xlsx").touch()
    assert told(read([tmp_path], DETROIT, ignore)) == [
        f"{tmp_path}: the folder holds no file of evidence; name the workbook itself: unit.xlsx"
    ]


def test_two_files_of_one_kind_are_refused(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    write(one, people="person,name\n")
    write(other, people="person,name\n")
    found = read([one, other / "people.csv"], DETROIT, ignore)
    assert told(found) == [
        f"{other / 'people.csv'}: people come from {one / 'people.csv'} already; "
        "put all of them into one file"
    ]


def test_the_same_file_named_twice_is_read_once(tmp_path: Path) -> None:
    write(tmp_path, people="person,name\nK-1,Ada\n")
    found = read([tmp_path, tmp_path / "people.csv"], DETROIT, ignore)
    assert told(found) == []
    assert len(found.sheets) == 1


def test_progress_is_told_up_to_the_end(tmp_path: Path) -> None:
    content = "person,name\n" + "".join(f"K-{n},Ada\n" for n in range(50_000))
    write(tmp_path, people=content)
    seen: list[tuple[str, int, int]] = []
    read([tmp_path], DETROIT, lambda *step: seen.append(step))
    assert seen[-1] == ("people.csv", len(content), len(content))
    assert len(seen) > 2
    assert [done for _, done, _ in seen] == sorted(done for _, done, _ in seen)


def test_equal_cells_share_one_value(give: Give) -> None:
    rows = "".join(f"S-{n},K-1,deck-launch,1,K-2\n" for n in range(600))
    sheet = only(give("performances.csv", PERFORMANCES + rows))
    assert len({id(row[1]) for row in sheet.rows}) == 1
    assert len({id(row[2]) for row in sheet.rows}) == 1


def test_a_file_that_can_not_be_opened_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, people="person,name\n")

    def refuse(*_: object, **__: object) -> object:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("crewtrack.files.written_rows.TextIOWrapper", refuse)
    assert told(read([tmp_path], DETROIT, ignore)) == [
        "people.csv: it can't be read (Permission denied)"
    ]


def test_a_folder_that_can_not_be_listed_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: Path) -> object:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", refuse)
    assert told(read([tmp_path], DETROIT, ignore)) == [
        f"{tmp_path}: it can't be read (Permission denied)"
    ]


def test_a_column_of_more_values_than_are_remembered_is_read_all_the_same(
    give: Give, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.files.sheet_rows._REMEMBERED", 10)
    rows = "".join(f"K-{n},Ada\n" for n in range(100))
    found = give("people.csv", "person,name\n" + rows)
    assert told(found) == []
    assert [row[0] for row in only(found).rows] == [f"K-{n}" for n in range(100)]


def test_the_cycle_collector_runs_again_after_reading(give: Give) -> None:
    give("people.csv", "person,name\n")
    assert gc.isenabled()


def test_rows_too_long_and_too_short_are_told_beside_right_ones(give: Give) -> None:
    rows = ["S-1,K-1,deck-launch,1,", "S-2,K-1,deck-launch", "S-3,K-1,deck-launch,1,,,"]
    found = give("performances.csv", PERFORMANCES + "\n".join(rows))
    assert [fault.place for fault in found.faults] == ["performances.csv:3", "performances.csv:4"]
    assert only(found).faulty == frozenset({1, 2})


def test_a_first_row_of_very_many_cells_is_one_fault(give: Give) -> None:
    header = ",".join(f"c{number}" for number in range(100_000))
    (sentence,) = told(give("people.csv", f"{header}\nK-1,Ada\n"))
    assert sentence.startswith(
        "people.csv:1: its first row has 100,000 cells; the columns are person"
    )


def test_a_cell_that_never_ends_is_told_as_that(give: Give) -> None:
    assert told(give("people.csv", f"person,name\nK-1,Ada\nK-2,{'x' * 200_000}\n")) == [
        "people.csv:3: a cell holds more than 131,072 characters; no cell needs so many; shorten it"
    ]
