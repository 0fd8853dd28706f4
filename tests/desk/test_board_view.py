"""The board's table: its first column stays in view."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from crewtrack.desk.board_page import BoardPage
from crewtrack.desk.board_view import BoardView
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def board(demo_state: State, theme: Theme, qtbot: QtBot) -> Iterator[BoardView]:
    page = BoardPage(demo_state, theme)
    qtbot.addWidget(page)
    page.resize(640, 600)
    with qtbot.waitExposed(page):
        page.show()
    page.activateWindow()
    page.board.setFocus()
    yield page.board
    page.close()


def go(qtbot: QtBot, board: BoardView, key: Qt.Key, times: int) -> None:
    for _ in range(times):
        qtbot.keyClick(board, key)


def names(board: BoardView) -> list[str]:
    return [board.rows.row_at(line).person.name for line in range(board.rows.rowCount())]


def test_names_stay_in_view_when_the_board_is_scrolled(board: BoardView, qtbot: QtBot) -> None:
    board.horizontalScrollBar().setValue(0)
    assert not board.names.isVisible()
    go(qtbot, board, Qt.Key.Key_Right, 10)
    assert board.names.isVisible()
    assert board.names.columnWidth(0) == board.columnWidth(0)
    assert board.names.verticalScrollBar().value() == board.verticalScrollBar().value()


def test_they_scroll_up_and_down_with_it(board: BoardView, qtbot: QtBot) -> None:
    go(qtbot, board, Qt.Key.Key_Right, 10)
    go(qtbot, board, Qt.Key.Key_Down, 13)
    assert board.verticalScrollBar().value() > 0
    assert board.names.verticalScrollBar().value() == board.verticalScrollBar().value()


def test_the_chosen_cell_never_lies_below_the_names(board: BoardView, qtbot: QtBot) -> None:
    go(qtbot, board, Qt.Key.Key_Right, 11)
    for _ in range(9):
        go(qtbot, board, Qt.Key.Key_Left, 1)
        hidden = board.names.isVisible() and board.currentIndex().column() > 0
        left = board.visualRect(board.currentIndex()).left()
        assert not hidden or left >= board.columnWidth(0)


def test_a_click_on_a_name_chooses_it_and_leaves_the_board_scrolled(
    board: BoardView, qtbot: QtBot
) -> None:
    go(qtbot, board, Qt.Key.Key_Right, 10)
    before = board.horizontalScrollBar().value()
    where = QPoint(10, board.rowViewportPosition(2) + 5)
    qtbot.mouseClick(board.names.viewport(), LEFT, pos=where)
    assert (board.currentIndex().row(), board.currentIndex().column()) == (2, 0)
    assert board.horizontalScrollBar().value() == before
    assert board.hasFocus()


def test_a_click_on_their_title_sorts_by_name(board: BoardView, qtbot: QtBot) -> None:
    go(qtbot, board, Qt.Key.Key_Right, 10)
    header = board.names.horizontalHeader()
    where = QPoint(10, header.height() // 2)
    qtbot.mouseClick(header.viewport(), LEFT, pos=where)
    assert names(board) == sorted(names(board), key=str.casefold)
    assert board.horizontalHeader().sortIndicatorSection() == 0
    qtbot.mouseClick(header.viewport(), LEFT, pos=where)
    assert names(board) == sorted(names(board), key=str.casefold, reverse=True)
    assert len(board.selectionModel().selectedIndexes()) == 1


def test_a_standing_s_column_has_room_for_since_on_any_day(
    board: BoardView, demo_state: State
) -> None:
    wide = [board.columnWidth(column) for column in range(1, 12)]
    least = board.fontMetrics().horizontalAdvance("since 2026-11-25")
    assert min(wide) > least
