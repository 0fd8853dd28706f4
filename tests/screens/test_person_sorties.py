"""Tests of one person's sorties."""

from datetime import date
from zoneinfo import ZoneInfo

from crewtrack.engine.conditions import Conditions
from crewtrack.screens.person_sorties import (
    Counted,
    Counts,
    Seen,
    SortieLine,
    counted_in,
    light_told,
    sortie_lines,
    sortie_table,
)
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.standard_builder import Rules

ON = date(2026, 11, 25)
FLOWN = (
    "2026-11-20T10:15 launch catch x2 drifting sea2 wind8 day 12min vessel:rib under:K-09",
    "2026-11-26T09:00 launch",
    "2026-11-21T09:00 launch by:K-02",
)
NAMES = {"K-09": "Ana Kovač"}


def seen() -> Seen:
    made = reckoning(Rules({}), flown=FLOWN, bios=(Bio(),))
    return Seen(made.evidence, made.editions.standards[0], ZoneInfo("UTC"))


def nothing_counted(_: str, __: str) -> Counted:
    return None, None


def lines() -> tuple[SortieLine, ...]:
    told = seen()
    return sortie_lines(told, told.evidence.books["K-01"], ON)


def cells(line: SortieLine, counts: Counts = nothing_counted) -> dict[str, str]:
    table = sortie_table(lines(), seen(), NAMES, counts)
    return {column.title: column.text(line) for column in table.columns}


def test_the_person_s_own_sorties_stand_newest_first() -> None:
    assert [line.key for line in lines()] == ["S-002", "S-001"]


def test_a_sortie_after_the_day_is_told_apart_not_hidden() -> None:
    later, counting = lines()
    assert cells(later)["On the day"] == "later, does not count yet"
    assert cells(counting)["On the day"] == "counts"


def test_nothing_is_said_of_later_where_nothing_is_later() -> None:
    titles = [
        one.title for one in sortie_table(lines()[1:], seen(), NAMES, nothing_counted).columns
    ]
    assert "On the day" not in titles


def test_tasks_are_told_with_how_often_and_attempts_and_wave_offs() -> None:
    held = {("S-001", "catch"): (5, 1), ("S-001", "launch"): (2, 0)}
    told = cells(lines()[1], lambda sortie, task: held[sortie, task])
    assert told["Tasks"] == "launch × 2; catch × 2 (5 attempts, 1 waved off)"


def test_conditions_and_supervisor_are_told_as_far_as_recorded() -> None:
    told = cells(lines()[1])
    assert told["Conditions"] == "live, drifting, sea 2, wind 8 kn, rib"
    assert told["Supervisor"] == "Ana Kovač"
    assert (told["Launched"], told["Minutes"], told["Light"]) == ("10:15", "12", "day")


def test_light_is_empty_where_no_position_is_known() -> None:
    assert cells(lines()[0])["Light"] == ""


def test_attempts_and_wave_offs_are_read_from_a_performance() -> None:
    assert counted_in(("S-1", "K-01", "catch", 1, None, 2, 1, None)) == (2, 1)
    assert counted_in(("S-1", "K-01", "catch", 1, None, None, None, None)) == (None, None)


def test_sorting_by_tasks_asks_for_no_counts() -> None:
    def unasked(_: str, __: str) -> Counted:
        raise AssertionError("asked")

    columns = sortie_table(lines(), seen(), NAMES, unasked).columns
    tasks = next(column for column in columns if column.title == "Tasks")
    assert [tasks.rank(line) for line in lines()] == ["launch", "launch; catch"]


def test_light_that_changes_between_launch_and_recovery_is_told_twice() -> None:
    class Dusk(Conditions):
        def light(self, i: int, moment: str) -> int:
            return {"launch": 1, "recovery": 2}[moment]

    told = seen()
    assert light_told(Dusk(told.evidence.sorties, told.standard), 0) == "twilight → night"
