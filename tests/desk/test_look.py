"""How much room a window takes."""

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.look import take_room


def test_a_window_takes_the_room_that_it_asks_for(qtbot: QtBot) -> None:
    made = QWidget()
    qtbot.addWidget(made)
    take_room(made, 300, 200)
    assert made.size().toTuple() == (300, 200)


def test_but_no_more_than_the_screen_has(qtbot: QtBot) -> None:
    made = QWidget()
    qtbot.addWidget(made)
    take_room(made, 100_000, 200)
    assert made.width() <= QGuiApplication.primaryScreen().availableSize().width()
    assert made.height() == 200
