"""A field that offers choices, typed into as a person does."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.choice_editor import ChoiceEditor
from crewtrack.desk.fields import Field
from crewtrack.desk.theme import Theme
from tests.desk.sorties import Keys

PEOPLE = {"K-01": "Jiří Šťovíček", "K-02": "Jón Þór", "K-10": "Margit Ööbik"}


Shown = Callable[[ChoiceEditor], ChoiceEditor]


@pytest.fixture
def shown(qtbot: QtBot, theme: Theme) -> Iterator[Shown]:
    """Puts an editor before another field, with the focus in it."""
    kept: list[QWidget] = []

    def show(editor: ChoiceEditor) -> ChoiceEditor:
        kept.append(_around(qtbot, editor))
        return editor

    yield show
    kept.clear()


def _around(qtbot: QtBot, editor: ChoiceEditor) -> QWidget:
    around = QWidget()
    layout = QVBoxLayout(around)
    layout.addWidget(editor)
    layout.addWidget(QLineEdit())
    qtbot.addWidget(around)
    around.show()
    around.activateWindow()
    editor.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is editor)
    return around


@pytest.fixture
def editor(shown: Shown) -> ChoiceEditor:
    made = shown(ChoiceEditor())
    made.offer(PEOPLE)
    return made


def typed(text: str, editor: ChoiceEditor) -> str:
    """What stands in it once that was typed and Tab pressed."""
    Keys().text(text)
    popup = QApplication.activePopupWidget()
    if popup is None:
        Keys().key(Qt.Key.Key_Tab)
    else:
        popup.hide()
        editor.window().findChildren(QLineEdit)[-1].setFocus(Qt.FocusReason.TabFocusReason)
    return editor.text()


@pytest.mark.parametrize(("text", "key"), [("jiri", "K-01"), ("oob", "K-10"), ("k-02", "K-02")])
def test_a_part_that_fits_one_choice_is_taken_for_it(
    editor: ChoiceEditor, text: str, key: str
) -> None:
    assert typed(text, editor) == key


def test_a_part_that_fits_several_stays_as_it_is(editor: ChoiceEditor) -> None:
    assert typed("ji", editor) == "K-01"
    editor.set_text("")
    editor.setFocus()
    assert typed("j", editor) == "j"


def test_letters_without_their_marks_find_a_name(editor: ChoiceEditor) -> None:
    Keys().text("stov")
    completer = editor.completer()
    assert completer is not None
    assert completer.completionCount() == 1
    assert completer.currentCompletion() == "Jiří Šťovíček — K-01"


def test_a_choice_that_is_being_typed_is_not_wrong_yet(shown: Shown) -> None:
    field = Field("Person", ChoiceEditor())
    assert isinstance(field.editor, ChoiceEditor)
    field.editor.offer(PEOPLE)
    shown(field.editor)
    Keys().text("j")
    field.show_fault("'j' is not known")
    assert field.fault.text() == ""
    field.editor.settle()
    field.show_fault("'j' is not known")
    assert field.fault.text() == "'j' is not known"


def test_what_fits_nobody_is_wrong_at_once(editor: ChoiceEditor) -> None:
    Keys().text("xy")
    assert not editor.choosing()


def test_where_choices_are_proposals_another_word_stays(shown: Shown) -> None:
    made = shown(ChoiceEditor(free=True))
    made.offer({"workboat": "workboat"})
    assert typed("boat", made) == "boat"


def test_the_wheel_changes_nothing(editor: ChoiceEditor) -> None:
    editor.set_text("K-02")
    turned = QWheelEvent(
        QPointF(5, 5), QPointF(5, 5), QPoint(0, -120), QPoint(0, -120),
        Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase,
        False,
    )  # fmt: skip
    QApplication.sendEvent(editor, turned)
    assert editor.text() == "K-02"


def test_the_arrow_keys_go_on_from_what_is_chosen(editor: ChoiceEditor) -> None:
    editor.set_text("K-01")
    Keys().key(Qt.Key.Key_Down)
    assert editor.text() == "K-02"
