"""The months' names on the day line."""

from datetime import date

from crewtrack.screens.month_words import month_told


def test_a_month_is_told_by_three_letters_and_january_with_its_year() -> None:
    assert [month_told(date(2026, month, 1)) for month in (12, 3)] == ["Dec", "Mar"]
    assert month_told(date(2027, 1, 1)) == "Jan 2027"
