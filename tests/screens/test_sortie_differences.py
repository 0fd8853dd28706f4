"""Where two drafts of one sortie differ."""

from crewtrack.screens.sortie_differences import differences
from tests.screens.sortie_samples import SOUND


def test_two_that_say_the_same_do_not_differ() -> None:
    assert differences(SOUND, SOUND.with_text("wind", " 240/14 ")) == ()


def test_each_field_is_told_with_both_texts() -> None:
    yours = SOUND.with_texts({"wind": "250/14", "sea": ""})
    assert differences(SOUND, yours) == (
        "Sea state: theirs 2, yours –",
        "Wind from / kn: theirs 240/14, yours 250/14",
    )


def test_each_task_is_told_with_what_was_done() -> None:
    yours = SOUND.with_task_text(1, "times", "1").without_task(2)
    assert differences(SOUND, yours) == (
        "K-01, hand-recovery: theirs Times 2, Attempts 3, Wave-offs 1, Supervisor K-03,"
        " Stood apart, yours Times 1, Attempts 3, Wave-offs 1, Supervisor K-03, Stood apart",
        "K-02, catch: theirs Times 2, yours –",
    )
