"""Asking the engine about one person and one qualification, for tests that tell a short story."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.requirement import Recent, Requirement, Signed
from crewtrack.engine.standings import Standing
from tests.evidence_builder import PERFORMER, Bio, evidence, flights
from tests.standard_builder import Rules, editions

TESTED = "tested"
ALWAYS = f"{TESTED} 1950-01-01.."


@dataclass(frozen=True)
class Story:
    """What happened to K-01, and the editions it is judged by; assigned to everything that they
    hold since long ago unless ``bio`` says otherwise."""

    rules: tuple[Rules, ...]
    flown: Sequence[str] = ()
    bio: Bio = Bio()
    zone: str = "UTC"

    def reckoning(self) -> Reckoning:
        """The engine, given all of it."""
        keys = dict.fromkeys(key for rules in self.rules for key in rules.needs)
        assigned = self.bio.assigned or [f"{key} 1950-01-01.." for key in keys]
        bio = replace(self.bio, assigned=assigned)
        known = evidence(flights(self.flown, self.zone), (bio,), self.zone)
        return Reckoning(known, editions(*self.rules))

    def standing(self, on: str, qualification: str = TESTED) -> Standing:
        """Where K-01 stands on a day."""
        return self.reckoning().standing(PERFORMER, qualification, date.fromisoformat(on))

    def told(self, on: str, qualification: str = TESTED) -> tuple[str, str, str]:
        """The word, ``since`` and ``through``, dates as text and empty where there is none."""
        standing = self.standing(on, qualification)
        since, through = (str(day or "") for day in (standing.since, standing.through))
        return standing.word, since, through

    def spans(self, qualification: str = TESTED) -> list[str]:
        """The days on which the qualification's requirements were met, ``first..last``."""
        rows = self.reckoning().history()
        row = next(row for row in rows if row.qualification == qualification)
        return [f"{span.first}..{span.last or ''}" for span in row.spans]


def one_need(
    *needs: Requirement, flown: Sequence[str] = (), bio: Bio | None = None, zone: str = "UTC"
) -> Story:
    """A qualification that asks for no more than this, under one edition."""
    return Story((Rules({TESTED: needs}, zone=zone),), flown, bio or Bio(), zone)


def practice(times: int, horizon: Horizon, task: str = "hand-recovery") -> Recent:
    """So many times within so long, and nothing else."""
    return Recent("practice", True, (task,), amount=times, horizon=horizon)


def supervised_way_back(times: int, within: Horizon) -> Recent:
    """The same with ``regain = "supervised"``."""
    return replace(practice(times, within), supervised_regain=True)


def with_recheck(times: int, within: Horizon, recheck: str) -> Recent:
    """The same with ``recheck``."""
    return replace(practice(times, within), recheck=Duration.parse(recheck))


def signature(horizon: Horizon, early: int = 0, late: int = 0, level: int = 2) -> Signed:
    """A sign-off of hand recovery."""
    return Signed("signature", True, "hand-recovery", level, horizon, early, late)
