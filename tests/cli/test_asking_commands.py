"""``roster``, ``history`` and ``why``."""

import csv
import io
import json
import sys
from pathlib import Path

import pytest

from crewtrack.office.office import Office
from tests.cli.conftest import Ask

ON = "2026-11-25"


def test_a_roster_in_a_pipe_is_a_line_for_each_standing(ask: Ask, small_unit: Path) -> None:
    lines = ask("roster", "--on", ON, "--db", small_unit).out.splitlines()
    assert [line.split()[:5] for line in lines if not line.startswith("#")][1:] == [
        ["K-01", "deck-pilot", "current", "2026-11-10", "2027-02-08"],
        ["K-02", "deck-pilot", "due", "2026-09-04", "2026-12-03"],
        ["K-03", "deck-pilot", "lapsed", "2026-11-02", "-"],
    ]


def test_a_roster_on_a_terminal_is_a_table(
    ask: Ask, small_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.cli.asking_commands.on_terminal", lambda: True)
    answer = ask("roster", "--on", ON, "--db", small_unit)
    assert "K-02 Олена Ґедзь  ▲ due" in answer.out


def test_a_roster_as_json_has_the_promised_keys(ask: Ask, small_unit: Path) -> None:
    told = json.loads(ask("roster", "--on", ON, "--format", "json", "--db", small_unit).out)
    assert {key: told[key] for key in ("on", "known_at", "unit", "edition")} == {
        "on": ON,
        "known_at": None,
        "unit": "Small unit",
        "edition": "2026-1",
    }
    assert told["rows"][2] == {
        "person": "K-02",
        "name": "Олена Ґедзь",
        "qualification": "deck-pilot",
        "standing": "due",
        "since": "2026-09-04",
        "through": "2026-12-03",
        "limiting": ["recency"],
        "by_waiver": [],
    }


def test_a_roster_as_csv_can_be_read_back(ask: Ask, small_unit: Path) -> None:
    told = ask("roster", "--on", ON, "--format", "csv", "--db", small_unit).out
    rows = list(csv.DictReader(io.StringIO(told)))
    assert rows[2]["name"] == "Олена Ґедзь"
    assert len(rows) == 6


def test_a_roster_as_pdf_goes_to_a_pipe(
    small_unit: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    from crewtrack.cli.outcome import run

    assert run(["roster", "--on", ON, "--format", "pdf", "--db", str(small_unit)]) == 0
    assert capfdbinary.readouterr().out.startswith(b"%PDF-")


def test_a_roster_as_pdf_does_not_go_to_a_terminal(
    ask: Ask, small_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.cli.results.on_terminal", lambda: True)
    answer = ask("roster", "--on", ON, "--format", "pdf", "--db", small_unit)
    assert answer.code == 2
    assert "--out FILE" in answer.err


def test_a_roster_is_printed_on_either_paper(ask: Ask, small_unit: Path, tmp_path: Path) -> None:
    for paper in ("A4", "letter"):
        file = tmp_path / f"{paper}.pdf"
        order = ("--paper", paper, "--by", "Ana", "--out", file)
        assert ask("roster", "--on", ON, *order, "--db", small_unit).code == 0
    assert (tmp_path / "A4.pdf").read_bytes() != (tmp_path / "letter.pdf").read_bytes()


def test_nothing_is_known_before_the_record_was_made(ask: Ask, small_unit: Path) -> None:
    answer = ask("roster", "--on", ON, "--known-at", "2020-01-01", "--db", small_unit)
    assert answer.code == 2
    assert answer.err.startswith("--known-at: ")


def test_an_instant_that_is_none_is_refused(ask: Ask, small_unit: Path) -> None:
    answer = ask("roster", "--known-at", "2026-03-08T02:30", "--db", small_unit)
    assert answer.code == 2
    assert "America/Detroit skips" in answer.err


@pytest.mark.parametrize("command", [("roster",), ("history",), ("why", "K-02", "deck-pilot")])
def test_what_will_be_known_in_the_end_is_not_known_now(
    ask: Ask, small_unit: Path, command: tuple[str, ...]
) -> None:
    answer = ask(*command, "--known-at", "9000-01-01", "--db", small_unit)
    assert (answer.code, answer.out) == (2, "")
    assert "the record can't know yet" in answer.err


def test_a_history_as_known_at_an_instant_says_so_first(ask: Ask, own_unit: Path) -> None:
    today = Office.open(own_unit).today()
    lines = ask("history", "--known-at", f"{today}", "--db", own_unit).out.splitlines()
    assert lines[0].startswith("# history, as known at ")
    assert lines[1] == "person  qualification  first  last"


def test_a_history_has_a_line_for_each_span(ask: Ask, small_unit: Path) -> None:
    assert ask("history", "--db", small_unit).out.splitlines() == [
        "person  qualification  first       last",
        "K-01    deck-pilot     2026-11-10  2027-02-08",
        "K-02    deck-pilot     2026-09-04  2026-12-03",
        "K-03    deck-pilot     2026-08-03  2026-11-01",
    ]


def test_a_history_as_json_has_the_promised_keys(ask: Ask, small_unit: Path) -> None:
    answer = ask("history", "--person", "K-02", "--format", "json", "--db", small_unit)
    assert json.loads(answer.out) == {
        "rows": [
            {
                "person": "K-02",
                "qualification": "deck-pilot",
                "spans": [["2026-09-04", "2026-12-03"]],
            }
        ]
    }


def test_a_history_as_csv_can_be_read_back(ask: Ask, small_unit: Path) -> None:
    told = ask("history", "--format", "csv", "--db", small_unit).out
    assert [row["person"] for row in csv.DictReader(io.StringIO(told))] == ["K-01", "K-02", "K-03"]


@pytest.mark.parametrize(
    ("option", "given", "cure"),
    [("--person", "K-2", "K-02"), ("--qualification", "deck-pilt", "deck-pilot")],
)
def test_a_name_that_is_not_known_is_refused_with_a_likely_one(
    ask: Ask, small_unit: Path, option: str, given: str, cure: str
) -> None:
    answer = ask("history", option, given, "--db", small_unit)
    assert answer.code == 2
    assert answer.err.startswith(f"{option}: ")
    assert cure in answer.err


def test_why_opens_a_standing_down_to_its_evidence(ask: Ask, small_unit: Path) -> None:
    lines = ask("why", "K-02", "deck-pilot", "--on", ON, "--db", small_unit).out.splitlines()
    assert lines[0] == "K-02 Олена Ґедзь, Deck pilot (deck-pilot) on 2026-11-25, by edition 2026-1"
    assert lines[1] == "▲ due, since 2026-09-04, through 2026-12-03"
    assert any("2026-09-04 performance S-2" in line for line in lines)


def test_why_as_json_names_the_standing(ask: Ask, small_unit: Path) -> None:
    order = ("--on", ON, "--format", "json")
    told = json.loads(ask("why", "K-03", "deck-pilot", *order, "--db", small_unit).out)
    assert (told["person"], told["standing"], told["on"]) == ("K-03", "lapsed", ON)


def test_why_on_a_terminal_keeps_to_its_width(
    ask: Ask, small_unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewtrack.cli.asking_commands.on_terminal", lambda: True)
    monkeypatch.setattr("crewtrack.cli.asking_commands.width", lambda: 60)
    told = ask("why", "K-02", "deck-pilot", "--on", ON, "--db", small_unit).out
    assert max(map(len, told.splitlines())) <= 60


def test_why_asks_for_a_person_that_is_there(ask: Ask, small_unit: Path) -> None:
    answer = ask("why", "K-99", "deck-pilot", "--db", small_unit)
    assert answer.code == 2
    assert "K-99" in answer.err


def test_a_file_that_is_no_record_is_told_in_a_sentence(ask: Ask, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("no record" * 1000, encoding="utf-8")
    answer = ask("roster", "--db", tmp_path / "letter.txt")
    assert answer.code == 3
    assert len(answer.err.splitlines()) == 1


def test_the_same_words_go_to_a_pipe_whatever_the_machines_encoding(
    ask: Ask, small_unit: Path
) -> None:
    import os
    import subprocess

    done = subprocess.run(
        [sys.executable, "-m", "crewtrack", "roster", "--on", ON, "--db", str(small_unit)],
        env={**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"},
        capture_output=True,
        check=True,
    )
    assert "Олена Ґедзь" in done.stdout.decode("utf-8")
    assert b"\r" not in done.stdout
