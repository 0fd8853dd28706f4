"""Retention and sealing in words, and as JSON."""

import json
from datetime import date

import pytest

from crewtrack.office.retention import Past, PastFact, Retention, RetentionTold
from crewtrack.office.sealing import Sealed
from crewtrack.records.journal import Head
from crewtrack.screens.retention_text import past_json, past_text
from crewtrack.screens.retention_words import (
    page_line,
    past_table,
    past_told,
    period_told,
    sealed_told,
    sealing_told,
)

HELD = Retention("P5Y", "Local regulation 7\x1b, section 4")
WAIVER = PastFact("waivers", "W-1", "K-02", date(2019, 2, 1), 1)
SORTIE = PastFact("sorties", "S-2", None, date(2019, 5, 1), 4, "K-01's Deck pilot rests on it")
PAST = Past(HELD, date(2021, 6, 1), Head(3, "ab" * 32), (WAIVER, SORTIE))
NONE = Past(HELD, date(2021, 6, 1), Head(), ())


@pytest.mark.parametrize(
    ("told", "line"),
    [
        (RetentionTold(None, 0, None, 0), "The unit has named no period."),
        (RetentionTold(HELD, 0, 0, 0), "Nothing is past it."),
        (RetentionTold(HELD, 12, 3, 0), "12 facts are past it, 3 of them are still needed."),
        (RetentionTold(HELD, 1, 1, 0), "1 fact is past it, 1 of them is still needed."),
        (RetentionTold(HELD, 12, None, 0), "12 facts are past it."),
        (RetentionTold(HELD, 0, 0, 2), "2 facts have been sealed; what the record knew before no"
                                       " longer shows them."),
    ],
)  # fmt: skip
def test_the_page_says_what_is_past_the_period(told: RetentionTold, line: str) -> None:
    assert page_line(told)[1].endswith(line)


def test_the_page_names_the_period_and_its_rule() -> None:
    line = page_line(RetentionTold(HELD, 0, 0, 0))[1]
    assert line.startswith("5 years, by Local regulation 7 , section 4.")
    assert period_told("P18M") == "18 months"
    assert period_told("P12M") == "1 year"


def test_what_is_past_is_told_with_what_can_be_sealed() -> None:
    assert past_told(PAST) == "5 facts last mattered before 2021-06-01; 1 can be sealed."
    assert past_told(NONE) == "Nothing last mattered before 2021-06-01."
    table = past_table(PAST)
    assert [[column.text(row) for column in table.columns] for row in table.rows] == [
        ["2019-02-01", "Waiver or extension", "W-1", "K-02", "1", "can be sealed"],
        ["2019-05-01", "Sortie", "S-2", "", "4", "K-01's Deck pilot rests on it"],
    ]


def test_sealing_is_explained_before_it_is_done() -> None:
    told = " ".join(sealing_told(PAST))
    for part in ("removed from the record for good", "2021-06-01", "Backups", "earlier instant"):
        assert part in told


def test_where_the_file_may_hold_remnants_that_is_said() -> None:
    assert sealed_told(Sealed(1, 5, "", True)) == "Sealed: 1 fact."
    assert "open elsewhere" in sealed_told(Sealed(2, 5, "", False))


def test_in_text_a_line_tells_each_fact() -> None:
    assert past_text(PAST).splitlines() == [
        "# Retention P5Y: Local regulation 7 , section 4",
        "# Past it is what last mattered before 2021-06-01.",
        "2019-02-01  waiver W-1  K-02  1 fact   can be sealed",
        "2019-05-01  sortie S-2        4 facts  K-01's Deck pilot rests on it",
        "# 5 facts past retention, 1 can be sealed.",
    ]
    assert len(past_text(NONE).splitlines()) == 3


def test_as_json_each_fact_says_whether_it_can_be_sealed() -> None:
    told = json.loads(past_json(PAST))
    assert (told["period"], told["cutoff"]) == ("P5Y", "2021-06-01")
    assert told["rows"][0] == {
        "kind": "waivers", "key": "W-1", "person": "K-02", "last": "2019-02-01", "facts": 1,
        "sealable": True, "why": None,
    }  # fmt: skip
    assert told["rows"][1]["why"] == "K-01's Deck pilot rests on it"
