"""Hypothesis strategies for standards: every kind of requirement, with every option."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from functools import cache

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from crewtrack.engine.days import PERIODS, Duration, Horizon
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
from crewtrack.engine.standard import Task
from tests.standard_builder import Rules

TASKS = ("launch", "recovery")
KINDS = ("medical", "radio")
QUALIFICATIONS = ("basic", "deck", "night")
WITHIN = ("P1D", "P2W", "P30D", "P60D", "P90D", "P1M", "P2M", "P3M", "P6M", "P1Y", "P2Y")
NOTICES = ("P1D", "P30D", "P1M")


@cache
def one_in(count: int) -> SearchStrategy[bool]:
    """True one time in ``count``, as far as chance goes."""
    return st.sampled_from([False] * (count - 1) + [True])


@cache
def perhaps(values: tuple[int, ...], among: int) -> SearchStrategy[int | None]:
    """A value one time in ``among``, else None."""
    return st.sampled_from([*values, *[None] * len(values) * (among - 1)])


DURATIONS = tuple(Duration.parse(text) for text in WITHIN)
MONTHS = tuple(duration for duration in DURATIONS if duration.months)
MONTH_ENDS = st.sampled_from([Horizon(months, True) for months in MONTHS])
HORIZONS = st.sampled_from([Horizon(d) for d in DURATIONS]) | MONTH_ENDS | st.just(Horizon())
EACH = st.sampled_from([Horizon(each=period) for period in PERIODS])
FLOORS = st.just(Floor()) | st.builds(
    Floor,
    light=perhaps((0, 1, 2), 4),
    way=perhaps((0, 1, 2, 3), 4),
    sea=perhaps((0, 1, 3), 4),
    wind=perhaps((0, 5, 10), 4),
    apparent=perhaps((0, 8, 12), 4),
)
ONLYS = st.sampled_from(
    [
        *[Only()] * 5,
        Only(aircraft=("quad",)),
        Only(vessel=("rib", "pier")),
        Only(("quad",), ("rib",)),
    ]
)
MEASURES = st.sampled_from(["times", "times", "minutes", "sorties", "days"])
AMOUNTS = st.sampled_from((1, 1, 2, 2, 3, 4))
TASK = st.sampled_from(TASKS)
KIND = st.sampled_from(KINDS)
SEVERAL = st.sampled_from([TASKS[:1], TASKS[:1], TASKS[1:], TASKS])


def certifying(asked: Iterable[bool]) -> Mapping[str, Task]:
    """The tasks, those for which it is asked with a second signature."""
    both = zip(TASKS, asked, strict=True)
    return {key: Task(key, key, certified_by="officer" if two else None) for key, two in both}


CERTIFYING = st.tuples(st.booleans(), one_in(3)).map(certifying)


@st.composite
def recents(draw: DrawFn) -> Recent:
    """Recent practice, with every option in one or another."""
    measure = draw(MEASURES)
    scale = 20 if measure == "minutes" else 1
    need = Recent(
        id="",
        named=False,
        tasks=draw(SEVERAL),
        measure=measure,  # type: ignore[arg-type] # one of the four words
        amount=draw(AMOUNTS) * scale,
        floor=draw(FLOORS),
        only=draw(ONLYS),
        drills=None if measure == "days" else draw(perhaps((0, scale, scale * 3 // 2), 2)),
    )
    if draw(one_in(5)):
        return replace(need, horizon=draw(EACH))
    horizon = draw(HORIZONS)
    recheck = draw(st.sampled_from(MONTHS if horizon.month_end else DURATIONS))
    return replace(
        need,
        horizon=horizon,
        supervised_regain=draw(one_in(3)),
        recheck=recheck if draw(one_in(3)) else None,
    )


@st.composite
def signeds(draw: DrawFn) -> Signed:
    """A sign-off, in half of them with ``early`` or ``late``."""
    need = Signed("", False, draw(TASK), draw(st.sampled_from((0, 1, 2, 2, 3))))
    if draw(one_in(2)):
        return replace(need, horizon=draw(HORIZONS))
    horizon = draw(MONTH_ENDS)
    assert horizon.within is not None
    most = horizon.within.months - 1
    early = min(draw(st.sampled_from((0, 1, 1, 2, 3, 6))), most)
    late = min(draw(st.sampled_from((0, 1, 1, 2, 3, 6))), most - early)
    return replace(need, horizon=horizon, early=early, late=late)


def _bands(month_end: bool) -> tuple[AgeBand, ...]:
    return tuple(
        AgeBand(under, Horizon(Duration(months=months), month_end))
        for under, months in ((40, 12), (50, 6), (None, 3))
    )


CERTIFIEDS = st.builds(Certified, st.just(""), st.just(False), KIND, HORIZONS) | st.builds(
    Certified, st.just(""), st.just(False), KIND, ages=st.booleans().map(_bands)
)


@cache
def requirements(held: tuple[str, ...]) -> SearchStrategy[Requirement]:
    """Any requirement; ``held`` are the qualifications that ``holds`` may name."""
    leaves: SearchStrategy[Requirement] = recents() | recents() | signeds() | CERTIFIEDS
    if held:
        leaves = leaves | st.sampled_from(held).map(lambda key: Holds("", False, key))
    nested = st.lists(leaves, min_size=1, max_size=2).map(tuple)
    any_of = st.builds(AnyOf, st.just(""), st.just(False), nested)
    all_of = st.builds(AllOf, st.just(""), st.just(False), nested)
    return (
        leaves
        | leaves
        | any_of
        | all_of
        | st.builds(AnyOf, st.just(""), st.just(False), st.tuples(any_of | all_of, leaves))
    )


@st.composite
def needs(draw: DrawFn, held: tuple[str, ...]) -> tuple[Requirement, ...]:
    """A qualification's requirements, named r1, r2, … in order, most of them waivable."""
    drawn = draw(st.lists(requirements(held), min_size=1, max_size=3))
    if draw(one_in(2)):
        drawn = drawn[:1]
    counter = iter(range(1, 100))

    def name(need: Requirement) -> Requirement:
        named = replace(need, id=f"r{next(counter)}", named=not draw(one_in(4)))
        if isinstance(named, AnyOf | AllOf):
            return replace(named, needs=tuple(name(inner) for inner in named.needs))
        return named

    return tuple(name(need) for need in drawn)


@st.composite
def edition_rules(draw: DrawFn, effective: date) -> Rules:
    """One edition, which may lack some of the qualifications."""
    kept = tuple(key for key in QUALIFICATIONS if not draw(one_in(6))) or QUALIFICATIONS
    return Rules(
        needs={key: draw(needs(kept[:place])) for place, key in enumerate(kept)},
        effective=effective.isoformat(),
        notice=draw(st.sampled_from(NOTICES)),
        tasks=draw(CERTIFYING),
    )
