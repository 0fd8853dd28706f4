"""The engine against the day-by-day oracle, and what must hold whatever the history.

Trust: the oracle reads the contract's sentences literally and shares no idea with the engine.
"""

import os
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from random import Random
from typing import Final

from hypothesis import given, settings
from hypothesis import strategies as st

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.spans import Span, as_spans
from crewtrack.engine.standings import Standing
from tests.evidence_builder import PERFORMER, Bio
from tests.oracle import Oracle
from tests.rule_strategies import QUALIFICATIONS
from tests.single_strategies import certificate_worlds, practice_worlds, signature_worlds
from tests.strategies import World, worlds

EXAMPLES: Final = int(os.environ.get("ORACLE_EXAMPLES", "30"))
"""How many histories each property tries; more on demand."""

BEYOND: Final = timedelta(days=4 * 366)
"""Longer than any horizon that the strategies draw."""

PLACES = st.lists(st.integers(0, 99), min_size=4, max_size=7)


def telling_days(dates: Sequence[date], places: Sequence[int]) -> list[date]:
    """Some of the dates themselves, the days beside them, and those a horizon ahead of them."""
    days = sorted({day + timedelta(days=n) for day in dates for n in (-1, 0, 1, 30, 31, 90, 91)})
    return [days[place % len(days)] for place in places]


def told(standing: Standing) -> Standing:
    """The order among waivers is no part of the contract."""
    return replace(standing, by_waiver=tuple(sorted(standing.by_waiver)))


def standings(world: World, days: Sequence[date]) -> list[Standing]:
    """What the engine says of every qualification on each day."""
    engine = Reckoning(world.evidence(), world.editions())
    return [told(engine.standing(PERFORMER, key, day)) for key in QUALIFICATIONS for day in days]


@settings(max_examples=EXAMPLES * 3)
@given(worlds(), PLACES)
def test_the_standing_on_any_day_is_what_day_by_day_reckoning_says(
    world: World, places: list[int]
) -> None:
    days = telling_days(world.dates, places)
    oracle = Oracle(world.evidence(), world.editions(), BEYOND)
    expected = [oracle.standing(PERFORMER, key, day) for key in QUALIFICATIONS for day in days]
    assert standings(world, days) == expected


@settings(max_examples=EXAMPLES)
@given(worlds())
def test_the_history_is_the_run_of_days_that_count_each_as_it_was(world: World) -> None:
    evidence, editions = world.evidence(), world.editions()
    expected = Oracle(evidence, editions, BEYOND).history()
    assert Reckoning(evidence, editions).history() == expected


def own_spans(world: World) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """The spans of a world's only requirement, by the engine and by the oracle."""
    evidence, editions = world.evidence(), world.editions()
    (standard,) = editions.standards
    (need,) = standard.qualifications[QUALIFICATIONS[0]].needs
    assert isinstance(need, Recent | Signed | Certified)
    spans = as_spans(Reckoning(evidence, editions).met(PERFORMER, standard, need, None))
    return spans, Oracle(evidence, editions, BEYOND).requirement_spans(PERFORMER, standard, need)


@settings(max_examples=EXAMPLES * 4)
@given(practice_worlds())
def test_practice_is_met_on_the_very_days_that_the_steps_of_the_contract_give(
    world: World,
) -> None:
    spans, expected = own_spans(world)
    assert spans == expected


@settings(max_examples=EXAMPLES * 4)
@given(signature_worlds())
def test_a_sign_off_covers_the_very_days_that_the_contract_gives(world: World) -> None:
    spans, expected = own_spans(world)
    assert spans == expected


@settings(max_examples=EXAMPLES * 3)
@given(certificate_worlds())
def test_a_certificate_covers_the_very_days_that_the_contract_gives(world: World) -> None:
    spans, expected = own_spans(world)
    assert spans == expected


@settings(max_examples=EXAMPLES)
@given(worlds(), PLACES)
def test_an_explanation_says_which_requirements_are_met(world: World, places: list[int]) -> None:
    evidence, editions = world.evidence(), world.editions()
    oracle, engine = Oracle(evidence, editions, BEYOND), Reckoning(evidence, editions)
    for day in telling_days(world.dates, places)[:3]:
        for key, held in oracle.edition_on(day).qualifications.items():
            explained = engine.explain(PERFORMER, key, day)
            assert told(explained.standing) == oracle.standing(PERFORMER, key, day)
            view = oracle.view(PERFORMER, day, day)
            expected = [(n.id, oracle.is_met(view, key, n, day)) for n in held.needs]
            assert [(e.id, e.met) for e in explained.requirements] == expected


def until(lines: Sequence[str], day: date, field: int) -> list[str]:
    """The lines whose date, or span's first date, lies on or before a day."""
    return [line for line in lines if line.split()[field][:10] <= str(day)]


def before(line: str, day: date) -> str:
    """A line without its withdrawal, certification or revocation, if that is later than a day."""
    dated = ("withdrawn", "certified", "revoked")
    words = [word for word in line.split() if word.partition(":")[0] in dated]
    late = [word for word in words if word.partition(":")[2] > str(day)]
    return " ".join(word for word in line.split() if word not in late)


def forgetting(world: World, day: date) -> World:
    """The same world without all that is dated after a day."""
    bio = world.bio
    known = Bio(
        bio.key,
        assigned=until(bio.assigned, day, 1),
        signed=[before(line, day) for line in until(bio.signed, day, 0)],
        certificates=[before(line, day) for line in until(bio.certificates, day, 1)],
        waivers=until(bio.waivers, day, 2),
        standdowns=until(bio.standdowns, day, 1),
        joined=bio.joined,
        left=bio.left,
        born=bio.born,
    )
    return replace(world, flown=tuple(until(world.flown, day, 0)), bio=known)


@settings(max_examples=EXAMPLES)
@given(worlds(), st.integers(0, 99))
def test_what_is_dated_later_never_changes_the_standing_on_a_day(world: World, place: int) -> None:
    (day,) = telling_days(world.dates, [place])
    assert standings(world, [day]) == standings(forgetting(world, day), [day])


@settings(max_examples=EXAMPLES)
@given(worlds(), PLACES, st.randoms(use_true_random=False))
def test_the_order_in_which_facts_are_entered_never_matters(
    world: World, places: list[int], random: Random
) -> None:
    def shuffled(lines: Sequence[str]) -> list[str]:
        return random.sample(list(lines), len(lines))

    bio = world.bio
    mixed = replace(
        bio,
        assigned=shuffled(bio.assigned),
        # Results of one date take effect in the order in which they were recorded.
        signed=sorted(bio.signed, key=lambda line: line.split()[0], reverse=True),
        certificates=shuffled(bio.certificates),
        waivers=shuffled(bio.waivers),
        standdowns=shuffled(bio.standdowns),
    )
    other = replace(world, flown=tuple(shuffled(world.flown)), bio=mixed)
    days = telling_days(world.dates, places)
    assert standings(world, days) == standings(other, days)
