"""Certifying a sign-off on the page of people."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from crewtrack.desk.certify_dialog import CertifyDialog
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.sign_dialog import SignDialog
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import CERTIFICATIONS, Row
from crewtrack.office import access, signing, snapshot
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from crewtrack.screens import signoff_lines
from crewtrack.screens.person_books import SIGNED, TASKS
from crewtrack.screens.signoff_lines import SignOffLine
from tests.desk import identified
from tests.desk.conftest import clock
from tests.desk.identified import CHIEF, EVALUATOR, PILOT, STANDARD, WORDS

RESULT: Row = ("E-1", PILOT, "hand-recovery", date(2026, 11, 20), "alone", "passed", EVALUATOR,
               *(None,) * 5)  # fmt: skip
ASKED = STANDARD.replace('criteria = ["Gloves on"]', 'certified_by = "chief"')


@pytest.fixture
def chief(tmp_path: Path, qtbot: QtBot) -> Iterator[State]:
    """The chief at a record in which a sign-off waits."""
    with Office.open(identified.make(tmp_path, ASKED), clock) as office:
        access.sign_in(office, EVALUATOR, WORDS[EVALUATOR])
        with access.signing(office, WORDS[EVALUATOR]):
            signing.sign_off(office, RESULT, Order(EVALUATOR))
        access.sign_in(office, CHIEF, WORDS[CHIEF])
        state = State(office, snapshot.take(office), CHIEF)
        yield state
        state.close()


@pytest.fixture
def page(chief: State, theme: Theme, qtbot: QtBot) -> PeoplePage:
    """The pilot's sign-offs, on the screen."""
    shown = PeoplePage(chief, theme)
    qtbot.addWidget(shown)
    shown.resize(1200, 700)
    with qtbot.waitExposed(shown):
        shown.show()
    shown.show_person(PILOT)
    return shown


def certify(page: PeoplePage) -> CertifyDialog | None:
    """Press the key."""
    for action in page.page_actions():
        if action.text() == "Certify…":
            assert action.isEnabled()
            action.trigger()
    panel = page.acts.panel
    return panel if isinstance(panel, CertifyDialog) else None


def line_of(page: PeoplePage) -> SignOffLine:
    """The sign-off, as its table has it."""
    page.panel.turn_to(SIGNED)
    page.panel.section().table.choose("E-1")
    line = page.panel.section().table.chosen()
    assert isinstance(line, SignOffLine)
    return line


def test_one_that_waits_says_for_whom(page: PeoplePage) -> None:
    line = line_of(page)
    assert signoff_lines.stands_told(line) == "waits for certification by a chief"
    assert signoff_lines.attested_told(line).startswith(f"signed by {EVALUATOR}, key ")


@pytest.mark.parametrize("section", [SIGNED, TASKS])
def test_it_is_certified_and_counts(
    page: PeoplePage, chief: State, section: str, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    monkeypatch.setattr(SignDialog, "exec", _signed)
    line_of(page)
    page.panel.turn_to(section)
    page.panel.section().take_focus()
    panel = certify(page)
    assert panel is not None
    QTest.keyClicks(panel.fields["remarks"].editor, "Seen too")
    with qtbot.waitSignal(chief.moved):
        panel.confirm()
    assert chief.snapshot.rows(CERTIFICATIONS) == (("E-1", chief.today, CHIEF, "Seen too"),)
    line = line_of(page)
    assert signoff_lines.stands_told(line) == "counts"
    assert signoff_lines.certified_told(line) == f"{chief.today}, {CHIEF}"
    assert certify(page) is None


def _signed(dialog: SignDialog) -> int:
    dialog.show()
    QTest.keyClicks(dialog.ask.field.line, WORDS[CHIEF])
    QTest.keyClick(dialog.ask.field.line, Qt.Key.Key_Return)
    return dialog.result()
