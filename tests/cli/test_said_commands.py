"""``occurrences`` and ``disputes``."""

import csv
import json
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path

import pytest

from crewtrack.facts import OCCURRENCES, PERFORMANCES, Value
from crewtrack.office import access, disputes, occurrences
from crewtrack.office.answering import Answer
from crewtrack.office.disputes import Objection
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from tests.cli.conftest import Ask

HAPPENED = datetime(2026, 3, 10, 15, 0, tzinfo=UTC)


@pytest.fixture
def told(own_unit: Path, ask: Ask) -> Path:
    """A record with an occurrence, a dispute, and one that is answered."""
    assert ask("--db", own_unit, "import", own_unit.parent / "evidence").code == 0
    values: dict[str, Value] = {
        "happened": HAPPENED,
        "what": "=close\nto the mast",
        "harm": ("damage",),
    }
    row = tuple(values.get(column.name, column.default) for column in OCCURRENCES.columns)
    with Office.open(own_unit) as office:
        occurrences.report(office, row, Order("K-01"), anonymous=True)
        for person, sortie in (("K-01", "S-3"), ("K-02", "S-2")):
            about = Objection(PERFORMANCES, (sortie, person, "hand-recovery"), "twice", person)
            disputes.raise_dispute(office, about, Order(person))
        disputes.answer(office, Answer("Q-0002", 1, "thrice", "K-03", "refused"), Order("K-03"))
    return own_unit


def test_occurrences_are_listed_with_their_answers(told: Path, ask: Ask) -> None:
    lines = ask("--db", told, "occurrences").out.splitlines()
    assert lines == [
        "R-0001, 2026-03-10 11:00, damage, without a name",
        "  =close to the mast",
        "  Answer: open",
    ]


def test_occurrences_go_out_as_json(told: Path, ask: Ask) -> None:
    (row,) = json.loads(ask("--db", told, "occurrences", "--format", "json").out)["rows"]
    assert row["happened"] == "2026-03-10T15:00Z"
    assert row["harm"] == ["damage"]
    assert row["reported_by"] is None


def test_a_spreadsheet_runs_nothing_of_what_was_reported(told: Path, ask: Ask) -> None:
    out = ask("--db", told, "occurrences", "--format", "csv").out
    (row,) = csv.DictReader(StringIO(out))
    assert row["what"] == "'=close\nto the mast"


def test_open_disputes_are_listed(told: Path, ask: Ask) -> None:
    lines = ask("--db", told, "disputes").out.splitlines()
    assert lines[0] == "Q-0001, Performance S-3, K-01, hand-recovery"
    assert lines[1].endswith("by K-01: twice")
    assert lines[2:] == ["  Answer: open"]


@pytest.mark.parametrize("form", ["json", "csv"])
def test_answered_ones_are_listed_where_asked_for(told: Path, ask: Ask, form: str) -> None:
    out = ask("--db", told, "disputes", "--all", "--format", form).out
    rows = json.loads(out)["rows"] if form == "json" else list(csv.DictReader(StringIO(out)))
    assert [(row["dispute"], row["outcome"] or "") for row in rows] == [
        ("Q-0002", "refused"), ("Q-0001", "")
    ]  # fmt: skip
    assert rows[1]["fact"] == "S-3 + K-01 + hand-recovery"


def test_where_there_are_none_that_is_said(own_unit: Path, ask: Ask) -> None:
    assert ask("--db", own_unit, "occurrences").out == "No occurrences have been reported.\n"
    assert ask("--db", own_unit, "disputes").out == "No disputes are open.\n"


def test_where_people_sign_in_occurrences_are_told_to_those_who_may_read_them(
    told: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = "heron lantern low tide"
    with Office.open(told) as office:
        access.give_access(office, "K-01", words, Order("K-01"))
        with access.signing(office, words):
            access.give_access(office, "K-02", words, Order("K-01"))
    monkeypatch.setenv("CREWTRACK_PASSPHRASE", words)
    nobody = ask("--db", told, "occurrences", "--by", "somebody")
    assert (nobody.code, nobody.out) == (2, "")
    pilot = ask("--db", told, "occurrences", "--by", "K-02")
    assert (pilot.code, pilot.out) == (2, "")
    assert "takes an officer or a chief" in pilot.err
    assert ask("--db", told, "occurrences", "--by", "K-01").out.startswith("R-0001")
    assert ask("--db", told, "disputes").code == 0
