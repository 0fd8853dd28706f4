"""Signing an act with a passphrase, at the act itself."""

from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk.import_dialog import ImportDialog
from crewtrack.desk.passphrase_ask import PassphraseAsk
from crewtrack.desk.sign_dialog import SignDialog
from crewtrack.desk.signoff_dialog import SignOffDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.errors import Refused
from crewtrack.facts import SIGNOFFS, Row
from crewtrack.office import attestation, signing
from crewtrack.office.entries import Order
from tests.desk.conftest import NOW
from tests.desk.identified import EVALUATOR, NAMES, PILOT, WORDS

Answer = Callable[[SignDialog], None]

RESULT: Row = ("E-1", PILOT, "hand-recovery", date(2026, 11, 20), "alone", "passed", EVALUATOR,
               *(None,) * 5)  # fmt: skip


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch, qtbot: QtBot) -> list[Answer]:
    """What is done, one after the other, in each dialog that asks for a passphrase."""
    answers: list[Answer] = []

    def shown(dialog: SignDialog) -> int:
        dialog.show()
        answers.pop(0)(dialog)
        return dialog.result()

    monkeypatch.setattr(SignDialog, "exec", shown)
    return answers


def type_in(ask: PassphraseAsk, words: str) -> None:
    """Type a passphrase in place of what stands there, and press Enter."""
    ask.field.line.setText("")
    QTest.keyClicks(ask.field.line, words)
    QTest.keyClick(ask.field.line, Qt.Key.Key_Return)


def sign(dialog: SignDialog) -> None:
    """Give the right one."""
    type_in(dialog.ask, WORDS[EVALUATOR])
    assert not dialog.isVisible()


def call_off(dialog: SignDialog) -> None:
    """Cancel."""
    QTest.keyClick(dialog, Qt.Key.Key_Escape)


def signoffs(state: State) -> list[Row]:
    """The sign-offs in the record."""
    with state.office.record.reading() as reading:
        return list(reading.rows(SIGNOFFS))


def test_a_sign_off_is_signed_with_the_passphrase(
    evaluator_state: State, asked: list[Answer]
) -> None:
    told: list[str] = []

    def read(dialog: SignDialog) -> None:
        told.append(dialog.what.text())
        sign(dialog)

    asked += [read]
    assert evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR)) is not None
    assert told == ["Sign with your passphrase: sign off a task"]
    assert signoffs(evaluator_state) == [RESULT]
    stands = attestation.attestations(evaluator_state.office)["E-1"]
    assert (stands.how, stands.by) == ("signed", EVALUATOR)


def test_the_key_is_let_go_of_with_the_act(evaluator_state: State, asked: list[Answer]) -> None:
    asked += [sign]
    evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR))
    assert evaluator_state.office.hand is None


def test_called_off_nothing_is_recorded_and_that_is_told(
    evaluator_state: State, asked: list[Answer], qtbot: QtBot
) -> None:
    asked += [call_off]
    with qtbot.waitSignal(evaluator_state.told) as said:
        assert evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR)) is None
    assert said.args == ["Not signed, so nothing was recorded."]
    assert signoffs(evaluator_state) == []


def test_a_wrong_one_stays_in_the_dialog_and_makes_it_wait(
    evaluator_state: State, asked: list[Answer]
) -> None:
    def wrong_then_right(dialog: SignDialog) -> None:
        type_in(dialog.ask, "this is not it at all")
        assert dialog.isVisible()
        assert "not the passphrase" in dialog.ask.fault.text()
        assert not dialog.ask.button.isEnabled()
        assert dialog.ask.button.text() == "Wait 1 second"
        type_in(dialog.ask, WORDS[EVALUATOR])
        assert dialog.isVisible()
        evaluator_state.office.clock = lambda: NOW + timedelta(seconds=1)
        dialog.ask.look_again()
        assert dialog.ask.button.text() == "Sign"
        sign(dialog)

    asked += [wrong_then_right]
    assert evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR)) is not None


def test_a_passphrase_is_shown_for_one_try_only(
    evaluator_state: State, asked: list[Answer]
) -> None:
    def shown(dialog: SignDialog) -> None:
        field = dialog.ask.field
        assert field.line.echoMode() == QLineEdit.EchoMode.Password
        QTest.keyClick(field.shown, Qt.Key.Key_Space)
        assert field.line.echoMode() == QLineEdit.EchoMode.Normal
        type_in(dialog.ask, "this is not it at all")
        assert field.line.echoMode() == QLineEdit.EchoMode.Password
        assert not field.shown.isChecked()
        call_off(dialog)

    asked += [shown]
    evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR))
    assert asked == []


def test_no_undoing_brings_a_passphrase_back(evaluator_state: State, asked: list[Answer]) -> None:
    def undone(dialog: SignDialog) -> None:
        line = dialog.ask.field.line
        dialog.ask.field.shown.setChecked(True)
        QTest.keyClicks(line, WORDS[EVALUATOR])
        dialog.veiled()
        line.undo()
        assert line.text() == ""
        call_off(dialog)

    asked += [undone]
    evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR))
    assert asked == []


def test_other_faults_come_before_any_passphrase_is_asked_for(
    evaluator_state: State, asked: list[Answer]
) -> None:
    another = (*RESULT[:6], PILOT, *RESULT[7:])
    with pytest.raises(Refused) as refused:
        evaluator_state.act(signing.sign_off, another, Order(EVALUATOR))
    assert [fault.field for fault in refused.value.faults] == ["evaluator"]


def test_the_form_keeps_what_was_typed_where_nobody_signs(
    evaluator_state: State, asked: list[Answer], qtbot: QtBot
) -> None:
    form = SignOffDialog(evaluator_state, PILOT, "hand-recovery", "")
    qtbot.addWidget(form)
    form.show()
    QTest.keyClicks(form.fields["remarks"].editor, "Held well")
    asked += [call_off]
    form.save()
    assert asked == []
    assert form.isVisible()
    assert form.fields["remarks"].editor.text() == "Held well"
    asked += [sign]
    form.save()
    assert form.changes is not None
    assert not form.isVisible()


def test_files_are_looked_through_without_and_taken_in_with_a_signature(
    evaluator_state: State, asked: list[Answer], theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    file = tmp_path / "people.csv"
    file.write_text("person,name\nK-09,New Hand\n", encoding="utf-8")
    shown = ImportDialog(evaluator_state, theme, [file])
    qtbot.addWidget(shown)
    shown.show()
    shown.look()
    assert shown.told.text() == "No faults. It would bring 1 new fact."
    asked += [call_off]
    shown.take_in()
    assert shown.imported is None
    assert shown.isVisible()
    asked += [sign]
    shown.take_in()
    assert shown.imported is not None


def test_the_dialog_says_who_signs(evaluator_state: State, asked: list[Answer]) -> None:
    def told(dialog: SignDialog) -> None:
        said = [one.text() for one in dialog.findChildren(QPushButton)]
        assert said == ["Sign", "Cancel"]
        assert any(NAMES[EVALUATOR] in one for one in words(dialog))
        call_off(dialog)

    asked += [told]
    evaluator_state.act(signing.sign_off, RESULT, Order(EVALUATOR))
    assert asked == []


def words(dialog: QDialog) -> list[str]:
    """What the labels of a dialog say."""
    return [one.text() for one in dialog.findChildren(QLabel)]
