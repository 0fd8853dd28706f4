"""The demonstration's facts and editions: everything is generated from a seed and the day that it
is made for, never from the clock, so that on one given day it is always the same."""

import re
from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from pathlib import Path
from random import Random
from typing import Final
from zoneinfo import ZoneInfo

from crewtrack.facts import Row
from crewtrack.office import demonstration_papers as papers
from crewtrack.office.demonstration_flying import Flying
from crewtrack.office.demonstration_scenario import Scenario, read_scenario
from crewtrack.office.shipped import shipped

ZONE: Final = ZoneInfo("America/Detroit")
_SEED: Final = "tamarack harbor"


def rows(on: date) -> Mapping[str, list[Row]]:
    """All facts by the name of their kind, as the record holds them in the end."""
    return generated(on)[1]


@lru_cache(maxsize=8)
def generated(on: date) -> tuple[Scenario, Mapping[str, list[Row]]]:
    """The scenario set around a day, and all rows that come of it."""
    scenario = read_scenario(on)
    chance = Random(f"{_SEED} {on.isoformat()}")
    flying = Flying(scenario, ZONE, chance)
    flying.fly()
    signed = papers.signoffs(scenario, flying.signing.rows)
    return scenario, {
        "people": papers.people(scenario),
        "assignments": papers.assignments(scenario),
        "vessels": papers.vessels(scenario),
        "aircraft": papers.aircraft(scenario),
        "sorties": flying.log.sorties,
        "performances": flying.log.performances,
        "signoffs": signed,
        "certifications": [],
        "certificates": papers.certificates(scenario, chance),
        "waivers": papers.waivers(scenario, signed),
        "standdowns": papers.standdowns(scenario),
    }


def editions(on: date) -> tuple[tuple[date, str], ...]:
    """The first day of each edition of the unit's standard, and its text."""
    scenario = read_scenario(on)
    return (
        (scenario.start, _dated(shipped("demo", "first-edition.toml"), scenario.start)),
        (scenario.second, _dated(shipped("standards", "tamarack-harbor.toml"), scenario.second)),
    )


def _dated(path: Path, effective: date) -> str:
    """A shipped standard, in effect from a day and named after its half-year."""
    text = path.read_text(encoding="utf-8")
    name = f"{effective.year}-{1 if effective.month < 7 else 2}"
    text = re.sub(r'^(edition\s*=\s*)"[^"]*"', rf'\g<1>"{name}"', text, flags=re.MULTILINE)
    return re.sub(r"^(effective\s*=\s*)\S+", rf"\g<1>{effective}", text, flags=re.MULTILINE)
