"""Hypothesis strategies: random standards and random histories, told in notation.

Dates come from a few that lie a day, a fortnight, a month, a quarter, half a year or a year apart,
around leap days and month ends: that is where reckoning goes wrong. What is drawn first is a
*draft*, with places in that list instead of dates, so that no strategy depends on another's value
(which would make drawing slow); plain functions then write the notation.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from crewtrack.engine.evidence import Evidence
from crewtrack.engine.standard import Editions
from crewtrack.facts import LEVELS, LIGHTS, RESULTS, WAYS
from tests.evidence_builder import PERFORMER, Bio, evidence, flights
from tests.rule_strategies import KINDS, QUALIFICATIONS, TASKS, edition_rules, one_in
from tests.standard_builder import Rules, editions

ZONES = ("UTC", "America/Detroit", "America/Sao_Paulo", "Pacific/Auckland", "Asia/Kolkata")
TIMES = ("00:00", "00:30", "12:00", "22:30", "23:30", "23:59")
STARTS = (date(2018, 2, 17), date(2019, 12, 31), date(2023, 8, 31), date(2024, 2, 29))
GAPS = (0, 1, 1, 2, 14, 15, 28, 29, 30, 31, 59, 60, 61, 89, 90, 91, 92, 181, 183, 365, 366)
BORN = (None, "1980-02-29", "1978-08-31", "1979-02-15", "1960-07-01")


@dataclass(frozen=True)
class World:
    """One person's history in notation, the unit's rules, and the dates that matter."""

    zone: str
    flown: tuple[str, ...]
    bio: Bio
    rules: tuple[Rules, ...]
    dates: tuple[date, ...]

    def evidence(self) -> Evidence:
        """All of it, for the engine."""
        return evidence(flights(self.flown, self.zone), (self.bio,), self.zone)

    def editions(self) -> Editions:
        """The standard's editions."""
        return editions(*self.rules)


@dataclass(frozen=True)
class Calendar:
    """The dates of one history; a place past the last one starts again at the first."""

    dates: tuple[date, ...]

    def at(self, place: int) -> date:
        """The date at a place."""
        return self.dates[place % len(self.dates)]

    def span(self, places: tuple[int, int, int | None]) -> str:
        """From the earlier of two dates through the later, give or take some days; None: open."""
        first, last = sorted(self.at(place) for place in places[:2])
        if places[2] is None:
            return f"{first}.."
        return f"{first}..{max(first, last + timedelta(days=places[2]))}"


PLACES = st.integers(0, 23)
CALENDARS = st.builds(
    lambda start, gaps: Calendar(
        tuple(start + timedelta(days=sum(gaps[:count])) for count in range(len(gaps) + 1))
    ),
    st.sampled_from(STARTS),
    st.lists(st.sampled_from(GAPS), min_size=3, max_size=11),
)
CLOSED = st.tuples(PLACES, PLACES, st.sampled_from((0, 0, -1, 30)))
SPANS = st.tuples(PLACES, PLACES, st.sampled_from((0, 0, -1, None)))


def words(*options: Sequence[str]) -> SearchStrategy[str]:
    """One of each list of options, those that are not empty joined to a line."""
    return st.tuples(*map(st.sampled_from, options)).map(lambda told: " ".join(filter(None, told)))


# Light is stated by hand or not recorded, so that the oracle needs no sky.
FLIGHTS = st.tuples(
    PLACES,
    st.sampled_from(TIMES),
    words(
        ["launch", "launch", "recovery", "launch recovery", "recovery launch"],
        ["", "", "x2", "x3"],
        ["", "", "drill"],
        ["", "0min", "20min", "45min"],
        ["", *WAYS],
        ["", *LIGHTS],
        ["", "sea0", "sea1", "sea3", "sea5"],
        ["", "from000 wind4", "from240 wind12", "wind9", "from90 wind0"],
        ["", "speed0", "heading240 speed6", "heading15 speed9", "speed3"],
        ["", "set90 drift1.2"],
        ["", f"under:{PERFORMER}", "under:K-09", "under:K-09"],
        ["", "aircraft:quad", "aircraft:wing"],
        ["", "vessel:rib", "vessel:ship"],
        ["", "", "", "", "", "by:K-02"],
    ),
)
SIGNOFFS = st.tuples(
    PLACES,
    words([*TASKS, TASKS[0]], ["", "", "", *RESULTS], ["", "", "", *LEVELS]),
    st.none() | st.integers(1, 14),
    st.none() | st.none() | st.none() | PLACES,
    st.none() | PLACES | PLACES,
)
ENDS = st.sampled_from((None, None, None, 0, 1, 30, 365))
CERTIFICATES = st.tuples(st.sampled_from(KINDS), PLACES, ENDS, ENDS)
ASSIGNMENTS = st.none() | st.none() | st.lists(SPANS, max_size=3)
STANDDOWNS = st.tuples(st.sampled_from(["all", *QUALIFICATIONS]), SPANS)
WAIVERS = st.tuples(
    words(QUALIFICATIONS, ["r1", "r1", "r1", "r2", "r2", "r3"]),
    CLOSED,
    st.sampled_from(["", "extension"]),
)


def flight_line(calendar: Calendar, draft: tuple[int, str, str], number: int) -> str:
    """One flight, most of them of K-01."""
    return f"{calendar.at(draft[0])}T{draft[1]} {draft[2]} as:S-{number}"


def signoff_line(
    calendar: Calendar,
    draft: tuple[int, str, int | None, int | None, int | None],
    flown: Sequence[str],
) -> str:
    """One result, some of them on a sortie flown by then, some withdrawn on that day or later,
    most certified on any day, as it were also before."""
    place, told, sortie, withdrawn, certified = draft
    day = calendar.at(place)
    line = f"{day} {told}"
    if sortie is not None and flown:
        number = sortie % len(flown)
        line += f" on:S-{number}" if flown[number] <= f"{day}T99" else ""
    if withdrawn is not None:
        line += f" withdrawn:{max(day, calendar.at(withdrawn))}"
    if certified is not None:
        line += f" certified:{calendar.at(certified)}"
    return line


def certificate_line(calendar: Calendar, draft: tuple[str, int, int | None, int | None]) -> str:
    """One certificate, some of them with an expiry, some revoked."""
    kind, place, *ends = draft
    issued = calendar.at(place)
    line = f"{kind} {issued}"
    for name, days in zip(("expires", "revoked"), ends, strict=True):
        if days is not None:
            line += f" {name}:{issued + timedelta(days=days)}"
    return line


@st.composite
def bios(draw: DrawFn, calendar: Calendar, flown: Sequence[str]) -> Bio:
    """All that is known of K-01 besides the flights."""
    assigned = []
    for key in QUALIFICATIONS:
        spells = draw(ASSIGNMENTS)
        whole = [f"{calendar.at(0) - timedelta(days=5)}.."]
        spans = whole if spells is None else [calendar.span(spell) for spell in spells]
        assigned += [f"{key} {span}" for span in dict.fromkeys(spans)]
    signed = draw(st.lists(SIGNOFFS, min_size=2, max_size=7))
    certificates = draw(st.lists(CERTIFICATES, min_size=1, max_size=4))
    waivers = draw(st.lists(WAIVERS, max_size=3))
    standdowns = draw(st.lists(STANDDOWNS, max_size=2)) if draw(one_in(4)) else []
    joined = str(calendar.at(draw(PLACES))) if draw(one_in(8)) else None
    left = str(calendar.at(draw(PLACES))) if draw(one_in(8)) else None
    return Bio(
        PERFORMER,
        assigned=assigned,
        signed=[signoff_line(calendar, draft, flown) for draft in signed],
        certificates=[certificate_line(calendar, draft) for draft in certificates],
        waivers=[
            f"{what} {calendar.span(span)} as:W-{number} {kind}"
            for number, (what, span, kind) in enumerate(waivers)
        ],
        standdowns=[f"{what} {calendar.span(span)}" for what, span in standdowns],
        joined=joined if not (left and joined and left < joined) else None,
        left=left,
        born=draw(st.sampled_from(BORN)),
    )


@st.composite
def worlds(draw: DrawFn) -> World:
    """A whole history with the rules it is judged by."""
    calendar = draw(CALENDARS)
    drafts = enumerate(draw(st.lists(FLIGHTS, max_size=14)))
    flown = tuple(flight_line(calendar, draft, number) for number, draft in drafts)
    starts = {calendar.at(place) for place in draw(st.lists(PLACES, min_size=1, max_size=3))}
    return World(
        zone=draw(st.sampled_from(ZONES)),
        flown=flown,
        bio=draw(bios(calendar, flown)),
        rules=tuple(draw(edition_rules(start)) for start in sorted(starts)),
        dates=calendar.dates,
    )
