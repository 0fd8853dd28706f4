"""Tests of the sign-off form, filled in by keys."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
)
from pytestqt.qtbot import QtBot

from crewtrack.desk.drafts import Drafts
from crewtrack.desk.signoff_dialog import DRAFT, SignOffDialog
from crewtrack.desk.state import State
from crewtrack.facts import SIGNOFFS
from tests.desk.choices import leave_choices

PILOT, TASK, EVALUATOR = "K-05", "hand-recovery", "K-08"


def form(qtbot: QtBot, state: State, person: str = PILOT, task: str = TASK) -> SignOffDialog:
    made = SignOffDialog(state, person, task, "")
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def write(qtbot: QtBot, dialog: SignOffDialog, name: str, text: str) -> None:
    """Type into a field in place of what stands there."""
    editor = dialog.fields[name].editor
    editor.setFocus()
    qtbot.keyClick(editor, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(editor, text)
    leave_choices(qtbot, editor)


def test_the_form_begins_at_the_criteria_where_person_and_task_are_known(
    qtbot: QtBot, demo_state: State
) -> None:
    made = form(qtbot, demo_state)
    assert len(made.marks.buttons) == 5
    assert made.fields["date"].editor.text() == "2026-11-25"
    assert made.focusWidget() is made.marks.buttons[0]


def test_it_begins_at_the_person_where_nothing_is_known(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state, "", "")
    assert made.focusWidget() is made.fields["person"].editor


def test_it_tells_the_evaluator_s_own_standing_and_warns(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    write(qtbot, made, "evaluator", "K-08")
    assert "Deck evaluator on 2026-11-25: current" in made.standing.text()
    assert not made.warning.isVisible()
    write(qtbot, made, "evaluator", "K-01")
    assert made.warning.text().startswith("Signing is possible; the record will show that")
    assert made.warning.isVisible()


def test_those_who_may_sign_stand_first_in_the_choices(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    editor = made.fields["evaluator"].editor
    assert isinstance(editor, QComboBox)
    shapes = [editor.itemText(line)[:1] for line in range(1, editor.count())]
    assert shapes[0] == "●"
    assert sorted(shapes, key="●▲✖‖◇–".index) == shapes


def test_a_faulty_date_is_told_while_it_is_typed(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    write(qtbot, made, "date", "2026-02-30")
    assert made.fields["date"].fault.text() == "there is no 2026-02-30; February 2026 has 28 days"
    write(qtbot, made, "date", "2026-11-24")
    assert not made.fields["date"].fault.isVisible()


def test_what_it_would_bring_or_end_is_told_before_saving(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    assert "Deck pilot, through" in made.effect.text()
    made = form(qtbot, demo_state, "K-04")
    write(qtbot, made, "result", "failed")
    assert "ends Deck pilot from 2026-11-25" in made.effect.text()
    assert made.effect.property("tone") == "fault"


def test_an_empty_field_keeps_the_form_open_and_says_so(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    write(qtbot, made, "evaluator", " ")
    qtbot.keyClick(made, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert made.isVisible()
    assert made.fields["evaluator"].fault.text() == "this is needed"
    assert made.focusWidget() is made.fields["evaluator"].editor


def test_the_sortie_of_the_day_with_the_task_is_proposed(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state, "K-04")
    assert made.fields["sortie"].editor.text() == ""
    made.fields["task"].editor.set_text("lost-link-drill")
    write(qtbot, made, "date", "2026-11-13")
    assert made.fields["sortie"].editor.text() == "261113-2"


def test_a_sign_off_with_criteria_is_recorded_by_keys_alone(
    qtbot: QtBot, demo_state: State
) -> None:
    made = form(qtbot, demo_state)
    for key in "yyyyn":
        qtbot.keyClicks(made.focusWidget(), key)
    assert "1 criterion is marked not yet, and the result is a pass." in made.notices.text()
    qtbot.keyClicks(made.marks.buttons[4], "y")
    assert not made.notices.isVisible()
    write(qtbot, made, "evaluator", EVALUATOR)
    write(qtbot, made, "remarks", "Quiet hands.")
    with qtbot.waitSignals([made.accepted, demo_state.moved], timeout=20_000):
        qtbot.keyClick(made, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert made.changes is not None
    assert any(one.qualification == "deck-pilot" for one in made.changes.standings)
    row = demo_state.snapshot.rows(SIGNOFFS)[-1]
    remarks = str(row[SIGNOFFS.index("remarks")])
    assert remarks.count("[x] ") == 5
    assert remarks.endswith("\n\nQuiet hands.")
    assert row[1:7] == (PILOT, TASK, demo_state.today, "alone", "passed", EVALUATOR)


def test_the_form_is_unsaved_once_anything_was_typed_or_marked(
    qtbot: QtBot, demo_state: State
) -> None:
    made = form(qtbot, demo_state)
    assert not made.unsaved()
    qtbot.keyClicks(made.marks.buttons[0], "y")
    assert made.unsaved()


def test_what_is_typed_and_marked_is_kept_and_can_be_gone_on_with(
    qtbot: QtBot, demo_state: State, tmp_path: Path
) -> None:
    drafts = Drafts(tmp_path / "drafts")
    made = form(qtbot, demo_state)
    made.keep_in(drafts)
    qtbot.keyClicks(made.marks.buttons[0], "y")
    write(qtbot, made, "remarks", "Quiet hands.")
    qtbot.waitUntil(lambda: (drafts.load(DRAFT) or {}).get("remarks") == "Quiet hands.")
    again = form(qtbot, demo_state, "", "")
    again.go_on(drafts.load(DRAFT) or {})
    assert again.fields["person"].editor.text() == PILOT
    assert again.fields["remarks"].editor.text() == "Quiet hands."
    assert again.marks.marks()[:2] == ("yes", "not-seen")
    QDialog.reject(again)
    assert drafts.load(DRAFT) is not None
    QDialog.reject(made)
    assert drafts.load(DRAFT) is None


def test_every_place_to_type_or_press_has_a_name(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    for kind in (QLineEdit, QComboBox, QPlainTextEdit, QAbstractButton):
        for widget in made.findChildren(kind):
            inner = isinstance(widget.parent(), QComboBox)
            assert inner or widget.accessibleName(), widget


def test_enter_signs_off_also_after_tab_went_past_cancel(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    sign, cancel = (
        next(one for one in made.findChildren(QPushButton) if one.text() == told)
        for told in ("Sign off", "Cancel")
    )
    cancel.setFocus(Qt.FocusReason.TabFocusReason)
    made.fields["date"].editor.setFocus(Qt.FocusReason.TabFocusReason)
    assert sign.isDefault()
    assert not cancel.isDefault()


def test_marks_outlast_a_date_that_is_being_typed(qtbot: QtBot, demo_state: State) -> None:
    made = form(qtbot, demo_state)
    qtbot.keyClicks(made.marks.buttons[0], "y")
    write(qtbot, made, "date", "2026-11-2")
    write(qtbot, made, "date", "2026-11-24")
    assert made.marks.marks()[0] == "yes"


def test_without_a_task_it_does_not_say_that_nothing_is_asked(
    qtbot: QtBot, demo_state: State
) -> None:
    made = form(qtbot, demo_state, "K-05", "")
    told = [label.text() for label in made.marks.findChildren(QLabel)]
    assert told == ["Choose a task, and its criteria stand here."]
