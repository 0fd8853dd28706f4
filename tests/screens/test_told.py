"""What is said below the screens shows in another language, word by word: nothing is glued from
pieces that no catalogue knows. Names, titles and keys here have no small letters."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import chain

import pytest

from crewtrack.engine.days import Duration
from crewtrack.engine.due import listed
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import (
    AgeBand,
    AllOf,
    AnyOf,
    Certified,
    Floor,
    Holds,
    Only,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.standard import Editions
from crewtrack.screens import language
from crewtrack.screens.due_table import keeps_told, rule_told
from crewtrack.screens.life_lines import life_lines, line_spoken
from crewtrack.screens.reasons_words import reasons
from tests.case_builder import reckoning
from tests.evidence_builder import Bio
from tests.shouting import Shouted, said_small
from tests.standard_builder import Rules, each, within

PERSON = "K-01"
MEDICAL = Certified("C", True, "MEDICAL", horizon=within("P1Y"))
HANDLED = Recent("N", True, ("T-1",), amount=2, horizon=within("P90D"))
FLOWN = (
    "2026-03-01 T-1 by:K-01 under-way night sea3 wind12 heading0 speed8 wind_from0 vessel:RIB",
    "2026-03-05 T-1 by:K-01 x2 drill moored wind9 vessel:AUK",
    "2026-03-08T20:00 T-2 by:K-01 anchored 90min",
)


@pytest.fixture(autouse=True)
def shouted() -> Iterator[None]:
    language.use("shouted", Shouted())
    yield
    language.use(language.ENGLISH, {})


def record(*needs: Requirement, bio: Bio, notice: str = "P30D") -> Reckoning:
    rules = Rules({"BASE": (MEDICAL,), "DECK": needs}, notice=notice)
    made = reckoning(rules, flown=FLOWN, bios=(replace(bio, key=PERSON),))
    (standard,) = made.editions.standards
    return Reckoning(made.evidence, Editions((replace(standard, edition="1"),)))


def shown(made: Reckoning, on: str, qualification: str = "DECK") -> str:
    """All that the reasons and the life lines of a standing say."""
    day = date.fromisoformat(on)
    told = made.explain(PERSON, qualification, day)
    said = (one.text for one in reasons(told))
    return "\n".join(chain(said, map(line_spoken, life_lines(made, told, day))))


ASSIGNED = Bio(assigned=("DECK 2026-01-01..",))
FLOORS = Floor(light=1, way=1, sea=2, wind=10.0, apparent=12.0)
PRACTICE = (
    HANDLED,
    replace(HANDLED, horizon=within("P1Y", "month-end"), measure="minutes", amount=900),
    replace(HANDLED, horizon=each("quarter"), measure="days", amount=9),
    replace(HANDLED, horizon=each("half-year"), measure="sorties", amount=9),
    replace(HANDLED, amount=9, drills=0, floor=FLOORS, only=Only(("A", "B"), ("RIB", "AUK"))),
    replace(HANDLED, amount=9, drills=8, supervised_regain=True, floor=Floor(light=2, way=3)),
    replace(HANDLED, amount=9, drills=0, recheck=Duration(days=20), floor=Floor(light=0)),
    replace(HANDLED, amount=9, recheck=Duration(days=20), only=Only(("A",))),
    replace(HANDLED, amount=9, recheck=Duration(days=20), drills=0),
    replace(HANDLED, amount=9, recheck=Duration(days=20)),
    replace(HANDLED, horizon=within("P90D"), tasks=("T-1", "T-2", "T-3")),
    replace(HANDLED, horizon=each("month")),
    replace(HANDLED, horizon=each("year"), amount=1),
    replace(HANDLED, horizon=within("P30D"), recheck=Duration(days=90)),
    replace(HANDLED, horizon=within("P400D"), amount=1),
)
CHECKED = replace(ASSIGNED, signed=("2026-02-25 T-1 alone as:E-1",))


@pytest.mark.parametrize("need", PRACTICE)
@pytest.mark.parametrize("on", ["2026-02-20", "2026-03-10", "2026-04-25", "2026-08-01"])
@pytest.mark.parametrize("bio", [ASSIGNED, CHECKED])
def test_reasons_of_practice_are_told_whole(bio: Bio, on: str, need: Recent) -> None:
    assert said_small(shown(record(need, bio=bio), on)) == ""
    assert said_small(shown(record(need, bio=bio, notice="P1Y"), on)) == ""


@pytest.mark.parametrize(
    "lines",
    [
        (),
        ("2026-02-01 T-1 alone as:E-1",),
        ("2026-02-01 T-1 failed as:E-1",),
        ("2026-02-01 T-1 alone as:E-1 withdrawn:2026-02-10",),
        ("2025-02-01 T-1 evaluator as:E-1",),
        ("2026-02-01 T-1 evaluator as:E-1",),
    ],
)
@pytest.mark.parametrize(
    "need",
    [
        Signed("S", True, "T-1", horizon=within("P1Y"), early=1, late=2),
        Signed("S", True, "T-1", level=3),
    ],
)
def test_reasons_of_sign_offs_are_told_whole(lines: Sequence[str], need: Signed) -> None:
    bio = replace(ASSIGNED, signed=lines)
    assert said_small(shown(record(need, bio=bio, notice="P1Y"), "2026-03-10")) == ""


@pytest.mark.parametrize(
    "lines",
    [
        (),
        ("MEDICAL 2026-01-01",),
        ("MEDICAL 2026-01-01 expires:2026-03-20",),
        ("MEDICAL 2026-01-01 revoked:2026-02-01",),
        ("MEDICAL 2026-12-01",),
        ("MEDICAL 2026-02-01 expires:2026-01-01",),
        ("MEDICAL 2024-01-01",),
    ],
)
@pytest.mark.parametrize("born", [None, "1980-05-05"])
def test_reasons_of_certificates_are_told_whole(lines: Sequence[str], born: str | None) -> None:
    bands = (AgeBand(40, within("P2Y")), AgeBand(None, within("P1Y")))
    bio = replace(ASSIGNED, certificates=lines, born=born)
    need = replace(MEDICAL, ages=bands)
    assert said_small(shown(record(need, bio=bio, notice="P1Y"), "2026-03-10")) == ""


@pytest.mark.parametrize(
    "bio",
    [
        ASSIGNED,
        replace(ASSIGNED, certificates=("MEDICAL 2026-01-01",)),
        replace(ASSIGNED, standdowns=("all 2026-01-01.. as:D-1 why:YARD by:K-99",)),
        replace(ASSIGNED, standdowns=("BASE 2026-01-01..2026-04-01 as:D-1 by:K-99",)),
        replace(ASSIGNED, joined="2026-04-01"),
        replace(ASSIGNED, left="2026-02-01"),
        Bio(),
        Bio(assigned=("DECK 2026-01-01..2026-02-01",)),
        Bio(assigned=("DECK 2026-05-01..",)),
        Bio(assigned=("DECK 2026-01-01..2026-02-01", "DECK 2026-05-01..")),
        replace(ASSIGNED, waivers=("DECK C 2026-03-01..2026-04-01 as:W-1 why:YARD by:K-99",)),
        replace(ASSIGNED, waivers=("DECK H 2026-03-01..2026-04-01 extension as:W-1",)),
        replace(ASSIGNED, waivers=("DECK GONE 2026-03-01..2026-04-01 as:W-1",)),
    ],
)
def test_what_is_nested_and_what_else_bears_on_a_standing_is_told_whole(bio: Bio) -> None:
    both = AllOf("B", True, (MEDICAL, Signed("S", True, "T-1")))
    needs = (
        Holds("H", True, "BASE"),
        AnyOf("A", True, (HANDLED, both, AnyOf("Z", True, (MEDICAL, both)))),
        AllOf("D", True, (both, AnyOf("Y", True, (MEDICAL, HANDLED)))),
    )
    assert said_small(shown(record(*needs, bio=bio), "2026-03-10")) == ""


def test_a_qualification_that_an_edition_lacks_is_told_whole() -> None:
    assert said_small(shown(record(MEDICAL, bio=ASSIGNED), "2026-03-10", "NONE")) == ""


def test_what_ends_soon_is_told_whole() -> None:
    bio = replace(ASSIGNED, certificates=("MEDICAL 2026-01-01 expires:2026-03-20",))
    made = record(MEDICAL, Holds("H", True, "BASE"), bio=bio)
    dues = listed(made, date(2026, 3, 10), 60)
    assert len(dues) == 2
    for due in dues:
        assert said_small(keeps_told(due) + rule_told(due, made.editions)) == ""
