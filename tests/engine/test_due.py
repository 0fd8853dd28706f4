"""What ends soon, against asking the engine day by day."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest

from crewtrack.engine.due import Due, listed, told_elsewhere
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import AnyOf, Certified, Holds, Requirement
from crewtrack.engine.spans import run_at
from tests.evidence_builder import PERFORMER, Bio
from tests.reckoned import Story, one_need, practice, signature
from tests.standard_builder import Rules, within

ON = date(2026, 3, 1)
FLOWN = ("2026-01-10 hand-recovery x3", "2026-02-20 hand-recovery x2")


def told(dues: tuple[Due, ...]) -> list[tuple[str, str, str]]:
    """Qualification, requirement and last day."""
    return [(due.qualification, due.requirement, str(due.through)) for due in dues]


def day_by_day(reckoning: Reckoning, on: date, days: int) -> set[tuple[str, str, str, str]]:
    """The same under a single edition, by looking at each requirement on each day."""
    [standard] = reckoning.editions.standards
    found = set()
    for person, books in reckoning.evidence.books.items():
        case = reckoning.docket(books, on.toordinal()).cases[0]
        for key, qualification in standard.qualifications.items():
            assigned = reckoning.docket(books, on.toordinal()).assigned(key)
            for need in qualification.needs:
                met = case.requirement(key, need)
                for later in range(days):
                    day = on.toordinal() + later
                    held = run_at(met, on.toordinal()) and run_at(met, day)
                    if run_at(assigned, on.toordinal()) and held and not run_at(met, day + 1):
                        found.add((person, key, need.id, str(date.fromordinal(day))))
                        break
    return found


@pytest.fixture
def story() -> Story:
    """Three qualifications with requirements of every kind, held by two people."""
    needs: dict[str, Sequence[Requirement]] = {
        "deck": (practice(3, within("P90D")), signature(within("P12M"))),
        "night": (
            Holds("holds-deck", False, "deck"),
            Certified("light", True, "medical", within("P6M")),
        ),
        "either": (
            AnyOf(
                "any",
                True,
                (
                    replace(practice(5, within("P30D")), id="a"),
                    replace(practice(1, within("P60D")), id="b"),
                ),
            ),
        ),
    }
    bio = Bio(
        assigned=("deck 2025-01-01..", "night 2025-01-01..", "either 2025-01-01..2026-12-31"),
        signed=("2025-04-02 hand-recovery",),
        certificates=("medical 2025-10-01",),
    )
    return Story((Rules(needs),), FLOWN, bio)


@pytest.mark.parametrize("days", [1, 20, 32, 41, 60, 200])
@pytest.mark.parametrize("later", [0, 30, 45])
def test_lists_just_what_asking_day_by_day_finds(story: Story, days: int, later: int) -> None:
    reckoning, on = story.reckoning(), ON + timedelta(days=later)
    found = {
        (due.person, due.qualification, due.requirement, str(due.through))
        for due in listed(reckoning, on, days)
    }
    assert found == day_by_day(reckoning, on, days)


def test_the_soonest_comes_first(story: Story) -> None:
    days = [due.through for due in listed(story.reckoning(), ON, 365)]
    assert days == sorted(days)
    assert len(days) == 5


def test_within_the_notice_it_lists_what_makes_a_standing_due() -> None:
    story = one_need(practice(1, within("P90D")), flown=("2026-01-01 hand-recovery",))
    first_due = date(2026, 3, 3)  # 2026-04-01 is its last day, the notice 30 days
    assert story.standing(str(first_due)).word == "due"
    assert told(listed(story.reckoning(), first_due, 30)) == [("tested", "practice", "2026-04-01")]
    assert listed(story.reckoning(), first_due - timedelta(days=1), 30) == ()


def test_says_what_keeps_it_however_far_off_the_end_is() -> None:
    story = one_need(practice(1, within("P90D")), flown=("2026-01-01 hand-recovery",))
    [due] = listed(story.reckoning(), date(2026, 1, 2), 100)
    assert "1 more" in due.keeps[0]
    assert "2026-04-01" in due.keeps[0]


def test_what_is_not_met_any_more_does_not_end() -> None:
    story = one_need(practice(1, within("P90D")), flown=("2026-01-01 hand-recovery",))
    assert listed(story.reckoning(), date(2026, 4, 2), 60) == ()


def test_the_last_day_itself_is_listed() -> None:
    story = one_need(practice(1, within("P90D")), flown=("2026-01-01 hand-recovery",))
    assert told(listed(story.reckoning(), date(2026, 4, 1), 1)) == [
        ("tested", "practice", "2026-04-01")
    ]


@pytest.mark.parametrize(
    "bio",
    [
        Bio(assigned=("tested 2026-01-01..2026-03-31",)),
        Bio(assigned=("tested 2026-04-02..",)),
        Bio(left="2026-03-31"),
        Bio(left="2026-02-01"),
    ],
)
def test_what_outlasts_the_assignment_or_the_books_is_left_out(bio: Bio) -> None:
    flown = ("2026-01-01 hand-recovery",)
    story = one_need(practice(1, within("P90D")), flown=flown, bio=bio)
    assert listed(story.reckoning(), ON, 60) == ()


def test_a_new_edition_that_asks_for_more_ends_what_is_met_the_day_before() -> None:
    old, new = practice(1, within("P90D")), practice(3, within("P90D"))
    rules = (Rules({"tested": (old,)}), Rules({"tested": (new,)}, "2026-03-15"))
    reckoning = Story(rules, ("2026-02-20 hand-recovery",)).reckoning()
    [due] = listed(reckoning, ON, 60)
    assert (due.requirement, due.through) == ("practice", date(2026, 3, 14))
    assert due.edition == 1
    assert "2 more" in due.keeps[0]


def test_a_requirement_that_goes_on_under_a_new_edition_ends_by_the_new_one() -> None:
    old, new = practice(1, within("P30D")), practice(1, within("P60D"))
    rules = (Rules({"tested": (old,)}), Rules({"tested": (new,)}, "2026-03-15"))
    reckoning = Story(rules, ("2026-02-20 hand-recovery",)).reckoning()
    assert told(listed(reckoning, ON, 90)) == [("tested", "practice", "2026-04-21")]


def test_what_lapsed_before_a_new_edition_is_not_listed_by_it() -> None:
    need = practice(1, within("P30D"))
    rules = (Rules({"tested": (need,)}), Rules({"tested": (need,)}, "2026-04-15"))
    reckoning = Story(rules, ("2026-02-20 hand-recovery",)).reckoning()
    assert told(listed(reckoning, ON, 90)) == [("tested", "practice", "2026-03-22")]


def test_an_edition_that_drops_a_qualification_ends_it() -> None:
    need = practice(1, within("P90D"))
    rules = (Rules({"tested": (need,)}), Rules({"other": (need,)}, "2026-03-15"))
    reckoning = Story(rules, ("2026-02-20 hand-recovery",)).reckoning()
    dropped = [due for due in listed(reckoning, ON, 60) if due.qualification == "tested"]
    assert told(tuple(dropped)) == [("tested", "edition", "2026-03-14")]
    assert dropped[0].keeps == ()


def test_what_only_passes_on_another_qualification_is_told_elsewhere(story: Story) -> None:
    dues = listed(story.reckoning(), ON, 60)
    assert [(due.person, due.requirement) for due in told_elsewhere(dues)] == [
        (PERFORMER, "holds-deck")
    ]


def test_what_passes_on_a_qualification_that_is_not_assigned_stands_for_itself() -> None:
    needs: dict[str, Sequence[Requirement]] = {
        "deck": (practice(1, within("P90D")),),
        "night": (Holds("h", False, "deck"),),
    }
    story = Story((Rules(needs),), FLOWN, Bio(assigned=("night 2025-01-01..",)))
    dues = listed(story.reckoning(), ON, 120)
    assert [due.requirement for due in dues] == ["h"]
    assert told_elsewhere(dues) == frozenset()
