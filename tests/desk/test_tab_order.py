"""Tab through pages and dialogs: everything is reached, in the order in which it is read, and has a
name to be read aloud."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.adopt_dialog import AdoptDialog
from crewtrack.desk.compare_dialog import CompareDialog
from crewtrack.desk.help_sheet import HelpSheet
from crewtrack.desk.import_dialog import ImportDialog
from crewtrack.desk.roster_preview import RosterPreview
from crewtrack.desk.settings import Settings
from crewtrack.desk.start_page import StartPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.window import Window
from tests.desk.conftest import filled
from tests.desk.walking import nameless, tabbed, usable

FAULTY = "edition = 7\n"


@pytest.fixture
def window(settings: Settings, theme: Theme, demo_record: Path, qtbot: QtBot) -> Iterator[Window]:
    made = Window(settings, lambda _: None)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.open_record(demo_record)
    qtbot.waitUntil(lambda: filled(made), timeout=30_000)
    made.activateWindow()
    yield made
    made.close()


def place(widget: QWidget, top: QWidget) -> tuple[int, int]:
    """Where it is read: from above, and from the left within some lines."""
    at = widget.mapTo(top, QPoint(0, 0))
    return at.y(), at.x()


def test_the_keys_are_on_the_page_when_a_record_has_been_opened(window: Window) -> None:
    workspace = window.workspace
    assert workspace is not None
    assert QApplication.focusWidget() is workspace.pages.page(0).front


def test_a_page_s_keys_work_from_the_day_line(window: Window, qtbot: QtBot) -> None:
    workspace = window.workspace
    assert workspace is not None
    workspace.day_line.enter_day()
    qtbot.keyClick(workspace.day_line.day_entry, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    now = QApplication.focusWidget()
    assert now is not None
    assert workspace.pages.page(0).isAncestorOf(now)


def importing(state: State, theme: Theme, file: Path) -> QDialog:
    dialog = ImportDialog(state, theme, (file.with_name("people.csv"),))
    dialog.look()
    return dialog


Make = Callable[[State, Theme, Path], QWidget]

MAKES: dict[str, Make] = {
    "adopt, faulty": AdoptDialog,
    "compare": lambda state, theme, _: CompareDialog(state, theme),
    "import, faulty": importing,
    "roster": lambda state, theme, _: RosterPreview(
        state.snapshot.roster(state.day), "K-01", "A4", theme, None
    ),
    "help": lambda *_: HelpSheet((), None),
    "start": lambda _, theme, file: StartPage(
        Settings(file.with_name("start.ini")), theme, "It is gone.", file
    ),
}


@pytest.fixture(params=list(MAKES))
def dialog(
    request: pytest.FixtureRequest, demo_state: State, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> Iterator[QWidget]:
    file = tmp_path / "standard.toml"
    file.write_text(FAULTY, encoding="utf-8")
    file.with_name("people.csv").write_text("person\n", encoding="utf-8")
    made = MAKES[request.param](demo_state, theme, file)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    if isinstance(made, RosterPreview):
        qtbot.waitUntil(made.save_button.isEnabled)
    made.activateWindow()
    yield made
    made.close()


def test_everything_in_it_has_a_name(dialog: QWidget) -> None:
    assert nameless(dialog) == []


def test_tab_reaches_all_of_it_as_it_is_read(dialog: QWidget, qtbot: QtBot) -> None:
    first = min(usable(dialog), key=lambda widget: place(widget, dialog))
    found = tabbed(qtbot, first)
    assert usable(dialog) - set(found) == set()
    assert found == sorted(found, key=lambda widget: place(widget, dialog))
