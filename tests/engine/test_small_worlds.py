"""The engine against the oracle on thousands of small histories, each from its own seed.

Trust: as in ``test_against_oracle``; here the density, there the length and variety.
"""

import os
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from random import Random
from typing import Final

import pytest

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.spans import as_spans
from tests.evidence_builder import PERFORMER
from tests.oracle import Oracle
from tests.small_units import unit_world
from tests.small_worlds import KEYS, practice_world, signature_world
from tests.strategies import World

SCALE: Final = int(os.environ.get("ORACLE_EXAMPLES", "50"))
"""Histories of each kind, in multiples that take about as long; more on demand."""

BEYOND: Final = timedelta(days=400)


@pytest.mark.parametrize(
    ("make", "count"), [(practice_world, SCALE * 40), (signature_world, SCALE * 20)]
)
def test_one_requirement_is_met_on_the_very_days_that_the_contract_gives(
    make: Callable[[Random], World], count: int
) -> None:
    for seed in range(count):
        world = make(Random(seed))
        evidence, editions = world.evidence(), world.editions()
        (standard,) = editions.standards
        (need,) = standard.qualifications[KEYS[0]].needs
        assert isinstance(need, Recent | Signed | Certified)
        spans = as_spans(Reckoning(evidence, editions).met(PERFORMER, standard, need, None))
        oracle = Oracle(evidence, editions, BEYOND)
        assert spans == oracle.requirement_spans(PERFORMER, standard, need), (seed, world)


def test_every_standing_on_every_day_is_what_day_by_day_reckoning_says() -> None:
    for seed in range(SCALE * 8):
        world = unit_world(Random(seed))
        evidence, editions = world.evidence(), world.editions()
        oracle, engine = Oracle(evidence, editions, BEYOND), Reckoning(evidence, editions)
        assert engine.history() == oracle.history(), (seed, world)
        for key in KEYS:
            for day in world.dates:
                told = engine.standing(PERFORMER, key, day)
                told = replace(told, by_waiver=tuple(sorted(told.by_waiver)))
                assert told == oracle.standing(PERFORMER, key, day), (seed, day, world)
