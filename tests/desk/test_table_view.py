"""A table on the screen."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from crewtrack.desk.table_view import TableView
from crewtrack.desk.theme import Theme
from crewtrack.screens.tables import Table, TableColumn

COLUMNS = (
    TableColumn("Name", lambda row: str(row[0])),
    TableColumn("Count", lambda row: str(row[1]), order=lambda row: row[1]),
)
ROWS = (("b", 10), ("a", 9), ("c", 100))


def table(*rows: tuple[str, int]) -> Table:
    return Table(COLUMNS, rows, lambda row: row[0])


@pytest.fixture
def view(qtbot: QtBot, theme: Theme) -> TableView:
    shown = TableView("Things")
    qtbot.addWidget(shown)
    shown.show_table(table(*ROWS))
    shown.show()
    return shown


def test_it_has_the_name_that_it_was_given(view: TableView) -> None:
    assert view.accessibleName() == "Things"


def test_a_click_on_a_heading_sorts(view: TableView, qtbot: QtBot) -> None:
    header = view.horizontalHeader()
    place = QPoint(header.sectionViewportPosition(1) + 5, 5)
    qtbot.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert view.rows.row_at(0) == ("a", 9)


def test_enter_opens_the_chosen_row(view: TableView, qtbot: QtBot) -> None:
    assert view.choose("a")
    with qtbot.waitSignal(view.opened) as opened:
        qtbot.keyClick(view, Qt.Key.Key_Return)
    assert opened.args == [("a", 9)]


def test_enter_without_a_row_opens_nothing(view: TableView, qtbot: QtBot) -> None:
    view.show_table(table())
    with qtbot.assertNotEmitted(view.opened):
        qtbot.keyClick(view, Qt.Key.Key_Return)
    assert view.chosen() is None


def test_a_double_click_opens_a_row(view: TableView, qtbot: QtBot) -> None:
    place = view.visualRect(view.rows.index(2, 0)).center()
    qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    with qtbot.waitSignal(view.opened) as opened:
        qtbot.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert opened.args == [("c", 100)]


def test_arrows_move_and_tell(view: TableView, qtbot: QtBot) -> None:
    view.choose("b")
    with qtbot.waitSignal(view.moved_to) as moved:
        qtbot.keyClick(view, Qt.Key.Key_Down)
    assert moved.args == [("a", 9)]


def test_the_chosen_row_stays_chosen_in_other_rows(view: TableView) -> None:
    view.choose("c")
    view.show_table(table(("d", 1), ("c", 5)))
    assert view.chosen() == ("c", 5)


def test_a_row_that_is_not_there_can_t_be_chosen(view: TableView) -> None:
    assert not view.choose("?")


def test_the_selected_rows_are_copied_as_text(view: TableView, qtbot: QtBot) -> None:
    view.choose("a")
    qtbot.keyClick(view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert QGuiApplication.clipboard().text() == "Name\tCount\na\t9"


def test_all_rows_are_copied_where_none_is_selected(view: TableView) -> None:
    assert view.copied().splitlines() == ["Name\tCount", "b\t10", "a\t9", "c\t100"]
