"""Tests of a fact in lines of words."""

from datetime import date

from crewtrack.facts import CERTIFICATES, PEOPLE, SIGNOFFS, VESSELS
from crewtrack.screens.fact_form import Known
from crewtrack.screens.fact_words import fact_lines

KNOWN = Known({"people": {"K-01": "Ana Kovač"}}, {"catch": "Hand recovery"}, {}, {})


def test_each_field_that_is_filled_has_a_line_with_the_names_of_what_it_refers_to() -> None:
    row = ("C-1", "K-01", "medical", date(2026, 1, 2), None, None, "N 7")
    assert fact_lines(CERTIFICATES, row, KNOWN) == (
        "Key: C-1",
        "Person: Ana Kovač (K-01)",
        "Kind: medical",
        "Issued: 2026-01-02",
        "Number: N 7",
    )


def test_choices_are_told_in_words_and_measures_with_their_unit() -> None:
    row = ("E-1", "K-01", "catch", date(2026, 1, 2), "alone", "not-yet", "K-02", *(None,) * 5)
    told = fact_lines(SIGNOFFS, row, KNOWN)
    assert told[2] == "Task: Hand recovery (catch)"
    assert told[5] == "Result: not yet"
    assert fact_lines(VESSELS, ("B-1", "Heron", None, 7.5), KNOWN)[-1] == "Length: 7.5 m"
    person = ("K-01", "Ana", None, None, None, None, ("pilot", "helm"))
    assert fact_lines(PEOPLE, person, KNOWN)[-1] == "Duties: pilot, helm"
