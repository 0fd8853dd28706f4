"""How much counts: each unit once, drills up to their bound, shortest way back."""

from collections.abc import Sequence
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine import amounts
from crewtrack.engine.amounts import Window
from crewtrack.engine.requirement import MEASURES, Recent
from tests.case_builder import case
from tests.evidence_builder import day
from tests.standard_builder import Rules, each, within


def rule(amount: int = 1, **more: Any) -> Recent:
    return Recent("r", True, ("recovery",), amount=amount, **{"horizon": within("P30D"), **more})


def counted(requirement: Recent, flown: Sequence[str], on: str) -> list[tuple[int, int]]:
    asked = case(Rules({"deck": (requirement,)}), flown=flown)
    done = asked.practice(requirement)
    return amounts.counted(requirement, done, asked.flown, range(len(done.day)), day(on))


def test_what_counts_is_told_newest_first_until_the_amount_is_reached() -> None:
    flown = ["2026-01-01 recovery", "2026-01-02 recovery", "2026-01-03 recovery x2"]
    assert counted(rule(3), flown, "2026-01-10") == [(2, 2), (1, 1)]


def test_what_counts_leaves_out_what_is_too_old() -> None:
    flown = ["2025-11-01 recovery", "2026-01-02 recovery"]
    assert counted(rule(3), flown, "2026-01-10") == [(1, 1)]


def test_a_drill_beyond_the_bound_is_left_out_and_part_of_one_can_count() -> None:
    flown = ["2026-01-01 recovery x2", "2026-01-02 recovery x3 drill"]
    assert counted(rule(3, drills=2), flown, "2026-01-10") == [(1, 2), (0, 2)]


def test_a_sortie_counts_once_however_many_performances_it_holds() -> None:
    flown = ["2026-01-01 recovery x5", "2026-01-02 recovery"]
    assert counted(rule(2, measure="sorties"), flown, "2026-01-10") == [(1, 1), (0, 1)]


def test_with_periods_only_the_period_of_the_day_counts() -> None:
    flown = ["2026-01-31 recovery", "2026-02-01 recovery"]
    assert counted(rule(2, horizon=each("month")), flown, "2026-02-10") == [(1, 1)]


def entries() -> st.SearchStrategy[list[tuple[int, int, bool]]]:
    """Steps between days, amounts, drills."""
    return st.lists(st.tuples(st.integers(0, 20), st.integers(0, 4), st.booleans()), max_size=25)


def longhand(done: list[tuple[int, int, bool]], needed: int, bound: int) -> int | None:
    """Walk back from the newest, drills up to the bound, until there is enough."""
    total, budget = 0, bound
    for when, amount, drill in reversed(done):
        counts = min(amount, budget) if drill else amount
        budget -= counts if drill else 0
        total += counts
        if total >= needed:
            return when
    return None


@given(entries(), st.integers(1, 6), st.integers(0, 3))
def test_the_window_ends_where_a_walk_back_from_the_newest_does(
    steps: list[tuple[int, int, bool]], needed: int, bound: int
) -> None:
    window = Window(rule(needed, drills=bound, horizon=within("P30D")))
    when, done = 700_000, []
    for unit, (step, amount, drill) in enumerate(steps):
        when += step
        done.append((when, amount, drill))
        assert window.add(when, unit, amount, drill) == longhand(done, needed, bound)


def test_the_window_starts_anew_with_each_period() -> None:
    window = Window(rule(2, horizon=each("month")))
    days = [day("2026-01-30"), day("2026-01-31"), day("2026-02-01"), day("2026-02-02")]
    found = [window.add(when, unit, 1, False) for unit, when in enumerate(days)]
    assert found == [None, days[0], None, days[2]]


def test_a_unit_that_comes_again_counts_once() -> None:
    window = Window(rule(2, measure="sorties"))
    found = [window.add(700_000, unit, 1, False) for unit in (5, 5, 6)]
    assert found == [None, None, 700_000]


def test_every_measure_has_its_columns() -> None:
    asked = case(Rules({"deck": (rule(),)}), flown=["2026-01-01 recovery x2 45min drill"])
    done = asked.practice(rule())
    found = {
        measure: amounts.amounts(rule(measure=measure, drills=1), done, asked.flown)
        for measure in MEASURES
    }
    assert {measure: list(told.amount) for measure, told in found.items()} == {
        "times": [2], "minutes": [45], "sorties": [1], "days": [1],
    }  # fmt: skip
    assert all(list(told.drill) == [True] for told in found.values())
