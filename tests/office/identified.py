"""A unit in which people sign in: a chief, an officer, and one who is both."""

from crewtrack.facts import PEOPLE
from crewtrack.office import access, recording, retention
from crewtrack.office.entries import Entry, Order
from crewtrack.office.sealing import Both, Hand
from tests.office.unit_at_work import Unit

CHIEF, OFFICER, BOTH = "C-01", "O-01", "B-01"
PHRASES = {
    CHIEF: "lantern quay thistle morning",
    OFFICER: "harbour wall in the rain",
    BOTH: "four oars and a bucket",
}
TOGETHER = Both(Hand(OFFICER, PHRASES[OFFICER]), Hand(CHIEF, PHRASES[CHIEF]))
RULE = "Local regulation 7, section 4"


def people(unit: Unit) -> None:
    """Three people, and keys for them; the chief is signed in afterwards."""
    duties = {CHIEF: ("chief",), OFFICER: ("officer",), BOTH: ("officer", "chief")}
    rows = [
        Entry(PEOPLE, (key, f"Name {key}", None, None, None, None, held))
        for key, held in duties.items()
    ]
    recording.record(unit.office, rows, Order("Ana"))
    access.give_access(unit.office, CHIEF, PHRASES[CHIEF], Order(CHIEF))
    for person in (OFFICER, BOTH):
        with access.signing(unit.office, PHRASES[CHIEF]):
            access.give_access(unit.office, person, PHRASES[person], Order(CHIEF))


def name_period(unit: Unit, period: str = "P3Y", reason: str | None = None) -> None:
    """The chief names a period."""
    with access.signing(unit.office, PHRASES[CHIEF]):
        retention.name_period(unit.office, period, RULE, Order(CHIEF, reason))
