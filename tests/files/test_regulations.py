"""The published rules that ship as a worked example: that each is written so as to give the dates
of its source. Sources and how far each is to be trusted stand beside the cases."""

from datetime import date
from pathlib import Path

import pytest

from crewtrack.engine.certified import horizon_for
from crewtrack.engine.days import Horizon
from crewtrack.engine.requirement import AnyOf, Certified, Recent, Requirement, Signed, inside
from crewtrack.engine.standard import Standard
from crewtrack.files.standard_file import read_standard_file

PATH = Path(__file__).parents[2] / "assets" / "standards" / "regulations.toml"


@pytest.fixture(scope="module")
def rules() -> Standard:
    return read_standard_file(PATH)[1]


def first(rules: Standard, qualification: str) -> Requirement:
    return rules.qualifications[qualification].needs[0]


def test_the_file_says_what_it_is_not() -> None:
    opening = PATH.read_text("utf-8")[:700]
    assert "not legal advice" in opening
    assert "out of date" in opening


def test_every_rule_has_ids_that_can_be_waived(rules: Standard) -> None:
    for qualification in rules.qualifications.values():
        assert all(need.named for need in qualification.needs)


@pytest.mark.parametrize(
    ("qualification", "done", "last"),
    [
        # 14 CFR 61.57(a)(1), the flight day not counted: derived.
        ("passengers-by-day", "2024-01-01", "2024-03-31"),
        ("passengers-by-day", "2023-01-01", "2023-04-01"),
        ("passengers-by-day", "2025-12-02", "2026-03-02"),
        # The other reading in public use: derived.
        ("passengers-by-day-counting-the-day", "2024-01-01", "2024-03-30"),
        ("passengers-by-day-counting-the-day", "2023-01-01", "2023-03-31"),
        ("passengers-by-day-counting-the-day", "2025-12-02", "2026-03-01"),
        # 14 CFR 61.57(c): second hand.
        ("instruments", "2025-07-01", "2026-01-31"),
        ("instruments-in-two-stages", "2014-12-31", "2015-06-30"),
        # 14 CFR 61.56(c): the first two second hand, the others derived.
        ("flight-review", "2010-07-01", "2012-07-31"),
        ("flight-review", "2008-08-15", "2010-08-31"),
        ("flight-review", "2023-04-12", "2025-04-30"),
        ("flight-review", "2024-02-29", "2026-02-28"),
        # 14 CFR 107.65: second hand.
        ("remote-pilot-knowledge", "2023-01-10", "2025-01-31"),
        # IATA, a training publisher's worked example: read.
        ("dangerous-goods", "2013-02-07", "2015-02-28"),
        ("dangerous-goods", "2014-09-10", "2016-09-30"),
        # US Air Force flying-training practice: second hand (non-current on 1 July).
        ("monthly", "2026-05-01", "2026-06-30"),
        # CARs 901.56: rule read, case derived.
        ("recency-to-the-day", "2024-06-15", "2026-06-15"),
        # ISO 8601 practice: second hand.
        ("one-month", "2026-01-31", "2026-02-28"),
        ("one-month", "2024-01-31", "2024-02-29"),
    ],
)
def test_one_event_counts_through_the_day_of_its_source(
    rules: Standard, qualification: str, done: str, last: str
) -> None:
    need = first(rules, qualification)
    assert isinstance(need, Recent | Signed | Certified)
    through = need.horizon.of(date.fromisoformat(done).toordinal())
    assert date.fromordinal(through) == date.fromisoformat(last)


@pytest.mark.parametrize(
    ("qualification", "born", "last"),
    [
        # 14 CFR 61.23(d), examined 2024-02-29 aged 39, and 40 that day: rule read in part, derived.
        ("medical-third-class", date(1984, 3, 1), "2029-02-28"),
        ("medical-third-class", date(1984, 2, 29), "2026-02-28"),
        ("medical-first-class", date(1984, 3, 1), "2025-02-28"),
        ("medical-first-class", date(1984, 2, 29), "2024-08-31"),
    ],
)
def test_medicals_run_by_age_on_the_day_of_the_examination(
    rules: Standard, qualification: str, born: date, last: str
) -> None:
    need = first(rules, qualification)
    assert isinstance(need, Certified)
    examined = date(2024, 2, 29).toordinal()
    through = horizon_for(need, examined, born).of(examined)
    assert date.fromordinal(through) == date.fromisoformat(last)


def test_the_check_on_type_may_be_a_month_early_or_late(rules: Standard) -> None:
    # 14 CFR 61.58(i): second hand.
    need = first(rules, "type-check")
    assert isinstance(need, Signed)
    assert (str(need.horizon.within), need.early, need.late) == ("P12M", 1, 1)


def test_dangerous_goods_may_be_renewed_in_the_last_three_months(rules: Standard) -> None:
    # IATA, a training publisher's worked example: two months before the one that is due.
    need = first(rules, "dangerous-goods")
    assert isinstance(need, Signed)
    assert (need.early, need.late) == (2, 0)


def test_the_way_back_by_practice_ends_after_six_further_months(rules: Standard) -> None:
    # 14 CFR 61.57(d), last done in December 2014: second hand.
    need = first(rules, "instruments-in-two-stages")
    assert isinstance(need, Recent)
    assert need.recheck is not None
    bound = Horizon(need.recheck, need.horizon.month_end).of(date(2015, 6, 30).toordinal())
    assert date.fromordinal(bound) == date(2015, 12, 31)


def test_each_rule_counts_in_its_own_measure(rules: Standard) -> None:
    counted = {
        need.id: (need.measure, need.amount, str(need.horizon.within))
        for qualification in rules.qualifications.values()
        for top in qualification.needs
        for need in inside(top)
        if isinstance(need, Recent)
    }
    assert counted["two-hours"] == ("minutes", 120, "P3M")  # UK PDRA01: read
    assert counted["recent-sea-service"] == ("days", 365, "P60M")  # STCW A-I/11: read
    assert counted["recent-sea-service-2"] == ("days", 90, "P6M")
    assert counted["offshore-landings"] == ("times", 3, "P90D")  # SPA.HOFO.170(b): read
    assert counted["night-landing"] == ("times", 1, "P90D")  # FCL.060(b): read
    assert counted["three-on-type"] == ("times", 3, "P90D")  # US DOI: programme page
    assert counted["carded-fixed-wing"] == ("times", 1, "P12M")


def test_sea_service_counts_by_either_window(rules: Standard) -> None:
    assert isinstance(first(rules, "revalidation"), AnyOf)


def test_take_offs_and_landings_have_a_light_of_their_own(rules: Standard) -> None:
    # 14 CFR 61.57(b): a flight may leave in twilight and land at night; derived.
    assert rules.tasks["take-off"].moment == "launch"
    assert rules.tasks["landing"].moment == "recovery"
    assert rules.dark == "hour"
