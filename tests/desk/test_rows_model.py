"""The one model for all tables."""

import pytest
from PySide6.QtCore import QPersistentModelIndex, Qt
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from crewtrack.desk.rows_model import ROLE_ROW, ROLE_WORD, RowsModel
from crewtrack.screens.tables import Table, TableColumn

COLUMNS = (
    TableColumn("Name", lambda row: str(row[0])),
    TableColumn(
        "Count", lambda row: str(row[1]), order=lambda row: row[1],
        spoken=lambda row: f"{row[0]} has {row[1]}.",
        word=lambda row: "due" if row[1] > 9 else None, right=True,
    ),
)  # fmt: skip
ROWS = (("b", 10), ("a", 9), ("c", 100))


@pytest.fixture
def model() -> RowsModel:
    return RowsModel(Table(COLUMNS, ROWS, lambda row: row[0]))


def names(model: RowsModel) -> str:
    return "".join(str(model.index(line, 0).data()) for line in range(model.rowCount()))


def test_it_keeps_what_qt_asks_of_a_model(model: RowsModel, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(model)
    model.sort(1)
    model.show_table(Table(COLUMNS, ROWS[:1], lambda row: row[0]))
    qtmodeltester.check(model)


def test_a_cell_shows_says_and_bears_what_its_column_tells(model: RowsModel) -> None:
    cell = model.index(0, 1)
    assert cell.data() == "10"
    assert cell.data(Qt.ItemDataRole.AccessibleTextRole) == "b has 10."
    assert cell.data(ROLE_WORD) == "due"
    assert cell.data(ROLE_ROW) == ("b", 10)
    assert model.index(0, 0).data(ROLE_WORD) is None


def test_headings_are_the_titles(model: RowsModel) -> None:
    across = Qt.Orientation.Horizontal
    assert [model.headerData(n, across) for n in range(2)] == ["Name", "Count"]
    assert model.headerData(0, Qt.Orientation.Vertical) is None


def test_it_sorts_by_what_a_column_sorts_by(model: RowsModel) -> None:
    model.sort(1)
    assert names(model) == "abc"
    model.sort(1, Qt.SortOrder.DescendingOrder)
    assert names(model) == "cba"
    model.sort(-1)
    assert names(model) == "bac"


def test_what_was_pointed_at_is_pointed_at_after_sorting(model: RowsModel) -> None:
    held = QPersistentModelIndex(model.index(0, 0))
    model.sort(0)
    assert held.data() == "b"


def test_other_rows_come_sorted_as_before(model: RowsModel) -> None:
    model.sort(0)
    model.show_table(Table(COLUMNS, (("z", 1), ("x", 2)), lambda row: row[0]))
    assert names(model) == "xz"


def test_other_columns_come_in_their_own_order(model: RowsModel) -> None:
    model.sort(1)
    model.show_table(Table(COLUMNS[:1], (("z", 1), ("x", 2)), lambda row: row[0]))
    assert names(model) == "zx"


def test_a_row_is_found_by_its_key(model: RowsModel) -> None:
    model.sort(0)
    assert model.line_of("c") == 2
    assert model.line_of("?") is None
    assert model.key_at(0) == "a"


def test_what_takes_long_to_sort_by_is_told_and_sorted_by_once_it_is_ready(
    qtbot: QtBot,
) -> None:
    ready: list[str] = []
    slow = TableColumn(
        "Slow",
        lambda row: str(row[0]),
        ready=lambda: bool(ready),
        prepare=lambda: ready.append("yes"),
    )
    model = RowsModel(Table((slow,), ROWS, lambda row: row[0]))
    with qtbot.waitSignal(model.waiting) as waiting:
        model.sort(0)
    assert names(model) == "bac"
    waiting.args[0]()
    model.sort_again()
    assert names(model) == "abc"
