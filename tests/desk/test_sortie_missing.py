"""What the record lacks is added from within the form."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from tests.desk.sorties import CTRL, SHIFT, Keys, opened


def test_a_new_boat_is_chosen_where_it_was_missed(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fill(dialog: FactDialog) -> int:
        assert dialog.fields.draft().text("name") == "Plover"
        dialog.fields.fields["vessel"].editor.set_text("B-4")
        dialog.save()
        return dialog.result()

    monkeypatch.setattr(FactDialog, "exec", fill)
    page = opened(demo_state, theme, qtbot)
    page.new()
    Keys().text("Plover")
    Keys().key(Qt.Key.Key_E, CTRL | SHIFT)
    with qtbot.waitSignal(demo_state.moved):
        pass
    assert page.form.draft.text("vessel") == "B-4"
    assert page.form.first.fields["vessel"].fault.text() == ""


def test_elsewhere_it_says_where_to_go(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    page = opened(demo_state, theme, qtbot)
    page.new()
    page.form.first.go_to("minutes")
    with qtbot.waitSignal(demo_state.told) as caught:
        Keys().key(Qt.Key.Key_E, CTRL | SHIFT)
    assert caught.args == ["Go to the boat, the aircraft or a seat first."]


def test_the_button_can_be_clicked_without_leaving_the_field(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def refuse(dialog: FactDialog) -> int:
        asked.append(dialog.fields.draft().text("name"))
        return 0

    monkeypatch.setattr(FactDialog, "exec", refuse)
    page = opened(demo_state, theme, qtbot)
    page.new()
    Keys().text("Plover")
    button = next(one for one in page.findChildren(QPushButton) if one.text() == "Add missing…")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert asked == ["Plover"]
