"""What is past retention, and of each whether later standings rest on it."""

from collections.abc import Mapping
from datetime import date

import pytest

from crewtrack.errors import Refused
from crewtrack.facts import DISPUTES, OCCURRENCES, SIGNOFFS
from crewtrack.office import recording, retention
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.office.retention import Past, Retention, RetentionTold
from tests.office.unit_at_work import Unit

RULE = "Local regulation 7, section 4"
OLD = {
    "people": "person,name\nK-01,Ana Kovač\nK-02,Олена Ґедзь\nV-01,Sam Lee\n",
    "assignments": "person,qualification,from\nK-01,deck-pilot,2026-01-01\n",
    "sorties": (
        "sortie,launched,minutes,setting\n"
        "S-1,2019-04-01T10:00,12,live\nS-2,2019-05-01T10:00,12,live\n"
        "S-3,2026-05-20T10:00,12,live\n"
    ),
    "performances": (
        "sortie,person,task,times\n"
        "S-1,K-02,hand-recovery,3\nS-1,K-01,hand-recovery,3\nS-2,K-01,hand-recovery,1\n"
        "S-3,K-01,hand-recovery,3\n"
    ),
    "signoffs": (
        "signoff,person,task,date,level,result,evaluator,sortie\n"
        "E-1,K-01,hand-recovery,2019-05-01,alone,passed,V-01,S-2\n"
        "E-2,K-02,hand-recovery,2019-04-01,alone,passed,V-01,\n"
        "E-3,K-02,hand-recovery,2026-04-01,alone,passed,V-01,\n"
    ),
    "certificates": (
        "certificate,person,kind,issued,expires\n"
        "C-1,K-02,medical,2018-01-01,2020-01-01\nC-2,K-02,medical,2026-01-01,2028-01-01\n"
    ),
    "waivers": (
        "waiver,person,qualification,requirement,from,through,reason,by\n"
        "W-1,K-02,deck-pilot,recency,2019-01-01,2019-02-01,ice,chief\n"
        "W-2,K-02,deck-pilot,recency,2026-01-01,2026-02-01,ice,chief\n"
    ),
    "standdowns": (
        "standdown,person,from,through,reason,by\n"
        "D-1,K-02,2019-01-01,2019-02-01,knee,chief\nD-2,K-02,2019-03-01,,back,chief\n"
    ),
}
"""K-01 has been signed off once, in 2019, on S-2: on that the standing of today rests."""


@pytest.fixture
def old(unit: Unit) -> Unit:
    unit.take(OLD)
    return unit


def name(unit: Unit, period: str = "P3Y", rule: str = RULE, reason: str | None = None) -> None:
    retention.name_period(unit.office, period, rule, Order("Ana", reason))


def told(past: Past) -> Mapping[str, str]:
    """Why each past fact stays, by its key."""
    return {one.key: one.why for one in past.facts}


def test_no_period_is_named_at_first_and_nothing_is_past_it(old: Unit) -> None:
    assert retention.named_period(old.office) is None
    assert retention.retention_told(old.office) == RetentionTold(None, 0, None, 0)
    with pytest.raises(Refused, match="named no retention period"):
        retention.past(old.office)


def test_the_unit_names_a_period_and_its_rule_and_changes_them_with_a_reason(old: Unit) -> None:
    name(old)
    assert retention.named_period(old.office) == Retention("P3Y", RULE, 1)
    with pytest.raises(Refused, match="a correction needs a reason"):
        name(old, "P5Y")
    name(old, "P5Y", reason="the regulation has changed")
    assert retention.named_period(old.office) == Retention("P5Y", RULE, 2)


@pytest.mark.parametrize("period", ["", "five years", "P90D", "P2W", "P0Y", "P1Y6M", "P-1Y"])
def test_a_period_is_whole_months_or_years(old: Unit, period: str) -> None:
    with pytest.raises(Refused) as refusal:
        name(old, period, "")
    assert [fault.field for fault in refusal.value.faults] == ["period", "rule"]


def test_what_last_mattered_before_the_cutoff_is_past(old: Unit) -> None:
    name(old)
    past = retention.past(old.office)
    assert past.cutoff == date(2023, 6, 1)
    assert {(one.kind, one.key, str(one.last), one.count) for one in past.facts} == {
        ("sorties", "S-1", "2019-04-01", 3),
        ("sorties", "S-2", "2019-05-01", 2),
        ("signoffs", "E-1", "2019-05-01", 1),
        ("signoffs", "E-2", "2019-04-01", 1),
        ("certificates", "C-1", "2020-01-01", 1),
        ("waivers", "W-1", "2019-02-01", 1),
        ("standdowns", "D-1", "2019-02-01", 1),
    }


def test_the_last_day_of_the_period_is_not_past_it(old: Unit) -> None:
    for on, past in (("2024-01-01", True), ("2023-12-31", False)):
        assert (date(2023, 12, 31) < _cutoff(on)) is past


def _cutoff(today: str) -> date:
    at = date.fromisoformat(today).replace(year=date.fromisoformat(today).year + 1)
    return date.fromordinal(Retention("P12M", "").cutoff(at.toordinal()))


def test_what_a_later_standing_rests_on_stays_and_so_does_what_it_names(old: Unit) -> None:
    name(old)
    assert told(retention.past(old.office)) == {
        "S-1": "",
        "S-2": "sign-off 'E-1' names it, and stays",
        "E-1": "K-01's Deck pilot rests on it",
        "E-2": "",
        "C-1": "",
        "W-1": "",
        "D-1": "",
    }
    assert retention.retention_told(old.office) == RetentionTold(Retention("P3Y", RULE), 10, 3, 0)


def test_a_page_does_not_find_out_what_is_needed_of_much(
    old: Unit, monkeypatch: pytest.MonkeyPatch
) -> None:
    name(old)
    monkeypatch.setattr(retention, "FEW_PAST", 9)
    told = retention.retention_told(old.office)
    assert told == RetentionTold(Retention("P3Y", RULE), 10, None, 0)


def test_where_only_some_are_wanted_all_others_count_as_staying(old: Unit) -> None:
    name(old)
    past = retention.past(old.office, [("sorties", "S-2"), ("waivers", "W-1")])
    assert told(past) == {"S-2": "sign-off 'E-1' names it, and stays", "W-1": ""}


def test_the_newest_of_its_kind_stays(unit: Unit) -> None:
    unit.take({**OLD, "waivers": OLD["waivers"][: OLD["waivers"].index("W-2")]})
    name(unit)
    assert told(retention.past(unit.office))["W-1"] == (
        "it is the newest of its kind, and the record numbers on from it"
    )


def test_what_is_struck_out_is_past_retention_too(old: Unit) -> None:
    name(old)
    recording.record(old.office, [Strike(SIGNOFFS, ("E-1",), 1)], Order("Ana", "twice"))
    past = told(retention.past(old.office))
    assert past["E-1"] == "it is the newest of its kind, and the record numbers on from it"
    old.take(signoffs=OLD["signoffs"].replace("E-3", "E-4").replace("E-2", "E-5"), reason="back")
    assert "E-1" in told(retention.past(old.office))


def said(unit: Unit, answered: date | None) -> None:
    """An occurrence and a dispute of 2019 about S-1 and E-2, and newer ones."""
    at = unit.clock.at
    for number, year in ((1, 2019), (2, 2026)):
        happened = at.replace(year=year, month=1)
        told = answered is not None and answered >= happened.date()
        answer = ("seen to", "K-01", answered) if told else (None, None, None)
        occurrence = (f"O-{number}", happened, "S-1" if year == 2019 else None, None, None,
                      "a line parted", (), None, *answer)  # fmt: skip
        outcome = "refused" if answered else None
        dispute = (f"Q-{number}", "signoffs", "E-2", happened.date(), "K-02", "not mine",
                   outcome, *answer) if year == 2019 else (
                   f"Q-{number}", "signoffs", "E-3", happened.date(), "K-02", "nor this",
                   None, None, None, None)  # fmt: skip
        recording.record(
            unit.office, [Entry(OCCURRENCES, occurrence), Entry(DISPUTES, dispute)], Order("Ana")
        )


def test_what_nobody_has_answered_stays_with_what_it_is_about(old: Unit) -> None:
    name(old)
    said(old, None)
    past = told(retention.past(old.office))
    assert past["O-1"] == past["Q-1"] == "nobody has answered it yet"
    assert past["S-1"] == "occurrence 'O-1' names it, and stays"
    assert past["E-2"] == "dispute 'Q-1' names it, and stays"


def test_what_was_answered_long_ago_goes_with_what_it_is_about(old: Unit) -> None:
    name(old)
    said(old, date(2019, 3, 1))
    past = told(retention.past(old.office))
    assert (past["O-1"], past["Q-1"], past["S-1"], past["E-2"]) == ("", "", "", "")


def test_what_was_answered_lately_is_not_past_and_keeps_what_it_is_about(old: Unit) -> None:
    name(old)
    said(old, date(2026, 1, 1))
    past = told(retention.past(old.office))
    assert "O-1" not in past
    assert past["S-1"] == "occurrence 'O-1' names it, and stays"


def test_progress_may_break_it_off(old: Unit) -> None:
    name(old)

    def stop(what: str, done: int, total: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        retention.past(old.office, progress=stop)
