"""Rules of regulators and operators, and the dates that their publishers give, through the engine.

Each test names its source and how far it can be trusted: *read* (the text itself, in a public
copy), *second hand* (another publisher quoting or paraphrasing it), *derived* (our arithmetic from
a rule that was read). Copies can be out of date: test data, never legal advice.
"""

from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import AgeBand, AllOf, AnyOf, Certified, Floor, Only, Recent
from tests.evidence_builder import Bio
from tests.reckoned import one_need, practice, signature, with_recheck
from tests.standard_builder import each, within

MONTHS_6 = within("P6M", "month-end")


def practised(need: Recent, *lines: str) -> list[str]:
    """Spans of a practice requirement on hand recovery, flown as told."""
    return one_need(need, flown=[f"{line} hand-recovery" for line in lines]).spans()


def signed(early: int, late: int, window: str, *days: str) -> list[str]:
    """Spans of a check with a due month, passed on the days told."""
    need = signature(within(window, "month-end"), early, late)
    bio = Bio(signed=[f"{day} hand-recovery" for day in days])
    return one_need(need, bio=bio).spans()


class TestA1:
    """3 take-offs and 3 landings within the preceding 90 days, 14 CFR 61.57(a)(1). Derived; no
    ruling was found on whether the day of flight counts, so both readings must be writable."""

    @pytest.mark.parametrize(
        ("flown", "not_counted", "counted"),
        [
            ("2024-01-01", "2024-03-31", "2024-03-30"),
            ("2023-01-01", "2023-04-01", "2023-03-31"),
            ("2025-12-02", "2026-03-02", "2026-03-01"),
        ],
    )
    def test_both_readings_of_90_days(self, flown: str, not_counted: str, counted: str) -> None:
        line = f"{flown} x3"
        assert practised(practice(3, within("P90D")), line) == [f"{flown}..{not_counted}"]
        assert practised(practice(3, within("P89D")), line) == [f"{flown}..{counted}"]


class TestA2:
    """Take-offs and landings are two counters; night recency begins one hour after sunset, 14 CFR
    61.57(b). Sunset 20:24, departure 20:30, two take-offs and three landings after 21:24.
    Derived. Light is stated by hand here; the sky has tests of its own."""

    NIGHT = AllOf(
        "night",
        False,
        tuple(
            Recent(task, False, (task,), amount=3, horizon=within("P90D"), floor=Floor(light=2))
            for task in ("take-off", "landing")
        ),
    )

    def test_a_take_off_in_twilight_is_too_early_to_count(self) -> None:
        flown = [
            "2026-08-01T20:30 take-off twilight",
            "2026-08-01T21:30 landing night",
            "2026-08-01T21:40 take-off landing night",
            "2026-08-01T21:50 take-off landing night",
        ]
        assert one_need(self.NIGHT, flown=flown).spans() == []
        one_more = [*flown, "2026-08-01T22:00 take-off night"]
        assert one_need(self.NIGHT, flown=one_more).spans() == ["2026-08-01..2026-10-30"]


class TestA3:
    """6 within the 6 calendar months preceding the month of flight, 14 CFR 61.57(c). Second
    hand."""

    SIX = practice(6, MONTHS_6)

    def test_one_on_1_july_and_one_a_month_to_december_last_through_january(self) -> None:
        days = [f"2025-{month:02}-01" for month in range(7, 13)]
        assert practised(self.SIX, *days) == ["2025-12-01..2026-01-31"]

    def test_three_in_january_and_three_in_february_last_six_months_after_january(self) -> None:
        days = ["2026-01-26 x3", "2026-02-03 x3"]
        assert practised(self.SIX, *days) == ["2026-02-03..2026-07-31"]

    def test_two_of_six_are_too_old_on_1_august(self) -> None:
        days = ["2025-01-01 x2", "2025-03-01 x2", "2025-07-01 x2"]
        assert practised(self.SIX, *days) == ["2025-07-01..2025-07-31"]


class TestA4:
    """The way back in two stages, 14 CFR 61.57(c) and (d): by practice for six months, then only
    by a check. Second hand."""

    NEED = replace(with_recheck(6, MONTHS_6, "P6M"), tasks=("hand-recovery",))
    START = Bio(signed=["2014-06-30 hand-recovery"])
    LAST = "2014-12-15 hand-recovery x6"

    def regained(self, day: str, *checks: str) -> list[str]:
        """Spans after six events in December 2014 and six more on a day."""
        bio = Bio(signed=[*self.START.signed, *(f"{check} hand-recovery" for check in checks)])
        flown = [self.LAST, f"{day} hand-recovery x6"]
        return one_need(self.NEED, flown=flown, bio=bio).spans()

    def test_last_events_in_december_last_through_june(self) -> None:
        story = one_need(self.NEED, flown=[self.LAST], bio=self.START)
        assert story.spans() == ["2014-06-30..2015-06-30"]

    def test_practice_alone_serves_through_the_following_december(self) -> None:
        assert self.regained("2015-12-31") == ["2014-06-30..2015-06-30", "2015-12-31..2016-06-30"]

    def test_from_january_on_it_takes_a_check(self) -> None:
        assert self.regained("2016-01-01") == ["2014-06-30..2015-06-30"]
        assert self.regained("2016-01-01", "2016-02-10") == [
            "2014-06-30..2015-06-30",
            "2016-02-10..2016-08-31",
        ]


class TestA5:
    """Flight review within 24 calendar months, 14 CFR 61.56(c). First two rows second hand, the
    others derived."""

    @pytest.mark.parametrize(
        ("passed", "through"),
        [
            ("2010-07-01", "2012-07-31"),
            ("2008-08-15", "2010-08-31"),
            ("2023-04-12", "2025-04-30"),
            ("2024-02-29", "2026-02-28"),
        ],
    )
    def test_a_review_lasts_to_the_end_of_the_24th_month(self, passed: str, through: str) -> None:
        assert signed(0, 0, "P24M", passed) == [f"{passed}..{through}"]


class TestA6:
    """Remote pilot knowledge within the previous 24 calendar months, 14 CFR 107.65. Read; example
    second hand."""

    def test_january_2023_lasts_through_january_2025_without_grace(self) -> None:
        assert signed(0, 0, "P24M", "2023-01-17") == ["2023-01-17..2025-01-31"]


class TestA7:
    """Medical durations by age on the day of the exam, 14 CFR 61.23(d). Rule read in part; cases
    derived."""

    def through(self, under_40: str, others: str, born: str) -> list[str]:
        """Spans of an exam on 29 February 2024."""
        bands = (
            AgeBand(40, within(under_40, "month-end")),
            AgeBand(None, within(others, "month-end")),
        )
        bio = Bio(certificates=["medical 2024-02-29"], born=born)
        return one_need(Certified("medical", True, "medical", ages=bands), bio=bio).spans()

    def test_third_class_lasts_60_months_under_40_and_24_from_then_on(self) -> None:
        assert self.through("P60M", "P24M", "1984-03-01") == ["2024-02-29..2029-02-28"]
        assert self.through("P60M", "P24M", "1984-02-29") == ["2024-02-29..2026-02-28"]

    def test_first_class_lasts_12_months_under_40_and_6_from_then_on(self) -> None:
        assert self.through("P12M", "P6M", "1984-03-01") == ["2024-02-29..2025-02-28"]
        assert self.through("P12M", "P6M", "1984-02-29") == ["2024-02-29..2024-08-31"]


class TestA8:
    """A check in the calendar month before or after the one due counts as done in the due month,
    14 CFR 61.58(i), 135.301(a), 135.323(b); acting during the late month: FAA legal interpretation
    of May 2015. Second hand. Base January 2019, due every twelve months."""

    @pytest.mark.parametrize("done", ["2019-12-10", "2020-01-10", "2020-02-10"])
    def test_early_in_time_or_late_the_next_is_due_in_january_2021(self, done: str) -> None:
        assert signed(1, 1, "P12M", "2019-01-15", done) == ["2019-01-15..2021-02-28"]

    def test_the_late_month_is_covered_and_a_month_later_the_base_moves(self) -> None:
        assert signed(1, 1, "P12M", "2019-01-15", "2020-03-10") == [
            "2019-01-15..2020-02-29",
            "2020-03-10..2021-04-30",
        ]


class TestA9:
    """Dangerous-goods training lasts 24 months; renewed in the last three months of validity it
    keeps its date (IATA; a training publisher's worked example). Read."""

    FIRST = "2013-02-07"

    def test_the_first_course_lasts_through_february_2015(self) -> None:
        assert signed(3, 0, "P24M", self.FIRST) == ["2013-02-07..2015-02-28"]

    def test_renewed_in_the_last_three_months_it_keeps_the_date(self) -> None:
        assert signed(3, 0, "P24M", self.FIRST, "2014-12-01") == ["2013-02-07..2017-02-28"]

    def test_renewed_sooner_it_counts_from_the_new_course(self) -> None:
        assert signed(3, 0, "P24M", self.FIRST, "2014-09-10") == ["2013-02-07..2016-09-30"]


def test_a10_monthly_currency_done_on_1_may_ends_on_1_july() -> None:
    """Period-bucket currency of US Air Force flying-training practice. Second hand."""
    assert practised(practice(1, each("month")), "2026-05-01") == ["2026-05-01..2026-06-30"]


class TestA11:
    """Revalidation by either of two windows of sea service: 12 months in the preceding 5 years, or
    3 months in the preceding 6 (STCW Code A-I/11). Read. A month of service is thirty days here."""

    EITHER = AnyOf(
        "service",
        True,
        (
            Recent("long", False, ("service",), "days", 360, within("P5Y")),
            Recent("short", False, ("service",), "days", 90, within("P6M")),
        ),
    )

    @staticmethod
    def served(first: str, days: int) -> list[str]:
        """A day of service on each of so many days."""
        start = date.fromisoformat(first).toordinal()
        return [f"{date.fromordinal(start + n)} service" for n in range(days)]

    def test_ninety_days_serve_for_six_months_from_the_first_of_them(self) -> None:
        spans = one_need(self.EITHER, flown=self.served("2026-01-01", 90)).spans()
        assert spans == ["2026-03-31..2026-07-01"]

    def test_360_days_serve_for_five_years_from_the_first_of_them(self) -> None:
        story = one_need(self.EITHER, flown=self.served("2020-01-01", 360))
        assert story.spans() == ["2020-03-30..2025-01-01"]


def test_a12_24_months_to_the_day_and_not_by_calendar_months() -> None:
    """Recency in the 24 months preceding the flight, Canada CARs 901.56. Read; case derived."""
    assert practised(practice(1, within("P24M")), "2024-06-15") == ["2024-06-15..2026-06-15"]


def test_a13_two_hours_of_flight_within_three_months() -> None:
    """UK PDRA01 remote pilots: minutes, not landings. Read."""
    need = Recent("hours", True, ("hand-recovery",), "minutes", 120, within("P3M"))
    assert practised(need, "2026-01-10 x9 45min", "2026-02-01 x9 45min") == []
    flown = ["2026-01-10 45min", "2026-02-01 45min", "2026-03-31 30min"]
    assert practised(need, *flown) == ["2026-03-31..2026-04-10"]


def test_a14_counters_belong_to_each_rule() -> None:
    """Helicopters offshore: at least 3 of each in the preceding 90 days, by night 3 at night
    (SPA.HOFO.170(b)); by night 1 is enough under FCL.060(b). Read."""
    three, one = (
        AllOf(
            f"night-{count}",
            False,
            (
                practice(3, within("P90D"), "landing"),
                Recent("n", False, ("landing",), "times", count, within("P90D"), Floor(light=2)),
            ),
        )
        for count in (3, 1)
    )
    flown = ["2026-01-01 landing x2 day", "2026-01-05 landing night"]
    assert one_need(one, flown=flown).spans() == ["2026-01-05..2026-04-01"]
    assert one_need(three, flown=flown).spans() == []


def test_a15_proficiency_and_currency_are_two_requirements() -> None:
    """Uncrewed aircraft, US DOI: 3 launches and recoveries within 90 days on that type; each
    carded aircraft at least every 12 months. Read (programme page)."""
    proficiency = replace(practice(3, within("P90D")), only=Only(aircraft=("light-quad",)))
    currency = practice(1, within("P12M"))
    flown = ["2026-01-01 hand-recovery x3 aircraft:light-quad"]
    flown += ["2026-02-01 hand-recovery x3 aircraft:heavy-quad"]
    assert one_need(proficiency, currency, flown=flown).spans() == ["2026-01-01..2026-04-01"]
    assert one_need(currency, flown=flown).spans() == ["2026-01-01..2027-02-01"]


@pytest.mark.parametrize(
    ("done", "through"), [("2026-01-31", "2026-02-28"), ("2024-01-31", "2024-02-29")]
)
def test_a16_adding_a_month_clips_to_the_months_last_day(done: str, through: str) -> None:
    """31 January and one month (practice with ISO 8601 durations). Second hand."""
    assert practised(practice(1, Horizon(Duration(months=1))), done) == [f"{done}..{through}"]
