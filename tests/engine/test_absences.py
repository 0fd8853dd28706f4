"""Why somebody is out of a qualification on a day, whatever they have done."""

from datetime import date

import pytest

from crewtrack.engine.absences import absences, stand_downs, stood_down
from crewtrack.engine.evidence import Books, StandDown
from tests.evidence_builder import Bio, day, evidence


def books(bio: Bio) -> Books:
    return evidence((), (bio,)).books[bio.key]


def told(bio: Bio, when: str) -> list[str]:
    return list(absences(books(bio), "deck", "Deck pilot", day(when)))


SPRING = "deck 2026-03-01..2026-05-31"
ALL_YEAR = "deck 2026-01-01..2026-12-31"


def test_an_assignment_alone_keeps_nobody_out() -> None:
    assert told(Bio(assigned=(SPRING,)), "2026-03-01") == []
    assert told(Bio(assigned=(SPRING,)), "2026-05-31") == []


@pytest.mark.parametrize(
    ("assigned", "when", "only"),
    [
        ((), "2026-04-01", ""),
        (("night 2026-01-01..",), "2026-04-01", ""),
        ((SPRING,), "2026-02-28", ": assigned only from 2026-03-01"),
        ((SPRING,), "2026-06-01", ": assigned only through 2026-05-31"),
        (
            (SPRING, "deck 2026-09-01.."),
            "2026-07-01",
            ": assigned only through 2026-05-31 and again from 2026-09-01",
        ),
    ],
)
def test_who_is_not_assigned_is_told_when_they_are(
    assigned: tuple[str, ...], when: str, only: str
) -> None:
    assert told(Bio(assigned=assigned), when) == [f"not assigned to Deck pilot that day{only}"]


@pytest.mark.parametrize(
    ("when", "said"),
    [
        ("2026-03-09", ["not on the books yet: joined on 2026-03-10"]),
        ("2026-03-10", []),
        ("2026-04-10", []),
        ("2026-04-11", ["no longer on the books: left on 2026-04-10"]),
    ],
)
def test_who_is_not_on_the_books_is_told_since_or_until_when(when: str, said: list[str]) -> None:
    assert told(Bio(assigned=(ALL_YEAR,), joined="2026-03-10", left="2026-04-10"), when) == said


def test_only_a_stand_down_of_this_day_and_this_qualification_or_of_all_counts() -> None:
    downs = (
        "night 2026-03-01..2026-03-31",
        "deck 2026-03-01..2026-03-09",
        "deck 2026-03-10..2026-03-12",
        "all 2026-03-12..",
    )
    found = told(Bio(assigned=(ALL_YEAR,), standdowns=downs), "2026-03-12")
    assert found == [
        "stood down from 2026-03-10 through 2026-03-12 (D-003)",
        "stood down from 2026-03-12 until lifted (D-004)",
    ]


def test_stand_downs_come_in_the_order_of_their_keys() -> None:
    downs = ("all 2026-03-01.. as:B", "deck 2026-03-01.. as:A", "deck 2026-04-01.. as:C")
    found = stand_downs(books(Bio(standdowns=downs)), day("2026-03-01"))
    assert [down.key for down in found] == ["A", "B"]


@pytest.mark.parametrize(
    ("reason", "by", "grounds"),
    [
        ("a broken wrist", "A. Moss", ", by A. Moss: a broken wrist"),
        ("a broken wrist", "", ", a broken wrist"),
        ("", "A. Moss", ", by A. Moss"),
    ],
)
def test_a_stand_down_tells_who_decided_it_and_why(reason: str, by: str, grounds: str) -> None:
    first = date(2026, 3, 1).toordinal()
    down = StandDown("D-1", None, first, first, reason, by)
    assert stood_down(down) == f"stood down from 2026-03-01 through 2026-03-01 (D-1){grounds}"
