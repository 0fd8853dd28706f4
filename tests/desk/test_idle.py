"""Noticing that nobody has touched anything."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from crewtrack.desk.idle import Idle


class Started:
    """Counts how often the time began anew."""

    def __init__(self, idle: Idle, patch: pytest.MonkeyPatch) -> None:
        self.count = 0
        start = idle.timer.start

        def counted() -> None:
            self.count += 1
            start()

        patch.setattr(idle.timer, "start", counted)


@pytest.fixture
def idle(qapp: QApplication) -> Iterator[Idle]:
    owner = QObject()
    made = Idle(owner)
    yield made
    made.stop()


def test_a_key_and_the_mouse_begin_the_time_anew(
    idle: Idle, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = QLineEdit()
    qtbot.addWidget(line)
    line.show()
    idle.watch(5)
    began = Started(idle, monkeypatch)
    QTest.keyClick(line, Qt.Key.Key_A)
    pressed = began.count
    assert pressed >= 1
    QTest.mouseClick(line, Qt.MouseButton.LeftButton)
    assert began.count > pressed
    assert line.text() == "a"


def test_what_the_program_does_by_itself_does_not(
    idle: Idle, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = QLineEdit()
    qtbot.addWidget(line)
    idle.watch(5)
    began = Started(idle, monkeypatch)
    line.show()
    line.setText("by itself")
    QApplication.sendEvent(line, QEvent(QEvent.Type.UpdateRequest))
    assert began.count == 0


def test_it_tells_once_when_the_time_is_over(idle: Idle, qtbot: QtBot) -> None:
    idle.watch(5)
    idle.timer.setInterval(1)
    with qtbot.waitSignal(idle.left_alone):
        idle.timer.start()
    assert not idle.timer.isActive()


def test_never_is_never(idle: Idle) -> None:
    idle.watch(0)
    assert not idle.timer.isActive()
