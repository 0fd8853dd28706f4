"""Occurrences as a table."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from crewtrack.errors import Fault
from crewtrack.facts import OCCURRENCES, Row, Value
from crewtrack.screens import occurrence_table as told

ZONE = ZoneInfo("America/Detroit")
HAPPENED = datetime(2026, 3, 10, 15, 0, tzinfo=UTC)


def row(**values: Value) -> Row:
    given = {"occurrence": "R-1", "happened": HAPPENED, "what": "Close to\nthe mast", **values}
    return tuple(given.get(column.name, column.default) for column in OCCURRENCES.columns)


def line(**values: Value) -> told.OccurrenceLine:
    (one,) = told.occurrence_lines([row(**values)], ZONE)
    return one


def test_the_last_to_happen_comes_first_by_the_unit_s_clock() -> None:
    rows = [row(), row(occurrence="R-2", happened=HAPPENED + timedelta(hours=1))]
    assert [told.when(one) for one in told.occurrence_lines(rows, ZONE)] == [
        "2026-03-10 12:00", "2026-03-10 11:00"
    ]  # fmt: skip


def test_hurt_and_damage_are_told_or_that_there_was_neither() -> None:
    assert told.harm_told(line()) == "neither"
    assert told.harm_told(line(harm=("hurt", "damage"))) == "somebody hurt, damage"


def test_a_report_without_a_name_says_so() -> None:
    assert told.reporter_told(line()) == "without a name"
    assert told.reporter_told(line(reported_by="K-05")) == "K-05"


def test_a_calm_sea_is_told_too() -> None:
    assert told.conditions_told(line(way="moored", sea=0)) == "moored, sea 0"
    assert told.conditions_told(line()) == ""


def test_an_occurrence_is_one_sentence() -> None:
    answered = line(answer="Rigged lower.", answered_by="K-02", answered=date(2026, 3, 12))
    assert told.sentence(answered) == (
        "2026-03-10 11:00, neither, without a name: Close to the mast;"
        " answer: K-02, 2026-03-12: Rigged lower."
    )


def test_a_person_s_are_those_reported_and_those_on_their_sorties() -> None:
    lines = told.occurrence_lines(
        [
            row(occurrence="R-1", reported_by="K-05"),
            row(occurrence="R-2", sortie="S-1"),
            row(occurrence="R-3", sortie="S-2", reported_by="K-01"),
            row(occurrence="R-4"),
        ],
        ZONE,
    )
    found = told.of_person(lines, "K-05", {"S-1"})
    assert sorted(one.key for one in found) == ["R-1", "R-2"]


def test_whoever_may_not_read_is_told_who_may() -> None:
    fault = Fault("", "author", "to read occurrences takes an officer", "Ana could do it")
    assert told.closed_told(fault) == (
        "Occurrences are closed to you: to read occurrences takes an officer; Ana could do it"
    )
