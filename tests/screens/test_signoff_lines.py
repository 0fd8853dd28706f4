"""Tests of a person's sign-offs as lines."""

from datetime import date

from crewtrack.facts import Row
from crewtrack.screens.signoff_lines import SignOffLine, sentence, signoff_lines, signoff_table

ON = date(2026, 11, 25)


def row(key: str, day: str, remarks: str | None = None, withdrawn: str = "") -> Row:
    away = date.fromisoformat(withdrawn) if withdrawn else None
    by, why = ("Ana", "lapsed evaluator") if withdrawn else (None, None)
    when = date.fromisoformat(day)
    return (
        key, "K-01", "catch", when, "alone", "not-yet", "K-09", "S-1", remarks, away, by, why,
    )  # fmt: skip


def lines(*rows: Row) -> tuple[SignOffLine, ...]:
    return signoff_lines(rows, "K-01", ON, {"catch": "Hand recovery"}, {"K-09": "Ana Kovač"})


def cells(one: SignOffLine) -> dict[str, str]:
    return {column.title: column.text(one) for column in signoff_table((one,)).columns}


def test_the_newest_stands_first_and_others_people_s_are_left_out() -> None:
    other = ("E-9", "K-02", *row("E-9", "2026-01-01")[2:])
    found = lines(row("E-1", "2026-01-01"), row("E-2", "2026-02-01"), other)
    assert [one.key for one in found] == ["E-2", "E-1"]


def test_it_counts_is_withdrawn_or_is_later() -> None:
    told = [
        cells(one)["On the day"]
        for one in lines(
            row("E-1", "2026-01-01"),
            row("E-2", "2026-01-02", withdrawn="2026-11-25"),
            row("E-3", "2026-01-03", withdrawn="2026-11-26"),
            row("E-4", "2026-12-01"),
        )
    ]
    assert told == ["later, does not count yet", "counts", "withdrawn", "counts"]


def test_criteria_and_words_stand_apart() -> None:
    told = cells(lines(row("E-1", "2026-01-01", "[x] Gloves on\n[ ] Calls it\n\nGood\nhands."))[0])
    assert told["Criteria"] == "1 of 2 criteria met"
    assert told["Remarks"] == "Good hands."


def test_a_withdrawal_says_when_by_whom_and_why() -> None:
    told = cells(lines(row("E-1", "2026-01-01", withdrawn="2026-02-01"))[0])
    assert told["Withdrawn"] == "2026-02-01, Ana, lapsed evaluator"


def test_a_sign_off_is_one_sentence() -> None:
    told = sentence(lines(row("E-1", "2026-01-01"))[0])
    assert told == "Hand recovery, alone: not yet on 2026-01-01, Ana Kovač, counts"
