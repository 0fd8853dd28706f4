"""Editions of the standard, in the order of their effect."""

from zoneinfo import ZoneInfo

import pytest

from crewtrack.engine.days import FOREVER
from crewtrack.engine.requirement import AllOf, Certified
from crewtrack.engine.standard import Editions, Qualification
from tests.evidence_builder import day
from tests.standard_builder import Rules, editions

OLD = Rules({"deck": (), "night": ()}, effective="2024-01-01", zone="America/Detroit")
NEW = Rules({"ice": (), "deck": ()}, effective="2026-01-01", zone="America/Detroit")


def test_a_record_without_an_edition_is_a_mistake() -> None:
    with pytest.raises(ValueError, match="at least one edition"):
        Editions(())


def test_editions_are_ordered_by_the_day_from_which_they_are_in_effect() -> None:
    found = editions(NEW, OLD).standards
    assert [standard.edition for standard in found] == ["from 2024-01-01", "from 2026-01-01"]


@pytest.mark.parametrize(
    ("when", "edition"),
    [
        ("2025-12-31", "from 2024-01-01"),
        ("2026-01-01", "from 2026-01-01"),
        ("2023-12-31", "from 2024-01-01"),
    ],
)
def test_an_edition_is_in_effect_until_the_next_and_the_first_one_before_that(
    when: str, edition: str
) -> None:
    assert editions(OLD, NEW).on(day(when)).edition == edition


def test_the_first_edition_reaches_back_to_the_first_day_of_all() -> None:
    assert editions(OLD, NEW).stretch(0) == (1, day("2025-12-31"))


def test_the_last_edition_has_no_end() -> None:
    assert editions(OLD, NEW).stretch(1) == (day("2026-01-01"), FOREVER)


def test_the_zone_is_the_units() -> None:
    assert editions(OLD, NEW).zone == ZoneInfo("America/Detroit")


def test_qualifications_come_in_the_first_editions_order_and_then_the_new_ones() -> None:
    assert editions(OLD, NEW).qualifications == ("deck", "night", "ice")


def test_a_days_qualifications_are_its_editions_in_the_order_of_all_editions() -> None:
    held = editions(OLD, NEW).qualifications_on(day("2026-01-01"))
    assert [qualification.key for qualification in held] == ["deck", "ice"]


def test_only_requirements_whose_id_is_written_are_named_at_any_depth() -> None:
    nest = AllOf(
        "all-1", False, (Certified("medical", True, "medical"), Certified("c", False, "radio"))
    )
    assert Qualification("deck", "Deck", None, 0, (nest,)).named() == ("medical",)
