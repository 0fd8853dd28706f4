"""Many small histories, each from a seed, in which a few days stand for everything.

Windows of two to four days or months, and events on neighbouring days: what takes a random history
of years by luck, these meet all the time. They are cheap enough to try by the thousand.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from random import Random

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import Floor, Recent, Requirement, Signed
from crewtrack.engine.standard import Task
from tests.evidence_builder import Bio
from tests.oracle_calendar import last_of_month
from tests.standard_builder import Rules
from tests.strategies import World

START = date(2024, 2, 26)
TASKS = ("launch", "recovery")
KEYS = ("basic", "deck")


def some_day(random: Random, span: int) -> date:
    """One of the first days of the world."""
    return START + timedelta(days=random.randrange(span))


def practice(random: Random) -> Recent:
    """Within a few days, or in the same month: with every option, most of them now and then."""
    measure = random.choice(("times", "times", "minutes", "sorties", "days"))
    scale = 20 if measure == "minutes" else 1
    need = Recent(
        id="r1",
        named=True,
        tasks=random.choice((TASKS, TASKS[:1])),
        measure=measure,  # type: ignore[arg-type] # one of the four words
        amount=random.choice((1, 2, 2, 3)) * scale,
        drills=None if measure == "days" else random.choice((None, 0, scale, scale * 3 // 2)),
        floor=random.choice((Floor(), Floor(), Floor(way=2), Floor(apparent=8))),
        horizon=random.choice((Horizon(each="month"), *[Horizon(Duration(days=3))] * 4)),
    )
    if need.horizon.each:
        return need
    recheck = random.choice((None, None, Duration(days=1), Duration(days=3)))
    return replace(need, supervised_regain=random.random() < 0.4, recheck=recheck)


def flight_line(random: Random, span: int) -> str:
    """One flight on one of the first days."""
    words = [
        f"{some_day(random, span)}T{random.choice(('10:00', '10:00', '23:30'))}",
        random.choice((*TASKS, "launch recovery", "recovery launch")),
        random.choice(("", "", "x2")),
        random.choice(("", "drill")),
        random.choice(("", "20min", "0min")),
        random.choice(("moored", "anchored", "drifting", "")),
        random.choice(("from240 wind9 heading240 speed4", "from240 wind9 heading60 speed4", "")),
        random.choice(("", "under:K-09", "under:K-09", "under:K-01")),
    ]
    return " ".join(word for word in words if word)


def practice_world(random: Random) -> World:
    """One practice requirement, a few flights, and sign-offs in between."""
    span = random.choice((6, 9, 12))
    flown = [flight_line(random, span) for _ in range(random.randint(2, 8))]
    flown = [f"{line} as:S-{place}" for place, line in enumerate(flown)]
    signed = [
        f"{some_day(random, span)} {random.choice(TASKS)} {random.choice(('', '', 'supervised'))}"
        f" {random.choice(('', '', 'failed'))} on:S-{random.randrange(len(flown))}"
        f" {certified(random, some_day(random, span))}"
        for _ in range(random.randint(0, 3))
    ]
    return world(practice(random), flown, signed, some_certified(random))


def signature_world(random: Random) -> World:
    """One sign-off requirement of a few months, and results in neighbouring months."""
    window = random.choice((2, 3, 4))
    early = random.randint(0, min(2, window - 1))
    late = random.randint(0, min(2, window - 1 - early))
    horizon = Horizon(Duration(months=window), month_end=True)
    need = Signed("r1", True, TASKS[0], random.choice((1, 2)), horizon, early, late)
    signed = []
    for _ in range(random.randint(2, 6)):
        month = random.randrange(10)
        day = random.choice((1, 15, last_of_month(2024, month + 1).day))
        result = random.choice(("", "", "", "", "failed", "not-yet"))
        level = random.choice(("", "", "", "supervised", "evaluator"))
        second = certified(random, date(2024, random.randrange(10) + 1, min(day, 28)))
        signed.append(f"{date(2024, month + 1, day)} {TASKS[0]} {level} {result} {second}")
    return world(need, [], signed, some_certified(random))


def certified(random: Random, day: date) -> str:
    """A second signature, most of the time."""
    return random.choice(("", f"certified:{day}", f"certified:{day}"))


def some_certified(random: Random) -> Mapping[str, Task]:
    """The tasks; each of them has to be certified one time in two."""
    asked = [random.choice((None, "officer")) for _ in TASKS]
    return {key: Task(key, key, certified_by=by) for key, by in zip(TASKS, asked, strict=True)}


def world(
    need: Requirement, flown: list[str], signed: list[str], tasks: Mapping[str, Task]
) -> World:
    """A world in which one requirement is all that is asked."""
    rules = Rules({KEYS[0]: (need,)}, effective=str(START), tasks=tasks)
    return World("UTC", tuple(flown), Bio(signed=signed), (rules,), (START,))
