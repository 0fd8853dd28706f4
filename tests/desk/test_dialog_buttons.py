"""The buttons of dialogs, and of the tables in them."""

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QVBoxLayout
from pytestqt.qtbot import QtBot

from crewtrack.desk.action_button import button_for
from crewtrack.desk.dialog_buttons import button_row, dialog_button, table_button
from crewtrack.desk.table_view import TableView
from crewtrack.facts import VESSELS


def test_the_row_of_a_dialog_names_its_buttons_without_marks_and_its_last_one_leaves(
    qtbot: QtBot,
) -> None:
    dialog = QDialog()
    qtbot.addWidget(dialog)
    row = button_row(dialog, (dialog_button("&Seal…"),), "Close")
    QVBoxLayout(dialog).addWidget(row)
    dialog.show()
    assert {one.accessibleName() for one in row.buttons()} == {"Seal…", "Close"}
    leave = next(one for one in row.buttons() if one.accessibleName() == "Close")
    with qtbot.waitSignal(dialog.rejected):
        QTest.mouseClick(leave, Qt.MouseButton.LeftButton)


def test_the_key_of_a_button_below_a_table_works_in_that_table_alone(qtbot: QtBot) -> None:
    done: list[str] = []
    dialog = QDialog()
    qtbot.addWidget(dialog)
    layout = QVBoxLayout(dialog)
    tables = [TableView("Boats"), TableView("Others")]
    for table, name in zip(tables, ("boats", "others"), strict=True):
        layout.addWidget(table)
        layout.addWidget(table_button(table, VESSELS, "Add…", "F4", partial(done.append, name)))
    with qtbot.waitExposed(dialog):
        dialog.show()
    dialog.activateWindow()
    tables[1].setFocus()
    QTest.keyClick(tables[1], Qt.Key.Key_F4)
    assert done == ["others"]


def test_the_button_of_an_action_goes_by_the_name_that_the_action_has_now(qtbot: QtBot) -> None:
    action = QAction("Identify people…")
    button = button_for(action)
    qtbot.addWidget(button)
    action.setText("Access…")
    action.setEnabled(False)
    assert (button.text(), button.accessibleName()) == ("Access…", "Access…")
    assert not button.isEnabled()
