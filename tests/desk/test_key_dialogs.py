"""Giving access, ending it, and another passphrase; the first chief."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QInputDialog, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk import choosing
from crewtrack.desk.access_dialog import AccessDialog
from crewtrack.desk.key_dialog import KeyDialog
from crewtrack.desk.key_dialogs import (
    EndDialog,
    FirstChiefDialog,
    GiveDialog,
    IdentifyDialog,
    PassphraseDialog,
)
from crewtrack.desk.record_page import RecordPage
from crewtrack.desk.sign_dialog import SignDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.errors import Refused
from crewtrack.office import access, snapshot
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from crewtrack.office.who_signs_in import access_of
from tests.desk.identified import CHIEF, EVALUATOR, NOBODY, PILOT, WORDS
from tests.desk.walking import nameless

NEW = "twelve knots and a heron"


@pytest.fixture
def chief_state(guarded_office: Office, qtbot: QtBot) -> Iterator[State]:
    """The chief at the small record."""
    access.sign_in(guarded_office, CHIEF, WORDS[CHIEF])
    state = State(guarded_office, snapshot.take(guarded_office), CHIEF)
    yield state
    state.close()


@pytest.fixture(autouse=True)
def signs(monkeypatch: pytest.MonkeyPatch) -> None:
    """The chief signs whatever is asked for."""

    def shown(dialog: SignDialog) -> int:
        dialog.show()
        QTest.keyClicks(dialog.ask.field.line, WORDS[CHIEF])
        QTest.keyClick(dialog.ask.field.line, Qt.Key.Key_Return)
        return dialog.result()

    monkeypatch.setattr(SignDialog, "exec", shown)


def shown(dialog: AccessDialog, person: str, qtbot: QtBot) -> AccessDialog:
    """The panel on the screen, somebody chosen."""
    qtbot.addWidget(dialog)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    dialog.show()
    assert dialog.table.choose(person)
    return dialog


def type_new(dialog: KeyDialog, words: str, again: str = "") -> None:
    """Type a new passphrase twice, and press Enter."""
    for name, text in (("passphrase", words), ("again", again or words)):
        dialog.passphrases[name].line.setText("")
        QTest.keyClicks(dialog.passphrases[name].line, text)
    QTest.keyClick(dialog.passphrases["again"].line, Qt.Key.Key_Return)


def told(dialog: KeyDialog) -> list[str]:
    """The faults that are in sight."""
    labels = dialog.findChildren(QLabel)
    return [one.text() for one in labels if one.isVisible() and one.property("tone") == "fault"]


def able(state: State) -> list[str]:
    """Who signs in."""
    return [one.person for one in access_of(state.office) if one.key is not None]


def test_everybody_is_listed_with_whether_they_sign_in(chief_state: State, qtbot: QtBot) -> None:
    dialog = shown(AccessDialog(chief_state), CHIEF, qtbot)
    rows = dialog.table.rows
    assert [rows.index(line, 3).data() for line in range(4)] == ["yes", "yes", "yes", "no"]
    assert not dialog.give.isEnabled()
    assert dialog.renew.isEnabled()
    assert nameless(dialog) == []


def test_access_is_given_with_a_passphrase_typed_twice(chief_state: State, qtbot: QtBot) -> None:
    dialog = shown(AccessDialog(chief_state), NOBODY, qtbot)
    QTest.mouseClick(dialog.give, Qt.MouseButton.LeftButton)
    panel = dialog.panel
    assert isinstance(panel, GiveDialog)
    assert nameless(panel) == []
    type_new(panel, NEW, "something else altogether")
    assert told(panel) == ["this is not the same as above"]
    type_new(panel, "short")
    assert told(panel)[0].startswith("it has 5 letters")
    type_new(panel, NEW)
    assert dialog.panel is None
    assert NOBODY in able(chief_state)
    assert access.sign_in(chief_state.office, NOBODY, NEW).person == NOBODY


def test_a_lost_passphrase_gets_a_new_key(chief_state: State, qtbot: QtBot) -> None:
    before = {one.person: one.key for one in access_of(chief_state.office)}
    dialog = shown(AccessDialog(chief_state), PILOT, qtbot)
    QTest.mouseClick(dialog.renew, Qt.MouseButton.LeftButton)
    panel = dialog.panel
    assert isinstance(panel, GiveDialog)
    QTest.keyClicks(panel.reason, "passphrase lost")
    type_new(panel, NEW)
    after = {one.person: one.key for one in access_of(chief_state.office)}
    assert after[PILOT] not in (None, before[PILOT])


def test_access_ends(chief_state: State, qtbot: QtBot) -> None:
    dialog = shown(AccessDialog(chief_state), EVALUATOR, qtbot)
    QTest.mouseClick(dialog.end, Qt.MouseButton.LeftButton)
    assert isinstance(dialog.panel, EndDialog)
    dialog.panel.confirm()
    assert able(chief_state) == [CHIEF, PILOT]


def test_the_last_chief_stays(chief_state: State, qtbot: QtBot) -> None:
    dialog = shown(AccessDialog(chief_state), CHIEF, qtbot)
    QTest.mouseClick(dialog.end, Qt.MouseButton.LeftButton)
    panel = dialog.panel
    assert panel is not None
    panel.confirm()
    assert told(panel) == ["K-01 is the last chief with a key; give another chief a key first"]


def test_a_passphrase_is_changed(chief_state: State, qtbot: QtBot) -> None:
    dialog = PassphraseDialog(chief_state)
    qtbot.addWidget(dialog)
    dialog.show()
    assert nameless(dialog) == []
    QTest.keyClicks(dialog.passphrases["old"].line, WORDS[CHIEF])
    type_new(dialog, NEW)
    assert dialog.result() == 1
    assert access.sign_in(chief_state.office, CHIEF, NEW).person == CHIEF


def test_a_wrong_one_is_told_at_its_field(chief_state: State, qtbot: QtBot) -> None:
    dialog = PassphraseDialog(chief_state)
    qtbot.addWidget(dialog)
    dialog.show()
    QTest.keyClicks(dialog.passphrases["old"].line, "this is not it at all")
    type_new(dialog, NEW)
    assert told(dialog) == ["this is not the passphrase of K-01; wait 1 second"]
    assert dialog.passphrases["old"].line.property("faulty")


def test_what_was_typed_is_gone_with_the_panel(chief_state: State, qtbot: QtBot) -> None:
    dialog = PassphraseDialog(chief_state)
    qtbot.addWidget(dialog)
    dialog.show()
    QTest.keyClicks(dialog.passphrases["old"].line, WORDS[CHIEF])
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.passphrase("old") == ""


def test_somebody_in_the_record_becomes_the_first_chief(demo_state: State, qtbot: QtBot) -> None:
    dialog = IdentifyDialog(demo_state)
    qtbot.addWidget(dialog)
    dialog.show()
    assert nameless(dialog) == []
    assert dialog.people.currentData() == "K-01"
    assert not dialog.key.isVisible()
    type_new(dialog, NEW)
    session = demo_state.office.session
    assert session is not None
    assert session.person == "K-01"
    assert able(demo_state) == ["K-01"]


def test_somebody_new_becomes_the_first_chief(demo_state: State, qtbot: QtBot) -> None:
    dialog = IdentifyDialog(demo_state)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.people.setCurrentIndex(dialog.people.count() - 1)
    assert dialog.key.isVisible()
    QTest.keyClicks(dialog.key, "K-01")
    QTest.keyClicks(dialog.name, "Ida Berg")
    type_new(dialog, NEW)
    assert told(dialog)[0].startswith("'K-01' is somebody's key already")
    dialog.key.setText("K-77")
    type_new(dialog, NEW)
    assert able(demo_state) == ["K-77"]


@pytest.fixture
def page(chief_state: State, theme: Theme, qtbot: QtBot) -> RecordPage:
    """The page of the record, on the screen."""
    made = RecordPage(chief_state, theme)
    qtbot.addWidget(made)
    made.resize(1200, 700)
    made.show()
    return made


def facts(page: RecordPage) -> list[str]:
    """What the page says of the record."""
    labels = page.findChildren(QLabel)
    return [one.accessibleName() for one in labels if one.accessibleName()]


def test_the_record_page_says_how_many_sign_in(page: RecordPage) -> None:
    assert "Who signs in: 3 people have keys" in facts(page)
    assert "Access…" in [one.text() for one in page.findChildren(QPushButton)]
    assert not any("nobody is identified by" in one.text() for one in visible(page))


def visible(page: RecordPage) -> list[QLabel]:
    """The labels in sight."""
    return [one for one in page.findChildren(QLabel) if one.isVisible()]


def test_it_says_so_where_nobody_does(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    made = RecordPage(demo_state, theme)
    qtbot.addWidget(made)
    made.show()
    assert "Who signs in: nobody is identified" in facts(made)
    assert "Identify people…" in [one.text() for one in made.findChildren(QPushButton)]
    assert any("nobody is identified by" in one.text() for one in visible(made))


@pytest.fixture
def answered(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Where a new record is to be made: a standard and a name are chosen already."""
    record = tmp_path / "new.crewtrack"
    monkeypatch.setattr(QInputDialog, "getItem", lambda *given, **_: (given[3][0], True))
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a: (str(record), ""))
    return record


def doing(act: Callable[[FirstChiefDialog], None]) -> Callable[[FirstChiefDialog], int]:
    """In the place of waiting for somebody: does it."""

    def done(dialog: FirstChiefDialog) -> int:
        dialog.show()
        act(dialog)
        return dialog.result()

    return done


def test_a_new_record_is_made_with_its_first_chief(
    answered: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    def fill(dialog: FirstChiefDialog) -> None:
        assert nameless(dialog) == []
        type_new(dialog, NEW)
        assert told(dialog) != []
        QTest.keyClicks(dialog.name, "Ida Berg")
        type_new(dialog, NEW)

    monkeypatch.setattr(FirstChiefDialog, "exec", doing(fill))
    parent = QPushButton()
    qtbot.addWidget(parent)
    assert choosing.new_record(parent) == answered
    with Office.open(answered) as office:
        assert access.able_people(office) == (("K-01", "Ida Berg"),)
        assert access.sign_in(office, "K-01", NEW).name == "Ida Berg"


def test_the_first_chief_may_be_left_out(
    answered: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    def leave_out(dialog: FirstChiefDialog) -> None:
        (button,) = (one for one in dialog.findChildren(QPushButton) if "for now" in one.text())
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    monkeypatch.setattr(FirstChiefDialog, "exec", doing(leave_out))
    parent = QPushButton()
    qtbot.addWidget(parent)
    assert choosing.new_record(parent) == answered
    with Office.open(answered) as office:
        assert not access.is_identified(office)


def test_called_off_no_record_is_made(
    answered: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    monkeypatch.setattr(FirstChiefDialog, "exec", doing(lambda dialog: dialog.reject()))
    parent = QPushButton()
    qtbot.addWidget(parent)
    assert choosing.new_record(parent) is None
    assert not answered.exists()


def test_whoever_is_refused_hears_who_could(evaluator_state: State, qtbot: QtBot) -> None:
    with pytest.raises(Refused) as refused:
        evaluator_state.act(access.give_access, NOBODY, NEW, Order(EVALUATOR))
    assert "K-01 Ana Kovač could do it" in str(refused.value)
