"""What the office refuses can be said in another language: problem and cure are phrases."""

import pytest

from crewtrack.errors import Fault
from crewtrack.facts import PEOPLE, SIGNOFFS, SORTIES
from crewtrack.office.entries import Entry, Order, Strike
from crewtrack.phrases import Joined, Phrase
from tests.office.given_by_hand import ANA, MENDED, faults, row, signoff
from tests.office.unit_at_work import Unit

EMPTY = Entry(PEOPLE, row(PEOPLE, person="K-9"))
TAKEN = Entry(PEOPLE, row(PEOPLE, person="K-01", name="Ana"))


def said(found: tuple[Fault, ...]) -> list[str]:
    return [text for fault in found for text in (fault.problem, fault.cure) if text]


@pytest.mark.parametrize(
    ("given", "order"),
    [
        ([EMPTY], ANA),
        ([TAKEN], ANA),
        ([TAKEN, TAKEN], ANA),
        ([Entry(PEOPLE, row(PEOPLE, person="K-9", name="A"), 3)], MENDED),
        ([Entry(PEOPLE, row(PEOPLE, person="K-01", name="A"), 99)], MENDED),
        ([Entry(PEOPLE, row(PEOPLE, person="K-01", name="A"), 1)], ANA),
        ([Strike(PEOPLE, ("K-01",), 1)], MENDED),
        ([Strike(SORTIES, ("S-1",), 7)], MENDED),
        ([Entry(SIGNOFFS, signoff("E-9", "NOBODY", sortie="S-77"))], ANA),
        ([EMPTY], Order("", "\x00")),
    ],
)
def test_what_is_refused_by_hand_is_told_in_phrases(
    full_unit: Unit, given: list[Entry | Strike], order: Order
) -> None:
    found = said(faults(full_unit, *given, order=order))
    assert found
    assert [text for text in found if not isinstance(text, Phrase | Joined)] == []
