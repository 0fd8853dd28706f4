"""Walking every page of a window: names to be read aloud, keys, and the way of Tab."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu, QTabBar
from pytestqt.qtbot import QtBot

from crewtrack.desk import theme as themes
from crewtrack.desk.help_sheet import HelpSheet
from crewtrack.desk.pages import PLACES
from crewtrack.desk.settings import Settings
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.workspace import Workspace
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from tests.desk.conftest import AUTHOR, clock
from tests.desk.walking import nameless, tabbed, usable


@pytest.fixture(scope="module")
def walked(
    qapp: QApplication,
    demo_file: Path,
    demo_taken: Snapshot,
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Workspace]:
    """One window for all that only looks at it."""
    theme = Theme()
    themes.load_fonts()
    themes.apply(qapp, theme)
    shell = Shell(Settings(tmp_path_factory.mktemp("walk") / "desk.ini"), lambda _: None)
    with Office.open(demo_file, clock) as opened:
        state = State(opened, demo_taken, AUTHOR)
        workspace = Workspace(shell, state, theme)
        shell.setCentralWidget(workspace)
        shell.resize(1360, 900)
        shell.show()
        shell.activateWindow()
        workspace.pages.pages()
        yield workspace
        state.close()
        shell.close()
        shell.deleteLater()


@pytest.mark.parametrize("number", range(len(PLACES)), ids=lambda n: PLACES[n].name)
def test_everything_on_a_page_has_a_name_to_be_read_aloud(walked: Workspace, number: int) -> None:
    walked.go_to_page(number)
    assert nameless(walked.pages.page(number)) == []


def test_the_day_line_and_the_bar_have_names(walked: Workspace) -> None:
    assert nameless(walked.day_line) == []
    assert walked.bar.accessibleName()


def leaves(menu: QMenu) -> Iterator[QAction]:
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from leaves(inner)
        elif not action.isSeparator():
            yield action


def every_action(walked: Workspace) -> list[QAction]:
    return [action for _, actions in walked.menus.groups() for action in actions]


def test_every_action_says_what_it_does(walked: Workspace) -> None:
    silent = [a.text() for a in every_action(walked) if not a.toolTip().strip()]
    assert silent == []


def test_every_action_has_a_key(walked: Workspace) -> None:
    # What chooses one of several settings is reached through its menu.
    keyless = [
        action.text()
        for action in every_action(walked)
        if action.shortcut().isEmpty() and not action.isCheckable() and "/" not in action.text()
    ]
    assert keyless == []


def test_no_key_does_two_things_on_one_page(walked: Workspace) -> None:
    everywhere = [
        action
        for title, actions in walked.menus.groups()
        for action in actions
        if title not in {page.title() for page in walked.pages.pages()}
    ]
    for page in walked.pages.pages():
        keys = [
            action.shortcut().toString(QKeySequence.SequenceFormat.PortableText)
            for action in (*everywhere, *page.page_actions())
            if not action.shortcut().isEmpty()
        ]
        twice = {key for key in keys if keys.count(key) > 1}
        assert not twice, page.title()


def test_the_help_sheet_is_made_from_the_actions(walked: Workspace, qtbot: QtBot) -> None:
    sheet = HelpSheet(tuple(walked.menus.groups()), walked)
    qtbot.addWidget(sheet)
    rows = sheet.table.rows
    assert rows.rowCount() == len(every_action(walked))
    qtbot.keyClicks(sheet.sought, "F1")
    assert rows.rowCount() >= 1
    assert nameless(sheet) == []


@pytest.mark.parametrize("number", range(len(PLACES)), ids=lambda n: PLACES[n].name)
def test_tab_reaches_all_of_a_page_from_the_bar_on(
    walked: Workspace, number: int, qtbot: QtBot
) -> None:
    walked.go_to_page(number)
    page = walked.pages.page(number)
    found = tabbed(qtbot, walked.bar)
    assert isinstance(found[0], QTabBar)
    assert usable(page) - set(found) == set()
