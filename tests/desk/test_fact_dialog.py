"""Adding, correcting and striking out one fact."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import CERTIFICATES, PEOPLE, Row

FIRST_AID = "FA-01-2"


@pytest.fixture
def certificate(demo_state: State) -> Row:
    return demo_state.snapshot.by_key(CERTIFICATES)[(FIRST_AID,)]


@pytest.fixture
def adding(demo_state: State, theme: Theme, qtbot: QtBot) -> FactDialog:
    dialog = FactDialog(demo_state, CERTIFICATES, None, {"person": "K-01"})
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


@pytest.fixture
def correcting(demo_state: State, certificate: Row, theme: Theme, qtbot: QtBot) -> FactDialog:
    dialog = FactDialog(demo_state, CERTIFICATES, certificate, {})
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


def press(dialog: FactDialog, name: str, qtbot: QtBot) -> None:
    button = next(b for b in dialog.findChildren(QPushButton) if b.text() == name)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_a_fact_is_added_by_typing(adding: FactDialog, demo_state: State, qtbot: QtBot) -> None:
    qtbot.keyClicks(adding.fields.fields["kind"].editor, "boat-operator")
    qtbot.keyClicks(adding.fields.fields["issued"].editor, "2026-11-01")
    with qtbot.waitSignal(demo_state.moved):
        press(adding, "Save", qtbot)
    key = adding.fields.draft().text("certificate")
    row = demo_state.snapshot.by_key(CERTIFICATES)[(key,)]
    assert row[1:4] == ("K-01", "boat-operator", date(2026, 11, 1))
    assert adding.changes is not None


def test_a_new_fact_comes_with_a_key_that_nothing_has(
    adding: FactDialog, demo_state: State
) -> None:
    key = adding.fields.draft().text("certificate")
    assert key
    assert (key,) not in demo_state.snapshot.by_key(CERTIFICATES)


def test_a_day_that_can_t_be_read_is_told_as_it_is_typed(adding: FactDialog, qtbot: QtBot) -> None:
    qtbot.keyClicks(adding.fields.fields["issued"].editor, "1.11.")
    assert "1.11." in adding.fields.fields["issued"].fault.text()


def test_what_is_needed_is_told_on_saving_and_nothing_is_recorded(
    adding: FactDialog, qtbot: QtBot
) -> None:
    assert not adding.fields.fields["kind"].fault.text()
    press(adding, "Save", qtbot)
    assert adding.fields.fields["kind"].fault.text() == "this is needed"
    assert adding.changes is None
    assert adding.isVisible()


def test_a_correction_needs_a_reason(correcting: FactDialog, qtbot: QtBot) -> None:
    correcting.fields.fields["number"].editor.set_text("FA 1")
    press(correcting, "Save", qtbot)
    assert correcting.reason.fault.text() == "this is needed"
    assert correcting.changes is None


def test_a_correction_is_a_new_revision(
    correcting: FactDialog, demo_state: State, qtbot: QtBot
) -> None:
    correcting.fields.fields["number"].editor.set_text("FA 1")
    qtbot.keyClicks(correcting.reason.editor, "misread")
    with qtbot.waitSignal(demo_state.moved):
        press(correcting, "Save", qtbot)
    held = demo_state.snapshot.revisions(CERTIFICATES, (FIRST_AID,))
    assert [one.number for one in held] == [1, 2]
    assert held[-1].act.reason == "misread"


def test_the_key_of_a_recorded_fact_can_t_be_changed(correcting: FactDialog) -> None:
    assert "certificate" not in correcting.fields.fields


def test_a_fact_is_struck_out_with_a_reason(
    correcting: FactDialog, demo_state: State, qtbot: QtBot
) -> None:
    press(correcting, "Strike out", qtbot)
    assert correcting.reason.fault.text()
    qtbot.keyClicks(correcting.reason.editor, "somebody else's")
    with qtbot.waitSignal(demo_state.moved):
        press(correcting, "Strike out", qtbot)
    assert (FIRST_AID,) not in demo_state.snapshot.by_key(CERTIFICATES)


def test_who_was_overtaken_is_told_and_keeps_what_was_typed(
    correcting: FactDialog, demo_state: State, certificate: Row, qtbot: QtBot
) -> None:
    other = FactDialog(demo_state, CERTIFICATES, certificate, {})
    qtbot.addWidget(other)
    other.show()
    other.fields.fields["number"].editor.set_text("FA 2")
    qtbot.keyClicks(other.reason.editor, "first")
    press(other, "Save", qtbot)
    correcting.fields.fields["number"].editor.set_text("FA 1")
    qtbot.keyClicks(correcting.reason.editor, "second")
    press(correcting, "Save", qtbot)
    assert correcting.isVisible()
    assert correcting.fields.draft().text("number") == "FA 1"
    assert correcting.changes is None


def test_nothing_typed_closes_without_a_question(adding: FactDialog, qtbot: QtBot) -> None:
    qtbot.keyClick(adding, Qt.Key.Key_Escape)
    assert not adding.isVisible()


def test_a_person_is_added_with_duties(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    dialog = FactDialog(demo_state, PEOPLE, None, {"name": "Ada", "duties": "pilot;helm"})
    qtbot.addWidget(dialog)
    dialog.show()
    with qtbot.waitSignal(demo_state.moved):
        press(dialog, "Save", qtbot)
    assert demo_state.snapshot.rows(PEOPLE)[-1][-1] == ("pilot", "helm")


def test_it_begins_at_the_first_field_that_is_empty(adding: FactDialog) -> None:
    assert adding.focusWidget() is adding.fields.fields["kind"].editor


def test_a_certificate_that_nothing_asks_for_is_told_of(adding: FactDialog, qtbot: QtBot) -> None:
    qtbot.keyClicks(adding.fields.fields["kind"].editor, "first aid")
    assert adding.note.text() == (
        "The standard asks for no certificate of the kind 'first aid': it counts for nothing."
    )
    adding.fields.fields["kind"].editor.set_text("first-aid")
    assert adding.note.text() == ""


def test_enter_saves_also_after_tab_went_past_cancel(adding: FactDialog) -> None:
    buttons = {button.text(): button for button in adding.findChildren(QPushButton)}
    buttons["Cancel"].setFocus(Qt.FocusReason.TabFocusReason)
    adding.fields.fields["issued"].editor.setFocus(Qt.FocusReason.TabFocusReason)
    assert buttons["Save"].isDefault()


def test_all_duties_are_within_the_window(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    dialog = FactDialog(demo_state, PEOPLE, None, {})
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    boxes = dialog.fields.findChildren(QCheckBox)
    assert len(boxes) == 7
    for box in boxes:
        assert box.mapTo(dialog, box.rect().bottomRight()).x() < dialog.width()
