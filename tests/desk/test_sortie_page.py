"""The form for one sortie: what it asks, in which order, and what it says beside it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.deck_words import CAUTIONS
from tests.desk.sorties import LAST, Keys, focused, opened


@pytest.fixture
def page(demo_state: State, theme: Theme, qtbot: QtBot) -> SortiesPage:
    made = opened(demo_state, theme, qtbot)
    made.new()
    return made


def test_tab_follows_the_reading_order(page: SortiesPage) -> None:
    seen = []
    for _ in range(19):
        seen.append(focused().objectName())
        Keys().key(Qt.Key.Key_Tab)
    assert seen == [
        "vessel", "aircraft", "date", "time", "minutes", "setting", "lat", "lon", "way", "sea",
        "wind", "heading", "speed", "current", "purpose", "pilot", "handler", "observer", "helm",
    ]  # fmt: skip
    assert page.form.tasks.hasFocus()


def test_everything_that_takes_keys_has_a_name(page: SortiesPage) -> None:
    kinds = (QLineEdit, QComboBox, QPlainTextEdit, QAbstractButton)
    nameless = [
        widget
        for kind in kinds
        for widget in page.findChildren(kind)
        if widget.isVisible() and not widget.accessibleName() and not _inside(widget)
    ]
    assert nameless == []


def _inside(widget: QWidget) -> bool:
    """Whether it is a part of a chooser or of a table, which has the name."""
    parent = widget.parentWidget()
    return isinstance(parent, QComboBox) or "qt_" in widget.objectName()


def test_a_new_sortie_starts_on_the_day_that_is_shown(page: SortiesPage) -> None:
    assert page.form.draft.text("date") == "2026-11-21"
    assert page.form.draft.text("sortie") == "261121-9"
    assert page.form.draft.text("setting") == ""


def test_another_date_proposes_another_key(page: SortiesPage) -> None:
    page.form.first.fields["date"].editor.set_text("2026-11-24")
    assert page.form.last.fields["sortie"].editor.text() == "261124-1"


def test_a_key_that_was_typed_stays(page: SortiesPage) -> None:
    page.form.last.fields["sortie"].editor.set_text("X-1")
    page.form.first.fields["date"].editor.set_text("2026-11-24")
    assert page.form.draft.text("sortie") == "X-1"


def test_who_is_seated_brings_the_usual_tasks(page: SortiesPage) -> None:
    page.form.crew.fields["handler"].editor.set_text("K-05")
    assert [(line.person, line.task) for line in page.form.draft.tasks] == [
        ("K-05", "handler-recovery")
    ]


def test_one_key_brings_back_the_usual_tasks(page: SortiesPage) -> None:
    page.form.crew.fields["handler"].editor.set_text("K-05")
    page.form.tasks.go_to(0, "task")
    Keys().key(Qt.Key.Key_Delete)
    assert not page.form.draft.tasks
    Keys().key(
        Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    )
    assert [line.task for line in page.form.draft.tasks] == ["handler-recovery"]


def test_somebody_alone_who_is_not_current_is_warned_of(page: SortiesPage, qtbot: QtBot) -> None:
    page.form.crew.fields["pilot"].editor.set_text("K-13")
    qtbot.waitUntil(lambda: "is not current as Deck pilot" in page.form.notes.text())
    assert page.form.notes.isVisible()


def test_the_cautions_are_always_in_sight(page: SortiesPage) -> None:
    assert any(
        label.text() == " ".join(CAUTIONS) and label.isVisible()
        for label in page.form.findChildren(QLabel)
    )


def test_a_fault_of_a_line_says_which_line(page: SortiesPage) -> None:
    page.form.crew.fields["handler"].editor.set_text("K-05")
    page.form.tasks.lines.edited.emit(0, "times", "0")
    assert page.form.task_faults.text() == (
        "Line 1: 0 is less than 1; write a whole number from 1 to 999"
    )


def test_a_correction_keeps_the_key(page: SortiesPage) -> None:
    page.show_sortie(LAST)
    assert not page.form.last.fields["sortie"].editor.isEnabled()
    assert page.form.correction.past.toPlainText() == "1. K-02, 2026-11-24 20:40"


def test_a_recorded_sortie_opens_without_a_fault(page: SortiesPage) -> None:
    page.show_sortie(LAST)
    assert not any(field.fault.isVisible() for field in page.form.first.fields.values())
    assert not page.form.unsaved()


def test_what_others_record_leaves_what_is_typed(page: SortiesPage, demo_state: State) -> None:
    page.form.first.fields["minutes"].editor.set_text("17")
    demo_state.moved.emit()
    assert page.form.first.fields["minutes"].editor.text() == "17"
