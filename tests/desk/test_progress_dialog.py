"""The panel over long work."""

import errno
from threading import Event
from typing import Any

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk.progress_dialog import ProgressDialog, run_with_progress
from crewtrack.desk.troubles import trouble_told
from crewtrack.desk.work import Progress
from crewtrack.errors import Fault, RecordUnusable, Refused


def test_what_the_work_returned_comes_back(qtbot: QtBot) -> None:
    assert run_with_progress(None, "Counting", lambda _: 42) == 42


def test_refused_goes_through(qtbot: QtBot) -> None:
    def refuse(_: Progress) -> None:
        raise Refused(Fault("a.csv:2", "name", "is empty"))

    with pytest.raises(Refused):
        run_with_progress(None, "Reading", refuse)


def test_anything_else_is_told_in_a_sentence(qtbot: QtBot, panels: list[str]) -> None:
    def fail(_: Progress) -> None:
        raise RecordUnusable("the disk is full")

    assert run_with_progress(None, "Writing", fail) is None
    assert panels == ["the disk is full"]


@pytest.mark.parametrize("how", ["button", "escape", "closing"])
def test_it_can_be_called_off(qtbot: QtBot, panels: list[str], how: str) -> None:
    asked = Event()

    def go(progress: Progress) -> str:
        while not asked.wait(0.01):
            progress("counting", 1, 2)
        progress("counting", 2, 2)
        return "done"

    dialog = ProgressDialog("Counting", go, None)
    qtbot.addWidget(dialog)

    def call_off() -> None:
        if how == "button":
            button = dialog.findChild(QPushButton)
            assert button is not None
            qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
        elif how == "escape":
            qtbot.keyClick(dialog, Qt.Key.Key_Escape)
        else:
            dialog.close()
        asked.set()

    QTimer.singleShot(0, call_off)
    dialog.run()
    assert dialog.result_value is None
    assert type(dialog.error).__name__ == "Cancelled"


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (Refused(Fault("a.csv", "name", "is empty", "do")), "a.csv: name: is empty; do"),
        (RecordUnusable("it is locked"), "it is locked"),
        (OSError(errno.ENOSPC, "No space left on device"), "no space left on device"),
        (PermissionError(errno.EACCES, "Permission denied", "/x/y"), "/x/y: permission denied"),
    ],
)  # fmt: skip
def test_an_error_is_one_sentence(error: Exception, said: str) -> None:
    assert trouble_told(error) == said


def test_a_defect_names_the_file_that_tells_of_it(qtbot: QtBot) -> None:
    told: Any = trouble_told(ZeroDivisionError())
    assert "defect of the program" in told
    assert "defect-" in told
