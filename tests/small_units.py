"""Small histories of two qualifications, each from a seed: editions, waivers, stand-downs,
assignments and evidence within a fortnight (see ``small_worlds``)."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from random import Random

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import AllOf, AnyOf, Certified, Holds, Recent, Requirement, Signed
from tests.evidence_builder import Bio
from tests.small_worlds import KEYS, START, TASKS, certified, some_certified
from tests.standard_builder import Rules
from tests.strategies import World

DAYS = tuple(START + timedelta(days=n) for n in range(14))
BESIDE = (START - timedelta(days=1), *DAYS, *(DAYS[-1] + timedelta(days=n) for n in (1, 2, 3)))


@dataclass(frozen=True)
class Chance:
    """What is drawn again and again."""

    random: Random

    def one(self, *options: str) -> str:
        """One of a few words."""
        return self.random.choice(options)

    def day(self) -> date:
        """One of the fortnight's days."""
        return self.random.choice(DAYS)

    def span(self, *, closed: bool = False) -> str:
        """From one day through another, or open."""
        first, last = sorted((self.day(), self.day()))
        return f"{first}..{last if closed else self.one(str(last), str(last), '')}"

    def some(self, most: int, line: Callable[[], str]) -> list[str]:
        """Up to so many lines."""
        return [line() for _ in range(self.random.randint(0, most))]

    def rarely(self, value: date) -> str | None:
        """A date as text one time in four."""
        return self.random.choice((None, None, None, str(value)))


def requirement(random: Random, held: str) -> Requirement:
    """One that is met for a few days; ``held`` is what it may name, if anything."""
    options: list[Requirement] = [
        Recent("", True, TASKS[:1], horizon=Horizon(Duration(days=random.randint(1, 3)))),
        Signed("", True, TASKS[0], horizon=Horizon(Duration(days=4))),
        Certified("", True, "medical", Horizon(Duration(days=5))),
    ]
    if held:
        options += [Holds("", True, held)] * 2
    return random.choice(options)


def needs(random: Random, held: str) -> tuple[Requirement, ...]:
    """One or two requirements, some of them nested, named r1, r2, … in order."""
    made: list[Requirement] = []
    ids = iter(("r1", "r2", "r3", "r4", "r5", "r6"))
    for _ in range(random.choice((1, 1, 2))):
        inner = [replace(requirement(random, held), id=next(ids)) for _ in range(2)]
        if random.random() < 0.3:
            kind = random.choice((AnyOf, AllOf))
            made.append(kind(next(ids), random.random() < 0.5, tuple(inner)))
        else:
            made.append(replace(inner[0], named=random.random() < 0.8))
    return tuple(made)


def rules(random: Random, effective: date) -> Rules:
    """An edition with both qualifications, or with one of them."""
    kept: Sequence[str] = random.choice((KEYS, KEYS, KEYS[1:], KEYS[:1]))
    held = {key: KEYS[0] if key == KEYS[1] and len(kept) == 2 else "" for key in kept}
    made = {key: needs(random, held[key]) for key in kept}
    notice = random.choice(("P1D", "P2D"))
    return Rules(made, str(effective), notice, tasks=some_certified(random))


def signoff_line(chance: Chance) -> str:
    """A result, some withdrawn two days later, most certified on any day."""
    day = chance.day()
    withdrawn = f"withdrawn:{day + timedelta(days=2)}"
    told = f"{day} launch {chance.one('', '', 'failed')} {chance.one('', '', withdrawn)}"
    return f"{told} {certified(chance.random, chance.day())}"


def bio(random: Random) -> Bio:
    """All that bears on K-01's standing besides flights."""
    chance = Chance(random)
    always = [f"{key} {BESIDE[0]}.." for key in KEYS]
    spells = chance.some(5, lambda: f"{chance.one(*KEYS)} {chance.span()}")
    return Bio(
        assigned=random.choice((always, always, spells)),
        signed=chance.some(4, lambda: signoff_line(chance)),
        certificates=chance.some(
            2, lambda: f"medical {chance.day()} {chance.one('', f'revoked:{DAYS[-1]}')}"
        ),
        waivers=chance.some(
            3,
            lambda: (
                f"{chance.one(*KEYS)} {chance.one('r1', 'r2', 'r3')} {chance.span(closed=True)}"
            ),
        ),
        standdowns=chance.some(
            random.choice((0, 2)), lambda: f"{chance.one('all', *KEYS)} {chance.span()}"
        ),
        joined=chance.rarely(DAYS[3]),
        left=chance.rarely(DAYS[-2]),
    )


def unit_world(random: Random) -> World:
    """Two qualifications under one to three editions, with all that bears on a standing."""
    chance = Chance(random)
    starts = sorted({chance.day() for _ in range(random.choice((1, 2, 3)))})
    flown = tuple(chance.some(5, lambda: f"{chance.day()} launch"))
    return World("UTC", flown, bio(random), tuple(rules(random, s) for s in starts), BESIDE)
