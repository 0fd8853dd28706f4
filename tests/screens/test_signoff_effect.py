"""Tests of what a sign-off would change."""

from datetime import date

from crewtrack.engine.evidence import SignOff
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Signed
from crewtrack.screens.signoff_effect import (
    effect_told,
    effects,
    ends_something,
    told,
    withdrawal_effects,
)
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules, within

ON = date(2026, 11, 25)
RULES = Rules({"pilot": (Signed("check", True, "catch", 2, within("P12M")),)})


def unit(*signed: str) -> Reckoning:
    return reckoning(RULES, bios=(Bio(assigned=("pilot 2020-01-01..",), signed=signed),))


def changes(result: str, *signed: str, level: int = 2, on: date = ON) -> str:
    signoff = SignOff("new", "catch", ON.toordinal(), level, result, "K-09")
    return told(effects(unit(*signed), "K-01", signoff, on))


def test_a_first_pass_brings_the_qualification() -> None:
    assert changes("passed") == "What it changes: brings pilot, through 2027-11-25 (was training)."


def test_a_later_pass_tells_the_day_before_and_after() -> None:
    before = "2026-10-01 catch"
    assert changes("passed", before) == (
        "What it changes: pilot, through 2027-11-25 (was 2027-10-01)."
    )


def test_a_failure_tells_what_it_ends_and_from_when() -> None:
    assert changes("failed", "2026-10-01 catch") == "What it changes: ends pilot from 2026-11-25."


def test_not_yet_changes_nothing_and_says_so() -> None:
    assert changes("not-yet", "2026-10-01 catch") == "It changes no standing."


def test_a_pass_at_a_lower_level_changes_nothing() -> None:
    assert changes("passed", level=1) == "It changes no standing."


def test_it_is_told_as_of_the_sign_off_s_own_day_where_that_is_later() -> None:
    early = date(2026, 10, 1)
    assert changes("passed", on=early) == changes("passed")


def test_only_what_ends_something_is_told_as_an_end() -> None:
    signoff = SignOff("new", "catch", ON.toordinal(), 2, "failed", "K-09")
    assert ends_something(effects(unit("2026-10-01 catch"), "K-01", signoff, ON))
    assert not ends_something(effects(unit(), "K-01", signoff, ON))


def test_a_withdrawal_tells_what_is_left() -> None:
    signed = ("2026-03-01 catch as:E-1", "2026-10-01 catch as:E-2")
    found = withdrawal_effects(unit(*signed), "K-01", "E-2", ON)
    assert [effect_told(one) for one in found] == ["pilot, through 2027-03-01 (was 2027-10-01)"]


def test_withdrawing_the_only_pass_ends_the_qualification() -> None:
    found = withdrawal_effects(unit("2026-10-01 catch as:E-1"), "K-01", "E-1", ON)
    assert [effect_told(one) for one in found] == ["ends pilot from 2026-11-25"]


def test_withdrawing_what_no_longer_bears_changes_nothing() -> None:
    signed = ("2024-01-01 catch as:E-1", "2025-01-01 catch as:E-2")
    found = withdrawal_effects(unit(*signed), "K-01", "E-1", ON)
    assert not found
