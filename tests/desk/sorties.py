"""A page of sorties on the demonstration's last day of flying, and keys that are typed into it."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme

FLYING = date(2026, 11, 21)
LAST = "261121-8"
NEXT = "261121-9"
"""The key of the sortie after the day's last one, which came back at 12:26."""

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def opened(state: State, theme: Theme, qtbot: QtBot) -> SortiesPage:
    """The page on the screen, with the log in front."""
    state.day = FLYING
    page = SortiesPage(state, theme)
    qtbot.addWidget(page)
    page.resize(1400, 1000)
    page.show()
    page.activateWindow()
    page.log.table.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is page.log.table)
    return page


def focused() -> QWidget:
    """The widget that keys go to."""
    found = QApplication.focusWidget()
    assert found is not None
    return found


class Keys:
    """Types as a person does, wherever the focus is, and counts."""

    def __init__(self) -> None:
        self.pressed = 0

    def text(self, text: str) -> None:
        """Type a text."""
        for mark in text:
            QTest.keyClicks(focused(), mark)
            self.pressed += 1

    def key(self, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Press one key, alone or with others held."""
        QTest.keyClick(focused(), key, held)
        self.pressed += 1
