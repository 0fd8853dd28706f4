"""Answers out: the keys and columns promised to other programs."""

import json
from datetime import UTC, date, datetime

from crewtrack.engine.evidence import Person
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import (
    Counted,
    Explained,
    Explanation,
    HistoryRow,
    Roster,
    Standing,
)
from crewtrack.files.answers import history_csv, history_json, roster_csv, roster_json, why_json

DUE = Standing(
    "K-07",
    "deck-pilot",
    "due",
    date(2026, 9, 1),
    date(2026, 12, 3),
    ("recency-recovery", "signed-launch"),
    ("W-1",),
)
NEW = Standing("K-08", "deck-pilot", "training", limiting=("recency-recovery",))
ROSTER = Roster(
    on=date(2026, 11, 25),
    known_at=None,
    unit="Harbor",
    edition="2026-1",
    head="0" * 64,
    people=(Person("K-07", "Åsa Lindqvist"), Person("K-08", "=Ada, B")),
    qualifications=(Qualification("deck-pilot", "Deck pilot", "pilot", 2, ()),),
    rows=(DUE, NEW),
    lapses=(),
)
HISTORY = (
    HistoryRow(
        "K-07",
        "deck-pilot",
        (Span(date(2025, 2, 3), date(2025, 8, 19)), Span(date(2025, 11, 2), None)),
    ),
    HistoryRow("K-08", "deck-pilot", ()),
)


def test_a_roster_as_json_holds_the_promised_keys_in_order() -> None:
    told = json.loads(roster_json(ROSTER))
    assert list(told) == ["on", "known_at", "unit", "edition", "rows"]
    assert told["on"] == "2026-11-25"
    assert told["known_at"] is None
    assert told["rows"] == [
        {
            "person": "K-07",
            "name": "Åsa Lindqvist",
            "qualification": "deck-pilot",
            "standing": "due",
            "since": "2026-09-01",
            "through": "2026-12-03",
            "limiting": ["recency-recovery", "signed-launch"],
            "by_waiver": ["W-1"],
        },
        {
            "person": "K-08",
            "name": "=Ada, B",
            "qualification": "deck-pilot",
            "standing": "training",
            "since": None,
            "through": None,
            "limiting": ["recency-recovery"],
            "by_waiver": [],
        },
    ]
    assert list(told["rows"][0]) == roster_csv(ROSTER).partition("\n")[0].split(",")


def test_names_are_not_escaped_in_json() -> None:
    assert "Åsa" in roster_json(ROSTER)
    assert roster_json(ROSTER).endswith("}\n")


def test_known_at_carries_its_offset() -> None:
    known = datetime(2026, 11, 25, 11, 40, 0, 125000, tzinfo=UTC)
    roster = Roster(
        ROSTER.on, known, "Harbor", "2026-1", "", ROSTER.people, ROSTER.qualifications, (), ()
    )
    assert json.loads(roster_json(roster))["known_at"] == "2026-11-25T11:40:00.125000Z"


def test_a_roster_as_csv_has_a_line_for_each_row() -> None:
    assert roster_csv(ROSTER) == (
        "person,name,qualification,standing,since,through,limiting,by_waiver\n"
        "K-07,Åsa Lindqvist,deck-pilot,due,2026-09-01,2026-12-03,"
        "recency-recovery;signed-launch,W-1\n"
        'K-08,"\'=Ada, B",deck-pilot,training,,,recency-recovery,\n'
    )


def test_a_history_as_json_gives_closed_spans_and_null_for_an_open_end() -> None:
    assert json.loads(history_json(HISTORY)) == {
        "rows": [
            {
                "person": "K-07",
                "qualification": "deck-pilot",
                "spans": [["2025-02-03", "2025-08-19"], ["2025-11-02", None]],
            },
            {"person": "K-08", "qualification": "deck-pilot", "spans": []},
        ]
    }


def test_a_history_as_csv_has_a_line_for_each_span() -> None:
    assert history_csv(HISTORY) == (
        "person,qualification,first,last\n"
        "K-07,deck-pilot,2025-02-03,2025-08-19\n"
        "K-07,deck-pilot,2025-11-02,\n"
    )


def test_a_standing_explained_opens_down_to_the_evidence() -> None:
    counted = Counted("performance", "S-31", date(2026, 9, 4), 2, "hand-recovery", None, "night")
    inner = Explained("inner", "held", False, None, (), (), ("sign it off",))
    outer = Explained(
        "recency-recovery",
        "3 hand recoveries within P90D",
        True,
        date(2026, 12, 3),
        (Span(date(2026, 9, 4), date(2026, 12, 3)),),
        (counted, Counted("certificate", "C-1", date(2026, 1, 1), through=date(2027, 1, 1))),
        (),
        (inner,),
    )
    why = Explanation(DUE, "Åsa", "Deck pilot", "2026-1", (), (outer,), ("no birth date",))
    told = json.loads(why_json(why, date(2026, 11, 25)))
    assert list(told) == [
        *("on", "known_at", "person", "name", "qualification", "standing", "since", "through"),
        *("limiting", "by_waiver", "title", "edition", "spans", "requirements", "notes"),
    ]
    assert (told["on"], told["known_at"]) == ("2026-11-25", None)
    assert (told["title"], told["notes"]) == ("Deck pilot", ["no birth date"])
    (requirement,) = told["requirements"]
    assert requirement["counted"] == [
        {
            "kind": "performance",
            "key": "S-31",
            "task": "hand-recovery",
            "date": "2026-09-04",
            "through": None,
            "amount": 2,
            "conditions": "night",
        },
        {
            "kind": "certificate",
            "key": "C-1",
            "task": None,
            "date": "2026-01-01",
            "through": "2027-01-01",
            "amount": 1,
            "conditions": None,
        },
    ]
    assert requirement["needs"] == [
        {
            "id": "inner",
            "rule": "held",
            "met": False,
            "through": None,
            "spans": [],
            "counted": [],
            "missing": ["sign it off"],
            "needs": [],
        }
    ]
