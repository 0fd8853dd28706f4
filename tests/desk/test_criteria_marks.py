"""Tests of marking criteria with keys and clicks."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from crewtrack.desk.criteria_marks import CriteriaMarks

CRITERIA = ("Gloves on", "Calls it", "Steps back")


def marks(qtbot: QtBot) -> CriteriaMarks:
    made = CriteriaMarks()
    qtbot.addWidget(made)
    made.offer(CRITERIA)
    with qtbot.waitExposed(made):
        made.show()
    made.buttons[0].setFocus()
    return made


def test_single_keys_mark_and_go_on_to_the_next(qtbot: QtBot) -> None:
    made = marks(qtbot)
    for key in "yns":
        qtbot.keyClicks(made.focusWidget(), key)
    assert made.marks() == ("yes", "not-yet", "not-seen")
    assert made.buttons[2].hasFocus()


def test_arrows_go_up_and_down_and_stay_within(qtbot: QtBot) -> None:
    made = marks(qtbot)
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up):
        qtbot.keyClick(made.focusWidget(), key)
    assert made.buttons[1].hasFocus()


def test_a_click_goes_round_the_marks(qtbot: QtBot) -> None:
    made = marks(qtbot)
    seen = []
    for _ in range(3):
        qtbot.mouseClick(made.buttons[1], Qt.MouseButton.LeftButton)
        seen.append(made.marks()[1])
    assert seen == ["yes", "not-yet", "not-seen"]


def test_every_mark_is_told_as_an_edit(qtbot: QtBot) -> None:
    made = marks(qtbot)
    with qtbot.waitSignal(made.edited):
        qtbot.keyClicks(made.buttons[0], "y")


def test_marks_of_criteria_that_stay_are_kept(qtbot: QtBot) -> None:
    made = marks(qtbot)
    qtbot.keyClicks(made.buttons[1], "y")
    made.offer(("Calls it", "New"))
    assert made.marks() == ("yes", "not-seen")


def test_each_mark_speaks_its_criterion(qtbot: QtBot) -> None:
    made = marks(qtbot)
    qtbot.keyClicks(made.buttons[0], "n")
    assert made.buttons[0].accessibleName() == "Gloves on: ✖ not yet"
