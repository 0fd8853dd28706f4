"""The demonstration reckoned on a day, without a record, and crews made up of its people."""

from datetime import date
from functools import lru_cache

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Crew, Editions
from crewtrack.engine.standings import Standing
from crewtrack.files.standard_file import read_standard
from crewtrack.office.demonstration_rows import ZONE, editions, rows
from tests.evidence_from_rows import evidence_from_rows

DAYS = (
    date(2026, 1, 14),
    date(2026, 3, 20),
    date(2026, 5, 17),
    date(2026, 8, 8),
    date(2026, 11, 25),
)
"""Just before the ice, at its end, in spring, summer and autumn."""


@lru_cache(maxsize=len(DAYS))
def reckoning(on: date) -> Reckoning:
    """The demonstration made for a day, given to the engine."""
    standards = tuple(read_standard(text, str(first)) for first, text in editions(on))
    return Reckoning(evidence_from_rows(rows(on), ZONE), Editions(standards))


@lru_cache(maxsize=len(DAYS))
def standings(on: date) -> tuple[Standing, ...]:
    """Where everybody stands on the day that the demonstration is made for."""
    return reckoning(on).standings(on)


def crew_can_be_made(on: date, crew: Crew, without: str | None = None) -> bool:
    """Whether different people fill all seats, one of them left out: by trying every way."""
    able = [
        {
            row.person
            for row in standings(on)
            if row.qualification == seat.holds
            and row.word in ("current", "due")
            and row.person != without
        }
        for seat in crew.seats
    ]
    return _filled(able, frozenset())


def _filled(seats: list[set[str]], taken: frozenset[str]) -> bool:
    if not seats:
        return True
    return any(_filled(seats[1:], taken | {one}) for one in seats[0] - taken)
