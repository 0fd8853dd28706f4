"""The day of each person who uses the desk, in the real window, by keys."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from crewtrack.desk.board_page import BoardPage
from crewtrack.desk.pages import BOARD, PEOPLE, SORTIES
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.settings import Settings
from crewtrack.desk.shell import Shell
from crewtrack.desk.signoff_dialog import SignOffDialog
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.workspace import Workspace
from crewtrack.facts import SIGNOFFS
from tests.desk.sorties import CTRL, SHIFT, Keys

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def workspace(demo_state: State, settings: Settings, theme: Theme, qtbot: QtBot) -> Workspace:
    """A window on the demonstration, with the keys on its first page."""
    shell = Shell(settings, lambda _: None)
    qtbot.addWidget(shell)
    made = Workspace(shell, demo_state, theme)
    shell.setCentralWidget(made)
    shell.resize(1360, 900)
    with qtbot.waitExposed(shell):
        shell.show()
    shell.activateWindow()
    made.go_to_page(BOARD)
    return made


def through(state: State, person: str, qualification: str) -> date | None:
    return state.snapshot.reckoning.standing(person, qualification, state.day).through


def test_a_pilot_logs_the_next_sortie_and_sees_the_date_move(
    workspace: Workspace, demo_state: State, qtbot: QtBot
) -> None:
    demo_state.go_to(date(2026, 11, 21))
    before = through(demo_state, "K-08", "deck-pilot")
    assert before is not None
    keys = Keys()
    keys.key(Qt.Key.Key_2, ALT)
    keys.key(Qt.Key.Key_N, CTRL | SHIFT)
    keys.text("1415")
    keys.key(Qt.Key.Key_Tab)
    keys.text("14")
    with qtbot.waitSignal(demo_state.moved):
        keys.key(Qt.Key.Key_S, CTRL)
    page = workspace.pages.page(SORTIES)
    assert isinstance(page, SortiesPage)
    after = through(demo_state, "K-08", "deck-pilot")
    assert after is not None
    assert after > before
    told = page.after.told.text()
    assert f"through {after} (was {before})" in told
    assert keys.pressed <= 10


def test_an_officer_signs_somebody_off_and_sees_it_in_the_books(
    workspace: Workspace, demo_state: State, qtbot: QtBot
) -> None:
    count = len(demo_state.snapshot.rows(SIGNOFFS))
    workspace.show_person("K-13", "")
    keys = Keys()
    keys.key(Qt.Key.Key_G, CTRL)
    page = workspace.pages.page(PEOPLE)
    assert isinstance(page, PeoplePage)
    dialog = page.acts.panel
    assert isinstance(dialog, SignOffDialog)
    for name, text in (("task", "deck-launch"), ("level", "supervised"), ("result", "passed"),
                       ("evaluator", "K-02")):  # fmt: skip
        dialog.fields[name].editor.set_text(text)
    with qtbot.waitSignal(demo_state.moved):
        dialog.save()
    rows = demo_state.snapshot.rows(SIGNOFFS)
    assert len(rows) == count + 1
    assert rows[-1][1:7] == (
        "K-13", "deck-launch", date(2026, 11, 25), "supervised", "passed", "K-02",
    )  # fmt: skip
    assert page.person() == "K-13"


def test_a_chief_picks_a_day_filters_and_prints(
    workspace: Workspace, demo_state: State, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    printed: list[tuple[date, str]] = []

    class Preview:
        def __init__(self, roster: object, author: str, paper: str, *_: object) -> None:
            printed.append((roster.on, paper))  # type: ignore[attr-defined]  # a roster

        def exec(self) -> int:
            return 0

        def deleteLater(self) -> None:  # noqa: N802 - Qt's name
            return

    monkeypatch.setattr("crewtrack.desk.roster_preview.RosterPreview", Preview)
    keys = Keys()
    keys.key(Qt.Key.Key_D, CTRL)
    keys.key(Qt.Key.Key_A, CTRL)
    keys.text("2026-12-10")
    keys.key(Qt.Key.Key_Return)
    assert demo_state.day == date(2026, 12, 10)
    keys.key(Qt.Key.Key_1, ALT)
    keys.key(Qt.Key.Key_F, CTRL)
    keys.text("K-05")
    page = workspace.pages.page(BOARD)
    assert isinstance(page, BoardPage)
    assert page.board.rows.rowCount() == 1
    keys.key(Qt.Key.Key_P, CTRL)
    assert printed == [(date(2026, 12, 10), "A4")]
