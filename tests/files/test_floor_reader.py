import pytest

from crewtrack.engine.requirement import Floor, Only, Recent
from tests.standard_texts import Told, need, need_faults

KNOTS = "write a number from 0 to 200, without quotes"


def recent(written: str) -> Recent:
    found = need(f"{{ recent = 'hand-recovery', {written} }}")
    assert isinstance(found, Recent)
    return found


def test_a_floor_holds_the_position_of_each_word_and_numbers_as_they_stand() -> None:
    written = "light = 'twilight', way = 'under-way', sea = 3, wind = 10, apparent = 12.5"
    assert recent(f"floor = {{ {written} }}").floor == Floor(1, 3, 3, 10.0, 12.5)


def test_the_lowest_words_and_numbers_are_asked_for_too() -> None:
    written = "light = 'day', way = 'moored', sea = 0, wind = 0, apparent = 0"
    assert recent(f"floor = {{ {written} }}").floor == Floor(0, 0, 0, 0.0, 0.0)


def test_only_holds_the_kinds_of_craft_that_count() -> None:
    written = "aircraft = ['light-quad'], vessel = ['rib', 'lifeboat']"
    assert recent(f"only = {{ {written} }}").only == Only(("light-quad",), ("rib", "lifeboat"))


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (
            "floor = { sea = 12 }",
            Told(
                "floor.sea", "12 can't be taken", "write a whole number from 0 to 9, without quotes"
            ),
        ),
        (
            "floor = { sea = 2.5 }",
            Told(
                "floor.sea",
                "2.5 can't be taken",
                "write a whole number from 0 to 9, without quotes",
            ),
        ),
        ("floor = { wind = -1 }", Told("floor.wind", "-1 can't be taken", KNOTS)),
        ("floor = { wind = nan }", Told("floor.wind", "nan can't be taken", KNOTS)),
        ("floor = { apparent = inf }", Told("floor.apparent", "inf can't be taken", KNOTS)),
        ("floor = { apparent = false }", Told("floor.apparent", "false can't be taken", KNOTS)),
        (
            "floor = { way = 'drifing' }",
            Told(
                "floor.way",
                "'drifing' is not one of the words that go here",
                "did you mean 'drifting'?",
            ),
        ),
        (
            "floor = { light = 'dark' }",
            Told(
                "floor.light",
                "'dark' is not one of the words that go here",
                "write one of: day, twilight, night",
            ),
        ),
        (
            "floor = { lihgt = 'day' }",
            Told("floor.lihgt", "the key 'lihgt' is not known here", "did you mean 'light'?"),
        ),
        (
            "floor = 'night'",
            Told("floor", "'night' where a table belongs", "write floor = { … }"),
        ),
        (
            "floor = {}",
            Told("floor", "the table is empty", "write what it asks for, or leave it out"),
        ),
        (
            "only = {}",
            Told("only", "the table is empty", "write what it asks for, or leave it out"),
        ),
        (
            "only = { vessel = [] }",
            Told("only.vessel", "the list is empty", "name at least one kind, or leave it out"),
        ),
        (
            "only = { vessel = 'rib' }",
            Told(
                "only.vessel",
                "'rib' where a list of texts belongs",
                'write vessel = ["…", "…"]',
            ),
        ),
        (
            "only = { aircraft = ['quad', 3] }",
            Told("only.aircraft[2]", "3 where text belongs", 'put it in quotes: "3"'),
        ),
    ],
)
def test_conditions_that_can_not_be_taken_are_told(written: str, told: Told) -> None:
    assert need_faults(f"{{ recent = 'hand-recovery', {written} }}") == [told]
