"""Cases and reckonings from short notation, and sets of days written out, for tests."""

from collections.abc import Sequence

from crewtrack.engine.case import Case
from crewtrack.engine.conditions import Conditions
from crewtrack.engine.days import FOREVER
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.spans import Days, as_date
from tests.evidence_builder import Bio, day, evidence, flights
from tests.standard_builder import Rules, editions, standard


def written(days: Days) -> list[str]:
    """The runs as ``2026-01-01..2026-02-01``, or ``2026-01-01..`` where open."""
    return [f"{as_date(first)}..{as_date(last) or ''}" for first, last in days]


def case(rules: Rules, until: str = "", flown: Sequence[str] = (), bio: Bio | None = None) -> Case:
    """One person's case under one edition, with evidence up to a day (empty: all)."""
    bio = bio or Bio()
    known = evidence(flights(flown, rules.zone), (bio,), rules.zone)
    edition = standard(rules)
    conditions = Conditions(known.sorties, edition)
    last = day(until) if until else FOREVER
    return Case(known.books[bio.key], known, edition, conditions, last)


def reckoning(
    *rules: Rules, flown: Sequence[str] = (), bios: Sequence[Bio] = (Bio(),)
) -> Reckoning:
    """All of a unit's evidence and editions, ready to be asked."""
    zone = rules[0].zone
    return Reckoning(evidence(flights(flown, zone), bios, zone), editions(*rules))
