"""A window: opening a record, its pages, its menus, leaving it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk import leaving
from crewtrack.desk.application import Desk
from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.pages import PEOPLE, PLACES
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.settings import Settings
from crewtrack.desk.start_page import StartPage
from crewtrack.desk.theme import Theme
from crewtrack.desk.window import Window
from crewtrack.desk.workspace import Workspace
from crewtrack.facts import SIGNOFFS
from crewtrack.office import safekeeping
from crewtrack.office.office import Office
from tests.desk.conftest import clock, filled


class Opened:
    """Remembers what other windows were asked for."""

    def __init__(self) -> None:
        self.records: list[Path | None] = []

    def __call__(self, record: Path | None) -> None:
        self.records.append(record)


@pytest.fixture
def opened() -> Opened:
    return Opened()


@pytest.fixture
def window(settings: Settings, opened: Opened, theme: Theme, qtbot: QtBot) -> Iterator[Window]:
    made = Window(settings, opened)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.close()


@pytest.fixture
def workspace(window: Window, demo_record: Path, qtbot: QtBot) -> Workspace:
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    assert window.workspace is not None
    return window.workspace


def test_a_record_is_read_and_shown(workspace: Workspace, window: Window, qtbot: QtBot) -> None:
    assert "Tamarack Harbor" in window.windowTitle()
    assert len(workspace.pages.pages()) == len(PLACES)


def test_the_record_is_remembered(
    workspace: Workspace, settings: Settings, demo_record: Path
) -> None:
    assert Path(settings.recent[0]) == demo_record


def test_every_page_has_its_key(workspace: Workspace, window: Window, qtbot: QtBot) -> None:
    for number in range(len(PLACES)):
        key = Qt.Key(Qt.Key.Key_1 + number)
        qtbot.keyClick(window, key, Qt.KeyboardModifier.AltModifier)
        assert workspace.bar.currentIndex() == number


def test_a_window_without_a_record_offers_what_can_be_done(window: Window) -> None:
    window.offer()
    page = window.centralWidget()
    assert isinstance(page, StartPage)
    told = [button.text() for button in page.findChildren(QPushButton)]
    assert told == [
        "Open a record…", "Make a new record…", "Look around in the demonstration",
    ]  # fmt: skip


def test_a_record_that_can_t_be_opened_is_told_in_a_sentence(
    window: Window, tmp_path: Path, qtbot: QtBot
) -> None:
    (tmp_path / "odd.crewtrack").write_bytes(b"this is no record" * 100)
    window.open_record(tmp_path / "odd.crewtrack")
    qtbot.waitUntil(lambda: window.start_page is not None, timeout=30_000)
    assert window.start_page is not None
    assert "odd.crewtrack" in window.start_page.told


def test_what_was_open_last_opens_by_itself(
    settings: Settings, demo_record: Path, theme: Theme, qtbot: QtBot
) -> None:
    settings.opened(demo_record)
    desk = Desk(settings)
    desk.open_window(None)
    (window,) = desk.windows
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    window.close()


def test_the_record_that_the_environment_names_comes_first(
    settings: Settings,
    demo_record: Path,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    settings.opened(tmp_path / "another.crewtrack")
    monkeypatch.setenv("CREWTRACK_DB", str(demo_record))
    desk = Desk(settings)
    desk.open_window(None)
    (window,) = desk.windows
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    window.close()


def test_a_record_that_is_gone_is_not_opened(
    settings: Settings, tmp_path: Path, theme: Theme, qtbot: QtBot
) -> None:
    settings.opened(tmp_path / "gone.crewtrack")
    desk = Desk(settings)
    desk.open_window(None)
    (window,) = desk.windows
    qtbot.waitUntil(lambda: window.start_page is not None)
    window.close()


def test_a_window_stays_while_an_act_is_going_on(
    workspace: Workspace, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(workspace.state), "acting", True)
    window.close()
    assert window.isVisible()
    monkeypatch.undo()
    window.close()
    assert not window.isVisible()


def test_a_tick_s_sign_off_opens_among_the_books(workspace: Workspace) -> None:
    row = workspace.state.snapshot.rows(SIGNOFFS)[-1]
    person, key = str(row[SIGNOFFS.index("person")]), str(row[0])
    workspace.show_evidence(person, "sign-off", key)
    page = workspace.pages.page(PEOPLE)
    assert isinstance(page, PeoplePage)
    assert page.person() == person
    assert page.panel.section().name == "signoffs"
    chosen = page.panel.section().table.chosen()
    assert chosen is not None
    assert chosen.key == key


def test_another_look_keeps_the_page(workspace: Workspace, window: Window, qtbot: QtBot) -> None:
    workspace.go_to_page(3)
    window.settings.theme, window.settings.scale = "dark", 1.5
    window.dress()
    assert window.workspace is not None
    assert window.workspace is not workspace
    assert window.workspace.bar.currentIndex() == 3


def test_another_language_is_spoken_at_once(
    workspace: Workspace, window: Window, qtbot: QtBot
) -> None:
    window.settings.language = "de"
    window.dress()
    assert window.workspace is not None
    assert window.workspace.pages.titles()[1] != "Sorties"


def test_a_sortie_that_was_being_typed_is_offered_first(
    window: Window, demo_record: Path, qtbot: QtBot
) -> None:
    drafts = Drafts(drafts_folder(demo_record))
    drafts.save("sortie", {"texts": {"minutes": "12"}})
    try:
        window.open_record(demo_record)
        qtbot.waitUntil(lambda: filled(window), timeout=30_000)
        assert window.workspace is not None
        assert window.workspace.place() == "sorties"
        offered = window.focusWidget()
        assert isinstance(offered, QPushButton)
        assert offered.text() == "Go on typing it"
    finally:
        drafts.drop("sortie")


def test_the_first_page_has_the_keys(workspace: Workspace, window: Window) -> None:
    assert workspace.place() == "board"
    shown = workspace.pages.currentWidget()
    assert shown is not None
    assert shown.isAncestorOf(window.focusWidget())


def test_a_record_that_is_gone_is_told_on_the_start_page(
    settings: Settings, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    settings.opened(tmp_path / "gone.crewtrack")
    desk = Desk(settings)
    desk.open_window(None)
    made = desk.windows[0]
    qtbot.waitUntil(lambda: made.start_page is not None)
    assert made.start_page is not None
    assert "gone.crewtrack, open here last, is not there now" in made.start_page.told
    assert made.start_page.told in made.start_page.buttons[0].accessibleDescription()
    made.close()


def test_for_a_damaged_record_a_backup_is_offered(
    window: Window, demo_record: Path, qtbot: QtBot
) -> None:
    whole = demo_record.read_bytes()
    demo_record.write_bytes(whole[: len(whole) // 2])
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: window.start_page is not None)
    assert window.start_page is not None
    assert "is cut short; put the last backup in its place. No backup" in window.start_page.told
    assert window.start_page.buttons[0].text() == "Put a backup in its place…"


def test_for_what_is_no_record_none_is(window: Window, tmp_path: Path, qtbot: QtBot) -> None:
    (tmp_path / "notes.crewtrack").write_text("no record at all", encoding="utf-8")
    window.open_record(tmp_path / "notes.crewtrack")
    qtbot.waitUntil(lambda: window.start_page is not None)
    assert window.start_page is not None
    assert window.start_page.told.endswith("is not a crewtrack record; choose another")
    assert window.start_page.buttons[0].text() == "Open a record…"


def backups_of(record: Path) -> list[Path]:
    """The backups that were taken of a record, by name."""
    return sorted(record.with_name(f"{record.stem}-backups").glob("*.crewtrack"))


def test_closing_a_window_backs_the_record_up_where_it_changed(
    backups_file: Path, workspace: Workspace, window: Window, demo_record: Path
) -> None:
    window.close()
    (taken,) = backups_of(demo_record)
    assert taken.name.endswith(".on-closing.crewtrack")
    assert not window.isVisible()


def test_closing_a_window_backs_nothing_up_that_is_backed_up(
    backups_file: Path, workspace: Workspace, window: Window, demo_record: Path
) -> None:
    safekeeping.keep_now(workspace.state.office)
    window.close()
    assert len(backups_of(demo_record)) == 1


def test_a_window_without_a_record_closes_at_once(backups_file: Path, window: Window) -> None:
    window.offer()
    window.close()
    assert not window.isVisible()


def test_a_backup_that_fails_is_told_and_the_window_closes(
    backups_file: Path,
    workspace: Workspace,
    window: Window,
    demo_record: Path,
    panels: list[str],
) -> None:
    demo_record.with_name(f"{demo_record.stem}-backups").write_text("a file is in its place")
    window.close()
    assert not window.isVisible()
    (told,) = panels
    assert told.startswith("There is no backup of this closing: ")


def test_the_best_backup_is_named_and_chosen_for_a_damaged_record(
    backups_file: Path,
    window: Window,
    demo_record: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with Office.open(demo_record, clock) as office:
        best = safekeeping.keep_now(office).path
    demo_record.write_bytes(demo_record.read_bytes()[:5000])
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: window.start_page is not None, timeout=30_000)
    assert window.start_page is not None
    assert window.start_page.told.endswith(f"The newest backup that is whole is {best}.")
    asked: list[str] = []

    def ask(parent: QWidget, title: str, at: str, kinds: str) -> tuple[str, str]:
        asked.append(at)
        return "", ""

    monkeypatch.setattr(QFileDialog, "getOpenFileName", ask)
    qtbot.mouseClick(window.start_page.buttons[0], Qt.MouseButton.LeftButton)
    assert asked == [str(best)]


def test_a_window_that_is_being_backed_up_is_not_closed_a_second_time(
    workspace: Workspace, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[bool] = []

    def back_up(parent: QWidget, office: Office) -> None:
        window.close()
        seen.append(window.isVisible())

    monkeypatch.setattr(leaving, "back_up", back_up)
    window.close()
    assert seen == [True]
    assert not window.isVisible()
