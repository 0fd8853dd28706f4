"""What the due list says."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from crewtrack.engine.due import Due, listed
from crewtrack.engine.one_sortie import Extended, Proposal
from crewtrack.engine.requirement import Floor, Holds, Only, Requirement
from crewtrack.facts import WAYS
from crewtrack.screens import due_table
from tests.evidence_builder import Bio
from tests.reckoned import Story, practice
from tests.standard_builder import Rules, within

ON = date(2026, 3, 1)
NEEDS: Mapping[str, Sequence[Requirement]] = {
    "deck": (practice(1, within("P90D")),),
    "night": (Holds("holds-deck", False, "deck"),),
}
STORY = Story((Rules(NEEDS),), ("2026-01-01 hand-recovery",), Bio())
PROPOSAL = Proposal(
    "K-01",
    "Ann",
    date(2026, 3, 2),
    (("Recovery", 2), ("Launch", 1)),
    Floor(way=WAYS.index("drifting")),
    Only(vessel=("rib",)),
    0,
    True,
    (Extended("deck", "Deck pilot", "practice", date(2026, 4, 1), date(2026, 5, 31)),),
    (Extended("deck", "Deck pilot", "", date(2026, 4, 1), None),),
)


def dues() -> tuple[Due, ...]:
    """What ends for K-01."""
    return listed(STORY.reckoning(), ON, 60)


def test_a_row_tells_day_person_requirement_and_what_extends_it() -> None:
    table = due_table.due_table(dues(), ON)
    assert [column.text(table.rows[0]) for column in table.columns] == [
        "2026-04-01",
        "31 days",
        "K-01",
        "deck",
        "practice",
        "hand-recovery: 0 of 1 since 2026-01-02; 1 more by 2026-04-01 keeps this",
    ]


def test_every_cell_speaks_the_whole_row() -> None:
    table = due_table.due_table(dues(), ON)
    assert {column.said(table.rows[0]) for column in table.columns} == {
        "K-01, deck: practice ends on 2026-04-01 (31 days). hand-recovery: 0 of 1 since"
        " 2026-01-02; 1 more by 2026-04-01 keeps this."
    }


def test_the_last_day_itself_is_today() -> None:
    assert due_table.days_told(dues()[0], date(2026, 4, 1)) == "today"


def test_what_follows_from_another_row_is_left_out_until_asked_for() -> None:
    assert [due.requirement for due in due_table.shown(dues(), False)] == ["practice"]
    assert len(due_table.shown(dues(), True)) == 2


def test_counts_requirements_and_people() -> None:
    assert due_table.counted(dues(), 60) == "2 requirements end of 1 person within 60 days."
    assert due_table.counted((), 1) == "Nothing ends within 1 day."


def test_a_qualification_that_is_dropped_can_not_be_kept() -> None:
    dropped = replace(dues()[0], need=None, keeps=())
    assert due_table.keeps_told(dropped).startswith("nothing: the next edition")


def test_tells_the_sortie() -> None:
    assert due_table.sortie_told(PROPOSAL) == (
        "One sortie on 2026-03-02: 2 × Recovery, 1 × Launch, drifting or under way,"
        " from rib, live, supervised."
    )
    longer = replace(PROPOSAL, minutes=45, supervised=False, floor=Floor(), only=Only())
    assert due_table.sortie_told(longer) == (
        "One sortie on 2026-03-02: 2 × Recovery, 1 × Launch, live, at least 45 minutes."
    )


def test_tells_what_the_sortie_extends() -> None:
    assert due_table.extends_told(PROPOSAL) == (
        "Extends Deck pilot without a limit (now through 2026-04-01).",
        "Extends practice of Deck pilot to 2026-05-31 (now through 2026-04-01).",
    )


def test_tells_a_qualification_that_something_else_ends() -> None:
    told = due_table.extends_told(replace(PROPOSAL, whole=()))
    assert told[-1].startswith("Deck pilot itself stays as it is")
