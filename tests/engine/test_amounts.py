"""How much counts: each unit once, drills up to their bound, shortest way back."""

from collections.abc import Sequence
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crewtrack.engine import amounts
from crewtrack.engine.amounts import Amounts, reached
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


def walked(requirement: Recent, done: list[tuple[int, int, bool]], units: Sequence[int]) -> Any:
    """What ``reached`` gives for days, amounts and drills: day by position."""
    days, counts, drill = zip(*done, strict=True) if done else ((), (), ())
    columns = Amounts(units, counts, drill)
    return dict(reached(requirement, days, columns, range(len(done))))


@given(entries(), st.integers(1, 6), st.integers(0, 3))
def test_the_amount_is_reached_where_a_walk_back_from_the_newest_reaches_it(
    steps: list[tuple[int, int, bool]], needed: int, bound: int
) -> None:
    when, done, expected = 700_000, [], {}
    for position, (step, amount, drill) in enumerate(steps):
        when += step
        done.append((when, amount, drill))
        earliest = longhand(done, needed, bound)
        if earliest is not None:
            expected[position] = earliest
    assert walked(rule(needed, drills=bound), done, range(len(done))) == expected


def test_what_counts_starts_anew_with_each_period() -> None:
    days = [day("2026-01-30"), day("2026-01-31"), day("2026-02-01"), day("2026-02-02")]
    found = walked(rule(2, horizon=each("month")), [(d, 1, False) for d in days], range(4))
    assert found == {1: days[0], 3: days[2]}


def test_a_unit_that_comes_again_counts_once() -> None:
    done = [(700_000, 1, False)] * 3
    assert walked(rule(2, measure="sorties"), done, (5, 5, 6)) == {2: 700_000}


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
