"""What changed between two editions."""

from dataclasses import replace
from datetime import date

from crewtrack.engine.days import Duration
from crewtrack.engine.standard import Crew, Position, Qualification, Seat, Standard, Task
from crewtrack.screens.standard_compare import Change, change_lines, changes
from tests.reckoned import practice
from tests.standard_builder import Rules, standard, within

OLD = standard(Rules({"deck": (practice(3, within("P90D")),)}))


def with_qualification(edition: Standard, changed: Qualification) -> Standard:
    """The edition with a qualification put in, or in the place of the same one."""
    return replace(edition, qualifications={**edition.qualifications, changed.key: changed})


def test_an_edition_differs_from_itself_in_nothing() -> None:
    assert changes(OLD, OLD) == ()
    assert [line.text for line in change_lines(())] == ["Both ask for the same."]


def test_tells_a_requirement_that_changed() -> None:
    deck = replace(OLD.qualifications["deck"], needs=(practice(2, within("P60D")),))
    assert changes(OLD, with_qualification(OLD, deck)) == (
        Change("deck", "practice", "hand-recovery: 3 times in 90 days",
               "hand-recovery: 2 times in 60 days"),
    )  # fmt: skip


def test_tells_requirements_that_were_added_and_dropped() -> None:
    other = replace(practice(1, within("P1Y")), id="yearly")
    deck = replace(OLD.qualifications["deck"], needs=(other,))
    found = changes(OLD, with_qualification(OLD, deck))
    assert [(change.what, change.did) for change in found] == [
        ("practice", "dropped"),
        ("yearly", "added"),
    ]


def test_tells_title_duty_and_minimum_of_a_qualification() -> None:
    deck = replace(OLD.qualifications["deck"], title="Deck pilot", duty="pilot", minimum=2)
    found = changes(OLD, with_qualification(OLD, deck))
    assert [(change.what, change.before, change.after) for change in found] == [
        ("Title", "deck", "Deck pilot"),
        ("Duty", "any duty", "pilot"),
        ("Minimum", "no minimum", "at least 2 people current"),
    ]
    assert {change.of for change in found} == {"Deck pilot"}


def test_tells_a_whole_qualification_line_by_line() -> None:
    night = Qualification("night", "Night", None, 0, (practice(1, within("P90D")),))
    found = changes(OLD, with_qualification(OLD, night))
    assert {change.of for change in found} == {"Night"}
    assert {change.did for change in found} == {"added"}
    assert changes(with_qualification(OLD, night), OLD)[0].did == "dropped"


def test_tells_what_holds_for_everything() -> None:
    new = replace(OLD, notice=Duration.parse("P45D"), dark="hour", effective=date(2027, 1, 1),
                  position=Position(47.1, -88.6), waiver_limit=Duration.parse("P90D"))  # fmt: skip
    assert [change.what for change in changes(OLD, new)] == [
        "In effect from",
        "Position for the light (north, east)",
        "Shown as due before its last day",
        "Night begins",
        "Longest waiver",
    ]


def test_tells_seats_of_crews() -> None:
    one = Crew("flight", "Flight", 1, (Seat("pilot", "deck"),))
    two = replace(one, minimum=2, seats=(*one.seats, Seat("second", "deck")))
    found = changes(replace(OLD, crews={"flight": one}), replace(OLD, crews={"flight": two}))
    assert [(change.what, change.after) for change in found] == [
        ("Minimum", "at least 2 whole crews"),
        ("Seats", "pilot: deck; second: deck"),
    ]


def test_tells_criteria_and_terms_of_tasks() -> None:
    before = Task("hand-recovery", "Recovery", criteria=("Waits", "Holds"))
    after = replace(before, duty="pilot", moment="recovery", needs="deck", evaluator="deck",
                    criteria=("Waits", "Looks"))  # fmt: skip
    found = changes(
        replace(OLD, tasks={"hand-recovery": before}), replace(OLD, tasks={"hand-recovery": after})
    )
    assert [(change.did, change.before or change.after) for change in found] == [
        ("changed", "the light at launch counts"),
        ("dropped", "Holds"),
        ("added", "Looks"),
    ]
    assert found[0].after == (
        "duty: pilot, the light at recovery counts, alone with: deck,"
        " signed off and supervised by: deck"
    )


def test_tells_that_a_task_asks_for_a_second_signature() -> None:
    before = Task("hand-recovery", "Recovery")
    after = replace(before, certified_by="officer")
    (found,) = changes(
        replace(OLD, tasks={"hand-recovery": before}), replace(OLD, tasks={"hand-recovery": after})
    )
    assert (found.did, found.after) == (
        "changed",
        "the light at launch counts, a pass counts once certified by: officer",
    )


def test_lines_stand_under_what_they_belong_to() -> None:
    deck = replace(OLD.qualifications["deck"], minimum=2, needs=(practice(2, within("P60D")),))
    lines = change_lines(changes(OLD, with_qualification(OLD, deck)))
    assert [(line.depth, line.text) for line in lines] == [
        (0, "deck"),
        (1, "Changed, Minimum: at least 2 people current"),
        (2, "was: no minimum"),
        (1, "Changed, practice: hand-recovery: 2 times in 60 days"),
        (2, "was: hand-recovery: 3 times in 90 days"),
    ]
