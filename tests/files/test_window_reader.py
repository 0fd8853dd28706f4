"""``within``, ``through``, ``each``, ``early``, ``late`` and ``ages``: what goes with what."""

import pytest

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import AgeBand, Certified, Recent, Signed
from tests.standard_texts import Told, need, need_faults

MONTH_END = "through = 'month-end'"
NO_UNDER = "only the last of the ages goes without it"
SHORTEST = "make it the shortest: it also judges people whose age is not known"
IN_MONTHS = "it goes only with 'within' in months or years, such as within = \"P6M\""
BESIDE = "it goes only with 'within' in months or years and through = \"month-end\""


@pytest.mark.parametrize(
    ("written", "horizon"),
    [
        ("within = 'P90D'", Horizon(Duration(days=90))),
        ("within = 'P2W'", Horizon(Duration(days=14))),
        ("within = 'P2Y'", Horizon(Duration(months=24))),
        ("within = 'P6M', through = 'month-end'", Horizon(Duration(months=6), month_end=True)),
        ("each = 'half-year'", Horizon(each="half-year")),
    ],
)
def test_a_window_is_read_for_practice_sign_offs_and_certificates_alike(
    written: str, horizon: Horizon
) -> None:
    for kind in ("recent = 'hand-recovery'", "signed = 'hand-recovery'", "certificate = 'm'"):
        found = need(f"{{ {kind}, {written} }}")
        assert isinstance(found, Recent | Signed | Certified)
        assert found.horizon == horizon


@pytest.mark.parametrize(
    ("duration", "problem", "cure"),
    [
        ("'P1M15D'", "'P1M15D' is not a duration", "write one unit only, such as P45D or P2M"),
        ("'P0D'", "'P0D' is not a duration", "write a positive duration, such as P90D"),
        ("'-P3D'", "'-P3D' is not a duration", "write a positive duration, such as P90D"),
        (
            "'PT5H'",
            "'PT5H' is not a duration",
            "time parts are not counted here; write whole days, such as P2D",
        ),
        ("'P1.5M'", "'P1.5M' is not a duration", "write a whole number, such as P90D"),
        (
            "'ninety days'",
            "'ninety days' is not a duration",
            "write a whole number of one unit: P90D, P2W, P6M or P2Y",
        ),
        ("90", "90 where a duration belongs", 'write days as within = "P90D"'),
        ("30", "30 where a duration belongs", 'write days as within = "P30D"'),
        ("true", "true where a duration belongs", 'write days as within = "P90D"'),
    ],
)
def test_a_duration_that_can_not_be_taken_is_told_with_what_would_be_right(
    duration: str, problem: str, cure: str
) -> None:
    told = need_faults(f"{{ recent = 'hand-recovery', within = {duration} }}")
    assert told == [Told("within", problem, cure)]


@pytest.mark.parametrize(
    "other", ["within = 'P90D'", "regain = 'open'", "recheck = 'P6M'", MONTH_END]
)
def test_each_stands_alone(other: str) -> None:
    key = other.split()[0]
    assert need_faults(f"{{ recent = 'hand-recovery', each = 'month', {other} }}") == [
        Told(key, f"'{key}' does not go with 'each'", "keep one of the two")
    ]


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (MONTH_END, Told("through", "'through' stands without 'within'", IN_MONTHS)),
        (
            f"within = 'P90D', {MONTH_END}",
            Told("through", "'through' does not go with days or weeks", IN_MONTHS),
        ),
        (
            f"within = 'P2W', {MONTH_END}",
            Told("through", "'through' does not go with days or weeks", IN_MONTHS),
        ),
        (
            "within = 'P6M', through = 'month end'",
            Told(
                "through",
                "'month end' is not one of the words that go here",
                "did you mean 'month-end'?",
            ),
        ),
        (
            "each = 'week'",
            Told(
                "each",
                "'week' is not one of the words that go here",
                "write one of: month, quarter, half-year, year",
            ),
        ),
        (
            f"within = 'P1M1D', {MONTH_END}",
            Told("within", "'P1M1D' is not a duration", "write one unit only, such as P45D or P2M"),
        ),
    ],
)
def test_a_window_that_can_not_be_taken_is_told(written: str, told: Told) -> None:
    assert need_faults(f"{{ certificate = 'm', {written} }}") == [told]


def test_early_and_late_are_whole_months() -> None:
    found = need(
        f"{{ signed = 'hand-recovery', within = 'P12M', {MONTH_END}, early = 'P5M', late = 'P6M' }}"
    )
    assert isinstance(found, Signed)
    assert (found.early, found.late) == (5, 6)


def test_either_of_early_and_late_can_stand_alone() -> None:
    found = need(f"{{ signed = 'hand-recovery', within = 'P2M', {MONTH_END}, late = 'P1M' }}")
    assert isinstance(found, Signed)
    assert (found.early, found.late) == (0, 1)


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("early = 'P1M'", Told("early", "'early' does not go with what stands beside it", BESIDE)),
        (
            "within = 'P12M', late = 'P1M'",
            Told("late", "'late' does not go with what stands beside it", BESIDE),
        ),
        (
            "within = 'P365D', late = 'P1M'",
            Told("late", "'late' does not go with what stands beside it", BESIDE),
        ),
        (
            "each = 'year', early = 'P1M'",
            Told("early", "'early' does not go with what stands beside it", BESIDE),
        ),
        (
            f"within = 'P12M', {MONTH_END}, early = 'P30D'",
            Told("early", "'P30D' can't be taken", "write whole months from P1M to P6M"),
        ),
        (
            f"within = 'P24M', {MONTH_END}, late = 'P7M'",
            Told("late", "'P7M' can't be taken", "write whole months from P1M to P6M"),
        ),
        (
            f"within = 'P24M', {MONTH_END}, late = 1",
            Told("late", "1 where a duration belongs", 'write days as late = "P1D"'),
        ),
        (
            f"within = 'P12M', {MONTH_END}, early = 'P6M', late = 'P6M'",
            Told(
                "late",
                "'early' and 'late' reach as far as 'within'",
                "write fewer than 12 months for the two together",
            ),
        ),
        (
            f"within = 'P1M', {MONTH_END}, early = 'P1M'",
            Told(
                "early",
                "'early' and 'late' reach as far as 'within'",
                "leave it out, or write a longer 'within'",
            ),
        ),
    ],
)
def test_early_or_late_that_can_not_be_taken_is_told(written: str, told: Told) -> None:
    assert need_faults(f"{{ signed = 'hand-recovery', {written} }}") == [told]


def test_ages_are_windows_that_share_the_month_s_end() -> None:
    assert need(
        f"{{ certificate = 'm', {MONTH_END}, ages = ["
        "{ under = 40, within = 'P60M' }, { under = 50, within = 'P3Y' }, { within = 'P24M' }] }"
    ) == Certified(
        "certificate-m",
        False,
        "m",
        ages=(
            AgeBand(40, Horizon(Duration(months=60), month_end=True)),
            AgeBand(50, Horizon(Duration(months=36), month_end=True)),
            AgeBand(None, Horizon(Duration(months=24), month_end=True)),
        ),
    )


def test_a_window_by_age_may_end_with_a_month_of_its_own() -> None:
    found = need(
        "{ certificate = 'm', ages = [ { under = 40, within = 'P24M', through = 'month-end' }, "
        "{ within = 'P24M' } ] }"
    )
    assert isinstance(found, Certified)
    assert [band.horizon.month_end for band in found.ages] == [True, False]


@pytest.mark.parametrize(
    ("ages", "told"),
    [
        (
            "{ under = 40, within = 'P24M' }, { under = 40, within = 'P12M' }, { within = 'P6M' }",
            Told("ages[2].under", "40 comes after 40", "write ages that ascend: more than 40"),
        ),
        (
            "{ under = 40, within = 'P24M' }",
            Told(
                "ages[1].under",
                "the last of the ages has no 'under'",
                "add one more window, without 'under', for everybody else",
            ),
        ),
        (
            "{ within = 'P24M' }, { within = 'P12M' }",
            Told("ages[1].under", "it is missing", NO_UNDER),
        ),
        (
            "{ under = 40, within = 'P12M' }, { within = 'P24M' }",
            Told("ages[2].within", "the last window is longer than one before it", SHORTEST),
        ),
        (
            "{ under = 40, within = 'P24M' }, { within = 'P24M', through = 'month-end' }",
            Told("ages[2].within", "the last window is longer than one before it", SHORTEST),
        ),
        (
            "{ under = 40, within = 'P700D' }, { within = 'P24M' }",
            Told("ages[2].within", "the last window is longer than one before it", SHORTEST),
        ),
        (
            "{ under = 40 }, { within = 'P24M' }",
            Told("ages[1].within", "it is missing", 'add it, such as within = "P24M"'),
        ),
        (
            "{ under = 40, within = 'P24M' }, { within = 'P1M', each = 'year' }",
            Told(
                "ages[2].each",
                "the key 'each' is not known here",
                "the keys here are: under, within, through",
            ),
        ),
        (
            "{ under = 40, within = 'P24M' }, { within = 'P30D', through = 'month-end' }",
            Told("ages[2].through", "'through' does not go with days or weeks", IN_MONTHS),
        ),
        (
            "{ under = 0, within = 'P24M' }, { within = 'P12M' }",
            Told(
                "ages[1].under",
                "0 can't be taken",
                "write a whole number from 1 to 150, without quotes",
            ),
        ),
    ],
)
def test_ages_that_can_not_be_taken_are_told(ages: str, told: Told) -> None:
    assert need_faults(f"{{ certificate = 'm', ages = [ {ages} ] }}") == [told]


def test_windows_by_age_in_days_do_not_go_with_the_month_s_end_of_all() -> None:
    text = f"{{ certificate = 'm', {MONTH_END}, ages = [ {{ within = 'P90D' }} ] }}"
    assert need_faults(text) == [
        Told(
            "ages[1].within",
            "'through' does not go with days or weeks",
            "write months or years, since 'through' stands beside the ages",
        )
    ]


@pytest.mark.parametrize("other", ["within = 'P6M'", "each = 'year'"])
def test_ages_replace_the_window_beside_them(other: str) -> None:
    key = other.split()[0]
    assert need_faults(f"{{ certificate = 'm', {other}, ages = [ {{ within = 'P6M' }} ] }}") == [
        Told(
            key,
            f"'{key}' does not go with 'ages'",
            "write it in the last of the ages, without 'under'",
        )
    ]
