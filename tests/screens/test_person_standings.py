"""Tests of one person's standings."""

from datetime import date

from crewtrack.engine.requirement import Certified
from crewtrack.screens.person_standings import (
    StandingLine,
    sentence,
    standing_lines,
    standings_table,
)
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules, within

RULES = Rules(
    {
        "pilot": (Certified("medical", True, "medical", within("P1Y")),),
        "helm": (Certified("licence", True, "licence"),),
        "other": (Certified("x", True, "x"),),
    }
)
BIO = Bio(
    assigned=("pilot 2026-01-01..", "helm 2026-01-01.."),
    certificates=("medical 2026-01-10", "medical 2027-02-01"),
)


def lines(on: str, bio: Bio = BIO) -> tuple[StandingLine, ...]:
    return standing_lines(reckoning(RULES, bios=(bio,)), "K-01", date.fromisoformat(on))


def test_a_line_for_each_qualification_that_was_ever_assigned_by_then() -> None:
    assert [line.qualification for line in lines("2026-11-25")] == ["pilot", "helm"]
    assert not lines("2025-11-25")


def test_all_qualifications_can_be_asked_for() -> None:
    told = standing_lines(reckoning(RULES, bios=(BIO,)), "K-01", date(2026, 11, 25), True)
    assert [line.standing.word for line in told] == ["current", "training", "none"]


def test_spans_count_only_what_was_known_by_the_day() -> None:
    early, late = lines("2026-11-25")[0].spans, lines("2027-03-01")[0].spans
    assert [(span.first, span.last) for span in early] == [(date(2026, 1, 10), date(2027, 1, 10))]
    assert [span.first for span in late] == [date(2026, 1, 10), date(2027, 2, 1)]


def test_stand_downs_and_time_off_the_books_are_taken_out_of_the_spans() -> None:
    bio = Bio(
        assigned=BIO.assigned,
        certificates=BIO.certificates,
        standdowns=("pilot 2026-03-01..2026-03-31",),
        left="2026-10-01",
    )
    spans = lines("2026-09-25", bio)[0].spans
    assert [span.first for span in spans] == [date(2026, 1, 10), date(2026, 4, 1)]
    assert spans[-1].last == date(2026, 10, 1)


def test_a_line_is_one_sentence() -> None:
    current, training = lines("2026-11-25")
    assert sentence(current) == "pilot: current through 2027-01-10"
    assert sentence(training) == "helm: training"
    assert sentence(lines("2027-01-20")[0]) == "pilot: lapsed since 2027-01-11"


def test_the_table_bears_the_word_and_the_date() -> None:
    told = lines("2026-11-25")
    table = standings_table(told)
    assert [column.text(told[0]) for column in table.columns] == [
        "pilot",
        "current",
        "2027-01-10",
        "2026-01-10 to 2027-01-10",
    ]
    word = table.columns[1].word
    assert word is not None
    assert word(told[1]) == "training"


def test_what_rests_on_a_waiver_bears_its_letter() -> None:
    bio = Bio(assigned=("pilot 2026-01-01..",), waivers=("pilot medical 2026-11-01..2026-12-31",))
    told = lines("2026-11-25", bio)
    assert standings_table(told).columns[1].text(told[0]) == "current W"
