"""How long one requirement is covered, as each day knew it.

Trust: what one reckoning answers for many days is compared with a fresh one for each day, given no
more than that day knew, and with the day-by-day oracle.
"""

import os
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack.engine.cover import Cover, spliced, stepped
from crewtrack.engine.evidence import Books, Evidence, Performances
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.spans import NEVER, Days, intersection, union
from crewtrack.engine.standard import Editions
from crewtrack.engine.standings import Standing
from tests.oracle import Oracle
from tests.strategies import World, worlds

EXAMPLES: Final = int(os.environ.get("ORACLE_EXAMPLES", "30"))
"""How many histories the long property tries; more on demand."""

BEYOND: Final = timedelta(days=4 * 366)
"""Longer than any horizon that the strategies draw."""

ENDED = stepped([(10, 30), (20, 19), (25, 40)])
"""Passed, failed, passed again."""


def test_before_the_first_step_nothing_is_covered() -> None:
    assert ENDED.known_on(9) == NEVER
    assert ENDED.last_on(9) == 0


def test_from_a_step_on_its_last_day_is_known() -> None:
    assert ENDED.known_on(10) == ENDED.known_on(19) == ((10, 30),)


def test_a_day_that_the_newest_step_no_longer_reaches_is_not_covered() -> None:
    assert stepped([(10, 30)]).known_on(31) == ((10, 30),)
    assert stepped([(10, 30)]).ahead(31) == NEVER


def test_a_step_that_ends_the_cover_leaves_the_days_before_it() -> None:
    assert ENDED.known_on(20) == ENDED.known_on(24) == ((10, 19),)


def test_a_later_step_starts_anew() -> None:
    assert ENDED.known_on(25) == ENDED.known_on(99) == ((10, 19), (25, 40))
    assert ENDED.met == ((10, 19), (25, 40))


def test_ahead_is_what_lies_on_the_day_and_after_it() -> None:
    assert ENDED.ahead(12) == ((12, 30),)


def test_of_several_steps_on_one_day_the_last_one_holds() -> None:
    assert stepped([(10, 30), (10, 9)]).known_on(10) == NEVER
    assert stepped([(10, 9), (10, 30)]).known_on(10) == ((10, 30),)


def test_without_steps_nothing_is_ever_covered() -> None:
    assert stepped([]) == Cover()
    assert Cover().known_on(10) == NEVER


def test_a_cover_that_is_replaced_holds_on_the_days_before() -> None:
    both = stepped([(10, 90)]).replaced(stepped([(20, 40)]), 30)
    assert both.known_on(29) == ((10, 90),)
    assert both.known_on(30) == ((10, 40),)


def test_from_the_day_of_the_replacement_on_the_other_cover_holds() -> None:
    both = stepped([(10, 90)]).replaced(stepped([(20, 25), (50, 60)]), 30)
    assert both.known_on(30) == ((10, 29),)
    assert both.known_on(50) == ((10, 29), (50, 60))


def test_a_step_on_the_very_day_of_the_replacement_is_the_other_covers() -> None:
    both = stepped([(30, 90)]).replaced(stepped([(30, 40)]), 30)
    assert (both.last_on(30), both.met) == (40, ((30, 40),))


RUNS = st.lists(st.tuples(st.integers(1, 12), st.integers(0, 4)), max_size=4)


@given(RUNS, RUNS, st.integers(1, 15))
def test_two_sets_are_spliced_at_a_day(
    one: list[tuple[int, int]], other: list[tuple[int, int]], day: int
) -> None:
    before, after = (union(*(((f, f + n),) for f, n in runs)) for runs in (one, other))
    expected = union(intersection(before, ((1, day - 1),)), intersection(after, ((day, 99),)))
    assert spliced(before, after, day) == expected


@pytest.mark.parametrize(
    ("after", "whole"),
    [
        (((3, 12),), ((1, 5), (8, 12))),
        (((10, 12),), ((1, 5), (8, 12))),
        (((11, 12),), ((1, 5), (8, 9), (11, 12))),
        (NEVER, ((1, 5), (8, 9))),
    ],
)
def test_what_touches_at_the_splice_is_one_run(after: Days, whole: Days) -> None:
    assert spliced(((1, 5), (8, 20)), after, 10) == whole


def known_by(evidence: Evidence, day: int) -> Evidence:
    """The same evidence without all that is dated after a day."""

    def performed(done: Performances) -> Performances:
        count = sum(evidence.sorties.day[sortie] <= day for sortie in done.sortie)
        return Performances(
            done.sortie[:count], done.order[:count], done.times[:count], done.supervisor[:count]
        )

    def cut(books: Books) -> Books:
        return replace(
            books,
            assignments=tuple(a for a in books.assignments if a.first <= day),
            performances={task: performed(done) for task, done in books.performances.items()},
            signoffs=tuple(
                replace(s, withdrawn=None) if s.withdrawn and s.withdrawn > day else s
                for s in books.signoffs
                if s.day <= day
            ),
            certificates=tuple(
                replace(c, revoked=None) if c.revoked and c.revoked > day else c
                for c in books.certificates
                if c.issued <= day
            ),
            waivers=tuple(w for w in books.waivers if w.first <= day),
            standdowns=tuple(s for s in books.standdowns if s.first <= day),
        )

    return Evidence(evidence.sorties, {key: cut(books) for key, books in evidence.books.items()})


def told(standings: Sequence[Standing]) -> list[Standing]:
    """The order among waivers is no part of the contract."""
    return [replace(one, by_waiver=tuple(sorted(one.by_waiver))) for one in standings]


def expected_of(oracle: Oracle, editions: Editions, day: date) -> list[Standing]:
    """Everybody's standings on a day by the oracle."""
    return [
        oracle.standing(person, qualification.key, day)
        for person in sorted(oracle.evidence.books)
        if oracle.on_the_books(person, day)
        for qualification in editions.qualifications_on(day.toordinal())
    ]


@settings(max_examples=EXAMPLES * 2)
@given(
    worlds(),
    st.lists(
        st.tuples(st.integers(0, 23), st.sampled_from((-1, 0, 1, 30, 31, 91))),
        min_size=4,
        max_size=8,
    ),
)
def test_one_reckoning_answers_for_many_days_as_a_fresh_one_does_for_each(
    world: World, drawn: list[tuple[int, int]]
) -> None:
    evidence, editions = world.evidence(), world.editions()
    one, oracle = Reckoning(evidence, editions), Oracle(evidence, editions, BEYOND)
    for place, later in drawn:
        day = world.dates[place % len(world.dates)] + timedelta(days=later)
        found = told(one.standings(day))
        fresh = Reckoning(known_by(evidence, day.toordinal()), editions)
        assert found == told(fresh.standings(day))
        assert found == expected_of(oracle, editions, day)
    assert one.history() == Reckoning(evidence, editions).history()
