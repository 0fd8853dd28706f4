"""Life lines: each requirement along the days, with its evidence."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from crewtrack.engine.days import Duration
from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.screens.life_lines import (
    LifeLine,
    Tick,
    life_lines,
    line_spoken,
    state_told,
    tick_spoken,
)
from tests.evidence_builder import PERFORMER, Bio
from tests.reckoned import Story
from tests.standard_builder import Rules, within

ON = "2026-11-25"
MEDICAL = Certified("medical", True, "medical", horizon=within("P1Y"))
SIGNED = Signed("signed", True, "recovery")
PRACTICE = Recent("recency", True, ("recovery",), horizon=within("P30D"))
FLOWN = (
    "2026-09-01 recovery x2",
    "2026-11-20 recovery x3",
    "2026-11-20 launch",
    "2026-12-01 recovery",
)
BIO = Bio(
    signed=("2026-03-01 recovery", "2026-02-01 recovery failed"),
    certificates=("medical 2025-01-01", "medical 2026-06-01"),
)


def lines(*needs: Requirement, on: str = ON, key: str = "deck") -> tuple[LifeLine, ...]:
    rules = Rules({"basic": (MEDICAL,), "deck": needs})
    reckoning = Story((rules,), FLOWN, BIO).reckoning()
    day = date.fromisoformat(on)
    return life_lines(reckoning, reckoning.explain(PERFORMER, key, day), day)


def days(found: Sequence[Tick]) -> list[str]:
    return [tick.day.isoformat() for tick in found]


def test_the_first_line_is_the_standing_itself() -> None:
    whole = lines(MEDICAL)[0]
    assert (whole.rule, whole.word, whole.met, whole.ticks) == ("deck", "current", True, ())
    assert state_told(whole) == "current"
    assert line_spoken(whole) == "deck: current"


def test_practice_has_a_tick_for_each_sortie_up_to_the_day() -> None:
    ticks = lines(PRACTICE)[1].ticks
    assert days(ticks) == ["2026-09-01", "2026-11-20"]
    assert [tick.amount for tick in ticks] == [2, 3]
    assert {tick.kind for tick in ticks} == {"performance"}


def test_a_tick_tells_whether_it_counts_on_the_day() -> None:
    assert [tick.counts for tick in lines(PRACTICE)[1].ticks] == [False, True]


def test_a_later_day_has_the_later_sortie_too() -> None:
    assert days(lines(PRACTICE, on="2026-12-01")[1].ticks)[-1] == "2026-12-01"


def test_sign_offs_have_ticks_and_those_not_passed_are_marked() -> None:
    ticks = lines(SIGNED)[1].ticks
    assert [(tick.day.month, tick.failed, tick.counts) for tick in ticks] == [
        (2, True, False),
        (3, False, True),
    ]


def test_practice_that_a_sign_off_can_renew_has_ticks_of_both() -> None:
    need = replace(PRACTICE, recheck=Duration.parse("P90D"))
    assert {tick.kind for tick in lines(need)[1].ticks} == {"performance", "sign-off"}


def test_certificates_have_ticks_on_the_day_of_issue() -> None:
    ticks = lines(MEDICAL)[1].ticks
    assert [(tick.kind, tick.counts) for tick in ticks] == [
        ("certificate", False),
        ("certificate", True),
    ]
    assert days(ticks) == ["2025-01-01", "2026-06-01"]


def test_what_is_nested_lies_deeper_and_after() -> None:
    both = AllOf("all", True, (MEDICAL, AnyOf("any", True, (PRACTICE, SIGNED))))
    found = lines(both)
    assert [(line.id, line.depth) for line in found] == [
        ("", 0),
        ("all", 0),
        ("medical", 1),
        ("any", 1),
        ("recency", 2),
        ("signed", 2),
    ]
    assert found[3].ticks == ()


def test_a_qualification_that_is_held_is_not_opened() -> None:
    assert [line.id for line in lines(Holds("basic", True, "basic"))] == ["", "basic"]


def test_a_qualification_that_is_not_held_is_opened() -> None:
    found = lines(Holds("basic", True, "basic"), on="2024-11-25")
    assert [(line.id, line.depth) for line in found] == [("", 0), ("basic", 0), ("medical", 1)]


def test_what_is_not_met_comes_first() -> None:
    ice = Certified("ice", True, "ice")
    assert [line.id for line in lines(SIGNED, PRACTICE, ice)[1:]] == ["ice", "recency", "signed"]


def test_a_qualification_unknown_that_day_has_one_line() -> None:
    assert [line.rule for line in lines(MEDICAL, key="gone")] == ["gone"]


@pytest.mark.parametrize(
    ("need", "told"),
    [
        (SIGNED, "no limit"),
        (PRACTICE, "through 2026-12-20"),
        (Certified("ice", True, "ice"), "not met"),
    ],
)
def test_a_state_is_told_shortly(need: Requirement, told: str) -> None:
    assert state_told(lines(need)[1]) == told


def test_a_line_speaks_a_sentence() -> None:
    assert line_spoken(lines(PRACTICE)[1]) == (
        "recency: recovery: once in 30 days; through 2026-12-20; 1 piece of evidence counts"
    )


@pytest.mark.parametrize(
    ("tick", "told"),
    [
        (
            Tick("performance", "S-1", date(2026, 1, 2), True, 3),
            "2026-01-02: sortie S-1, 3 done, counts",
        ),
        (
            Tick("sign-off", "E-1", date(2026, 1, 2), False, failed=True),
            "2026-01-02: sign-off E-1, not passed",
        ),
        (
            Tick("sign-off", "E-1", date(2026, 1, 2), True),
            "2026-01-02: sign-off E-1, passed, counts",
        ),
        (Tick("certificate", "C-1", date(2026, 1, 2), False), "2026-01-02: certificate C-1"),
    ],
)
def test_a_tick_speaks_a_sentence(tick: Tick, told: str) -> None:
    assert tick_spoken(tick) == told
