"""What is no fault and should be known: who was not current."""

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Editions
from crewtrack.screens.sortie_draft import SortieDraft, TaskLine
from crewtrack.screens.sortie_notes import notes
from tests.screens.sortie_samples import DAY, SOUND, STANDARD, books, evidence

NOBODY = Reckoning(evidence(books("K-01"), books("K-02"), books("K-03")), Editions((STANDARD,)))


def told(*lines: TaskLine) -> tuple[str, ...]:
    return notes(SortieDraft(tasks=lines), DAY, NOBODY)


def test_somebody_alone_who_is_not_current_is_told_of() -> None:
    assert told(TaskLine("K-01", "hand-recovery", "1")) == (
        "Ana Kovač is not current as Deck pilot on 2026-11-25, and nobody supervises"
        " Hand recovery.",
    )


def test_a_supervisor_who_is_not_current_is_told_of_instead() -> None:
    assert told(TaskLine("K-01", "hand-recovery", "1", supervisor="K-03")) == (
        "Sam Lee supervises Hand recovery and is not current as Examiner on 2026-11-25.",
    )


def test_a_task_that_asks_for_nothing_has_no_note() -> None:
    assert told(TaskLine("K-02", "catch", "1", supervisor="K-03")) == ()


def test_what_the_record_does_not_know_has_no_note() -> None:
    assert told(TaskLine("K-99", "hand-recovery"), TaskLine("K-01", "juggling")) == ()


def test_who_sits_without_a_task_leaves_no_trace() -> None:
    draft = SOUND.with_tasks((TaskLine("K-01", "watch", "1"),))
    assert notes(draft, DAY, NOBODY) == (
        "Олена Ґедзь sits as catcher without a task: the record will not show it.",
    )
