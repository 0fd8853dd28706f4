"""How the page of people is laid out: the list on the left, the books on the right."""

from collections.abc import Iterable

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSplitter, QVBoxLayout, QWidget

from crewtrack.desk.action_button import button_for
from crewtrack.desk.theme import Theme


def left_side(theme: Theme, parts: Iterable[QWidget], count: QLabel, taking: QAction) -> QWidget:
    """What seeks people, the list, and below it how many there are and a button for another."""
    left = QWidget()
    column = QVBoxLayout(left)
    column.setContentsMargins(theme.line() // 2, theme.line() // 2, 0, 0)
    for part in parts:
        column.addWidget(part)
    below = QHBoxLayout()
    below.addWidget(count, 1)
    below.addWidget(button_for(taking))
    column.addLayout(below)
    return left


def side_by_side(theme: Theme, left: QWidget, right: QWidget) -> QSplitter:
    """The two, the right one taking what room there is."""
    split = QSplitter()
    split.addWidget(left)
    split.addWidget(right)
    split.setStretchFactor(1, 1)
    split.setSizes([26 * theme.line(), 60 * theme.line()])
    return split
