"""Tests of one person's papers."""

from datetime import date

from crewtrack.engine.requirement import Certified
from crewtrack.facts import ASSIGNMENTS, CERTIFICATES, STANDDOWNS, WAIVERS, Row
from crewtrack.screens.person_facts import certificate_covers, fact_lines, fact_table
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules, within

ON = date(2026, 11, 25)
TITLES = {"pilot": "Deck pilot"}


def certificate(key: str, issued: str, expires: str = "", revoked: str = "") -> Row:
    days = [date.fromisoformat(text) if text else None for text in (issued, expires, revoked)]
    return (key, "K-01", "medical", *days, "N 1")


def stands(*rows: Row) -> dict[str, str]:
    return {str(line.row[0]): line.stands for line in fact_lines(CERTIFICATES, rows, "K-01", ON)}


def test_certificates_stand_newest_first_and_only_the_person_s() -> None:
    other = ("C-9", "K-02", "medical", date(2026, 1, 1), None, None, None)
    rows = (certificate("C-1", "2025-01-01"), certificate("C-2", "2026-01-01"), other)
    assert [line.key for line in fact_lines(CERTIFICATES, rows, "K-01", ON)] == [("C-2",), ("C-1",)]


def test_a_certificate_is_held_expired_revoked_or_later() -> None:
    told = stands(
        certificate("held", "2026-01-01", "2026-11-25"),
        certificate("expired", "2025-01-01", "2026-11-24"),
        certificate("revoked", "2026-01-01", "", "2026-11-25"),
        certificate("later", "2026-11-26"),
    )
    assert told == {
        "held": "held",
        "expired": "expired",
        "revoked": "revoked",
        "later": "later, does not count yet",
    }


def test_a_certificate_that_the_standard_asks_for_tells_how_long_it_counts() -> None:
    rules = Rules(
        {
            "pilot": (Certified("a", True, "medical", within("P1Y")),),
            "helm": (Certified("b", True, "medical", within("P2Y")), Certified("c", True, "boat")),
        }
    )
    bio = Bio(
        certificates=(
            "medical 2024-11-24 as:M-1",
            "medical 2026-01-01 as:M-2",
            "boat 2026-01-01 as:B-1",
            "other 2026-01-01 as:O-1",
        )
    )
    made = reckoning(rules, bios=(bio,))
    covers = certificate_covers(made.evidence.books["K-01"], made.editions.standards[0], ON)
    days = {"M-1": "2024-11-24", "M-2": "2026-01-01", "B-1": "2026-01-01", "O-1": "2026-01-01"}
    rows = tuple(certificate(key, day) for key, day in days.items())
    lines = fact_lines(CERTIFICATES, rows, "K-01", ON, covers)
    assert {line.row[0]: line.stands for line in lines} == {
        "M-1": "counted through 2026-11-24",
        "M-2": "counts through 2028-01-01",
        "B-1": "counts, no limit",
        "O-1": "held",
    }


def test_an_assignment_is_in_force_through_its_last_day() -> None:
    rows = tuple(
        ("K-01", "pilot", date(2026, 1, 1), last)
        for last in (None, date(2026, 11, 25), date(2026, 11, 24))
    )
    told = [line.stands for line in fact_lines(ASSIGNMENTS, rows, "K-01", ON)]
    assert sorted(told) == ["in force", "in force, until ended", "over"]


def test_a_qualification_is_told_by_its_title_and_none_as_all_of_them() -> None:
    rows = (
        ("D-1", "K-01", "pilot", date(2026, 1, 1), None, "wrist", "Ana"),
        ("D-2", "K-01", None, date(2025, 1, 1), None, "leave", "Ana"),
    )
    lines = fact_lines(STANDDOWNS, rows, "K-01", ON)
    first = fact_table(STANDDOWNS, lines, TITLES).columns[0]
    assert [first.text(line) for line in lines] == ["Deck pilot", "all of them"]


def test_a_waiver_shows_kind_requirement_grounds_and_where_it_stands() -> None:
    row = (
        "W-1", "K-01", "pilot", "medical", date(2026, 11, 1), date(2026, 12, 1), "yard", "Ana",
        "extension",
    )  # fmt: skip
    lines = fact_lines(WAIVERS, (row,), "K-01", ON)
    told = [column.text(lines[0]) for column in fact_table(WAIVERS, lines, TITLES).columns]
    assert told == [
        "extension", "in force", "Deck pilot", "medical", "2026-11-01", "2026-12-01", "Ana", "yard",
        "W-1",
    ]  # fmt: skip
