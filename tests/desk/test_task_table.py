"""The lines of tasks: typed in place, marked where wrong, spoken."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from crewtrack.desk.task_table import TaskModel, TaskTable
from crewtrack.desk.theme import Theme
from crewtrack.screens.sortie_draft import TASK_FIELDS
from tests.desk.sorties import Keys
from tests.screens.sortie_samples import KNOWN, SOUND


@pytest.fixture
def table(theme: Theme, qtbot: QtBot) -> TaskTable:
    made = TaskTable(theme)
    qtbot.addWidget(made)
    made.lines.offer(KNOWN)
    made.lines.show_lines(SOUND.tasks)
    made.resize(900, 400)
    made.show()
    made.activateWindow()
    return made


def edited(model: TaskModel) -> list[tuple[int, str, str]]:
    told: list[tuple[int, str, str]] = []
    model.edited.connect(lambda *one: told.append(one))
    return told


def test_names_are_shown_for_keys(table: TaskTable) -> None:
    shown = [table.lines.index(1, column).data() for column in range(len(TASK_FIELDS))]
    assert shown == ["Ana Kovač", "Hand recovery", "2", "3", "1", "Sam Lee", "apart"]


def test_below_the_lines_there_is_a_blank_one(table: TaskTable) -> None:
    assert table.lines.rowCount() == 4
    assert table.lines.index(3, 0).data() == ""


def test_typing_on_a_cell_replaces_what_stands_there(table: TaskTable, qtbot: QtBot) -> None:
    told = edited(table.lines)
    table.go_to(0, "times")
    Keys().text("4")
    Keys().key(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(told))
    assert told == [(0, "times", "4")]


def test_a_task_is_chosen_by_its_name(table: TaskTable, qtbot: QtBot) -> None:
    told = edited(table.lines)
    table.go_to(3, "task")
    Keys().key(Qt.Key.Key_F2)
    Keys().text("catch")
    Keys().key(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(told))
    assert told == [(3, "task", "catch")]


def test_delete_takes_a_line_away(table: TaskTable, qtbot: QtBot) -> None:
    table.go_to(2, "task")
    with qtbot.waitSignal(table.removed) as caught:
        Keys().key(Qt.Key.Key_Delete)
    assert caught.args == [2]


def test_a_fault_is_shown_and_spoken_at_its_cell(table: TaskTable) -> None:
    table.lines.show_faults({"tasks 2 times": "0 is less than 1"})
    cell = table.lines.index(2, TASK_FIELDS.index("times"))
    assert cell.data(Qt.ItemDataRole.ToolTipRole) == "0 is less than 1"
    assert cell.data(Qt.ItemDataRole.AccessibleTextRole) == "Times: 2. 0 is less than 1"
    assert cell.data(Qt.ItemDataRole.ForegroundRole) is not None


def test_an_empty_cell_with_a_fault_is_not_blank(table: TaskTable) -> None:
    table.lines.show_faults({"tasks 3 task": "this is needed"})
    assert table.lines.index(3, 1).data() == "!"


def test_the_model_keeps_qts_rules(table: TaskTable) -> None:
    tester = QAbstractItemModelTester(
        table.lines, QAbstractItemModelTester.FailureReportingMode.Fatal
    )
    table.lines.show_lines(SOUND.tasks[:1])
    table.lines.show_lines(SOUND.tasks)
    assert tester.model() is table.lines


def test_tab_leaves_the_table(table: TaskTable) -> None:
    assert not table.tabKeyNavigation()
