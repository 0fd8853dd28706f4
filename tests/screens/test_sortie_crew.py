"""Seats, and the tasks that follow from who sits in them."""

from dataclasses import replace

from crewtrack.screens.sortie_crew import (
    DutySeat,
    Usual,
    crew_of,
    duty_seats,
    seated,
    with_usual,
)
from crewtrack.screens.sortie_draft import CrewLine, SortieDraft, TaskLine
from tests.screens.sortie_samples import SOUND, STANDARD, books, evidence

EMPTY = SortieDraft(crew=(CrewLine("pilot"), CrewLine("catcher")))


def usual(*each: object) -> Usual:
    return Usual(evidence(*each), STANDARD)  # type: ignore[arg-type]  # books


def test_the_seats_are_those_of_all_crews_each_once() -> None:
    assert duty_seats(STANDARD) == (DutySeat("pilot", "pilot"), DutySeat("catcher", "handler"))


def test_without_crews_there_is_a_seat_for_each_duty() -> None:
    bare = replace(STANDARD, crews={})
    assert [each.seat for each in duty_seats(bare)] == ["pilot", "handler"]


def test_a_seat_proposes_what_the_person_did_last_in_it() -> None:
    known = usual(books("K-01", deck_launch=(0, 4), hand_recovery=(0, 2)))
    draft = seated(EMPTY, "pilot", "K-01", known)
    assert draft.tasks == (TaskLine("K-01", "deck-launch", "1"),)


def test_somebody_new_is_proposed_what_others_did_last() -> None:
    known = usual(books("K-01", hand_recovery=(3,)), books("K-02"))
    draft = seated(EMPTY, "pilot", "K-02", known)
    assert draft.tasks == (TaskLine("K-02", "hand-recovery", "1"),)


def test_where_nobody_did_anything_all_tasks_of_the_duty_are_proposed() -> None:
    draft = seated(EMPTY, "pilot", "K-02", usual())
    assert [line.task for line in draft.tasks] == ["deck-launch", "hand-recovery"]


def test_who_takes_over_a_seat_takes_over_its_tasks() -> None:
    draft = seated(SOUND, "pilot", "K-03", usual())
    assert [line.person for line in draft.tasks] == ["K-03", "K-03", "K-02"]
    assert draft.tasks[1].attempts == "3"


def test_an_empty_seat_has_no_tasks() -> None:
    draft = seated(SOUND, "pilot", "", usual())
    assert [line.task for line in draft.tasks] == ["catch"]


def test_usual_tasks_are_added_where_they_are_not_there_yet() -> None:
    draft = SOUND.with_tasks((TaskLine("K-01", "deck-launch", "5"), TaskLine(times="1")))
    filled = with_usual(draft, usual())
    assert [(line.task, line.times) for line in filled.tasks] == [
        ("deck-launch", "5"),
        ("hand-recovery", "1"),
        ("catch", "1"),
    ]


def test_the_crew_is_told_from_the_tasks() -> None:
    assert dict(crew_of(SOUND.tasks, usual())) == {"pilot": "K-01", "catcher": "K-02"}
