"""Hypothesis strategies for one requirement, and much that may count for it or just not.

Leaner than whole histories, so that the rules of each kind are tried on many more of them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import timedelta

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from crewtrack.engine.days import Duration
from crewtrack.engine.requirement import Certified, Recent, Signed
from crewtrack.engine.standard import Task
from tests.evidence_builder import PERFORMER, Bio
from tests.oracle_calendar import horizon_of, later
from tests.rule_strategies import (
    CERTIFIEDS,
    CERTIFYING,
    KINDS,
    QUALIFICATIONS,
    TASKS,
    recents,
    signeds,
)
from tests.standard_builder import Rules
from tests.strategies import (
    CALENDARS,
    CERTIFICATES,
    FLIGHTS,
    PLACES,
    SIGNOFFS,
    ZONES,
    Calendar,
    World,
    certificate_line,
    flight_line,
    signoff_line,
)

ONE_DAY, LONG = timedelta(days=1), timedelta(days=3 * 366)
MANY_FLIGHTS = st.lists(FLIGHTS, min_size=2, max_size=14)
FEW_SIGNOFFS = st.lists(SIGNOFFS, max_size=4)
MANY_SIGNOFFS = st.lists(SIGNOFFS, min_size=2, max_size=8)
MANY_CERTIFICATES = st.lists(CERTIFICATES, min_size=1, max_size=4)
BIRTHDAYS = st.none() | st.tuples(PLACES, st.sampled_from((40, 50)), st.sampled_from((-1, 0, 1)))


def single(
    need: Recent | Signed | Certified, calendar: Calendar, bio: Bio, flown: Sequence[str] = ()
) -> World:
    """The world in which one requirement is all that is asked."""
    named = replace(need, id="r1", named=True)
    rules = Rules({QUALIFICATIONS[0]: (named,)}, effective=str(calendar.at(0)))
    return World("UTC", tuple(flown), bio, (rules,), calendar.dates)


def _judged(world: World, tasks: Mapping[str, Task]) -> World:
    """The same world where the standard says this of tasks."""
    return replace(world, rules=tuple(replace(rules, tasks=tasks) for rules in world.rules))


def practice_calendar(calendar: Calendar, need: Recent) -> Calendar:
    """A few dates, and the last and first days on which something of them counts or no longer
    does."""
    dates = set(calendar.dates[:4])
    for day in calendar.dates[:4]:
        ends = [horizon_of(day, need.horizon)]
        if need.recheck:
            ends.append(later(ends[0], need.recheck, need.horizon.month_end))
        for end in ends:
            if end < day + LONG:
                dates |= {end, end + ONE_DAY}
    return Calendar(tuple(sorted(dates)))


def signature_calendar(calendar: Calendar, need: Signed) -> Calendar:
    """A few dates, and others just inside and outside the months in which they are due."""
    dates = set(calendar.dates[:3])
    within = need.horizon.within
    for day in calendar.dates[:3] if within and within.months else ():
        assert within is not None
        for months in (-need.early - 1, -need.early, 0, need.late, need.late + 1):
            if within.months + months > 0:
                dates.add(later(day, Duration(months=within.months + months)))
    return Calendar(tuple(sorted(dates)))


@st.composite
def practice_worlds(draw: DrawFn) -> World:
    """Flights, and sign-offs where ``recheck`` makes them count."""
    need = draw(recents())
    calendar = practice_calendar(draw(CALENDARS), need)
    drafts = enumerate(draw(MANY_FLIGHTS))
    flown = [flight_line(calendar, draft, number) for number, draft in drafts]
    signed = draw(FEW_SIGNOFFS) if need.recheck else []
    lines = [signoff_line(calendar, draft, flown) for draft in signed]
    world = single(need, calendar, Bio(PERFORMER, signed=lines), flown)
    world = _judged(world, draw(CERTIFYING))
    return replace(world, zone=draw(st.sampled_from(ZONES)))


@st.composite
def signature_worlds(draw: DrawFn) -> World:
    """Sign-offs, most of them of the task that is asked for."""
    need = draw(signeds())
    calendar = signature_calendar(draw(CALENDARS), need)
    lines = [signoff_line(calendar, draft, ()) for draft in draw(MANY_SIGNOFFS)]
    world = single(replace(need, task=TASKS[0]), calendar, Bio(PERFORMER, signed=lines))
    return _judged(world, draw(CERTIFYING))


@st.composite
def certificate_worlds(draw: DrawFn) -> World:
    """Certificates, and a birthday on or beside one of the dates."""
    need, calendar = draw(CERTIFIEDS), draw(CALENDARS)
    lines = [certificate_line(calendar, draft) for draft in draw(MANY_CERTIFICATES)]
    birthday, born = draw(BIRTHDAYS), None
    if birthday is not None:
        place, age, days = birthday
        near = calendar.at(place) + timedelta(days=days)
        born = f"{near.year - age}-{near:%m-%d}"
        if near.strftime("%m-%d") == "02-29" and (near.year - age) % 4:
            born = f"{near.year - age}-03-01"
    bio = Bio(PERFORMER, certificates=lines, born=born)
    return single(replace(need, kind=KINDS[0]), calendar, bio)
