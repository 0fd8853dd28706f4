"""Signing in at a window, locking it, and leaving it to somebody else."""

import os
from pathlib import Path
from threading import Event

import pytest
import shiboken6
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.fact_dialog import FactDialog
from crewtrack.desk.lock import Cover
from crewtrack.desk.pages import PEOPLE
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.progress_dialog import ProgressDialog
from crewtrack.desk.settings import Settings
from crewtrack.desk.sign_in_page import SignInPage
from crewtrack.desk.signoff_dialog import DRAFT, SignOffDialog
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.window import Window
from crewtrack.facts import CERTIFICATES
from crewtrack.office import access
from crewtrack.office.entries import Order
from crewtrack.office.office import Office
from tests.desk.conftest import filled
from tests.desk.driven import sorties_page
from tests.desk.identified import CHIEF, EVALUATOR, NAMES, PILOT, WORDS

CTRL = Qt.KeyboardModifier.ControlModifier


def asked(window: Window, record: Path, qtbot: QtBot) -> SignInPage:
    """A record opened, as far as the page that asks who is there."""
    window.open_record(record)
    qtbot.waitUntil(lambda: isinstance(window.centralWidget(), SignInPage), timeout=30_000)
    page = window.centralWidget()
    assert isinstance(page, SignInPage)
    return page


def give(page: SignInPage, person: str, words: str = "") -> None:
    """Choose somebody, type a passphrase, press Enter."""
    page.people.setCurrentIndex(page.people.findData(person))
    page.ask.field.line.setText("")
    QTest.keyClicks(page.ask.field.line, words or WORDS[person])
    QTest.keyClick(page.ask.field.line, Qt.Key.Key_Return)


def open_as(window: Window, record: Path, person: str, qtbot: QtBot) -> None:
    """Open a record and sign in."""
    give(asked(window, record, qtbot), person)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)


@pytest.fixture
def evaluator(window: Window, identified_record: Path, qtbot: QtBot) -> Window:
    """A window with the evaluator at it."""
    open_as(window, identified_record, EVALUATOR, qtbot)
    return window


def locked(window: Window) -> Cover:
    """The window, locked."""
    assert window.guard is not None
    window.guard.lock_now()
    cover = window.guard.lock.cover
    assert cover is not None
    return cover


def signing_off(window: Window) -> SignOffDialog:
    """The sign-off form, open over the window."""
    assert window.workspace is not None
    page = window.workspace.pages.page(PEOPLE)
    assert isinstance(page, PeoplePage)
    page.start_sign_off(PILOT, "hand-recovery", "")
    panel = page.acts.panel
    assert isinstance(panel, SignOffDialog)
    return panel


def typing_a_sortie(window: Window) -> SortiesPage:
    """Half a sortie."""
    page = sorties_page(window)
    page.log.table.setFocus()
    QTest.keyClick(page.log.table, Qt.Key.Key_N, CTRL)
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClicks(focused, "B-1")
    QTest.keyClick(focused, Qt.Key.Key_Tab)
    assert page.form.unsaved()
    return page


def heard(top: QWidget) -> list[str]:
    """What is read aloud of everything in sight in a window."""
    return [
        QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
        for widget in top.findChildren(QWidget)
        if widget.isVisible() and widget.window() is top
    ]


def test_nothing_is_shown_before_somebody_has_signed_in(
    window: Window, identified_record: Path, qtbot: QtBot
) -> None:
    page = asked(window, identified_record, qtbot)
    assert window.workspace is None
    assert window.menuBar().actions() == []
    offered = [page.people.itemText(number) for number in range(page.people.count())]
    assert offered == [f"{NAMES[one]} ({one})" for one in (CHIEF, PILOT, EVALUATOR)]
    assert window.focusWidget() is page.ask.field.line


def test_whoever_signs_in_acts_from_then_on(evaluator: Window) -> None:
    assert evaluator.state is not None
    assert evaluator.state.author == EVALUATOR
    session = evaluator.state.office.session
    assert session is not None
    assert session.name == NAMES[EVALUATOR]


def test_whoever_signed_in_last_is_chosen_next_time(
    window: Window, settings: Settings, identified_record: Path, qtbot: QtBot
) -> None:
    settings.person = PILOT
    assert asked(window, identified_record, qtbot).person() == PILOT


def test_a_wrong_passphrase_is_told_and_opens_nothing(
    window: Window, identified_record: Path, qtbot: QtBot
) -> None:
    page = asked(window, identified_record, qtbot)
    give(page, CHIEF, "this is not it at all")
    told = f"this is not the passphrase of {CHIEF}; wait 1 second"
    assert page.ask.fault.text() == told
    assert page.ask.field.line.accessibleDescription() == told
    assert window.workspace is None


def test_nobody_has_to_sign_in_where_nobody_is_identified(
    window: Window, demo_record: Path, qtbot: QtBot
) -> None:
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    assert "Who acts here…" in actions(window)
    assert "Lock now" not in actions(window)


def actions(window: Window) -> list[str]:
    """What the menus offer."""
    assert window.workspace is not None
    return [one.text() for _, each in window.workspace.menus.groups() for one in each]


def test_the_menus_offer_to_lock_and_to_leave(evaluator: Window) -> None:
    offered = actions(evaluator)
    assert {"Lock now", "Sign out", "Change passphrase…", "after 15 minutes"} <= set(offered)
    assert "Who acts here…" not in offered


def test_every_action_of_whoever_is_signed_in_has_a_key_of_its_own(evaluator: Window) -> None:
    assert evaluator.workspace is not None
    groups = list(evaluator.workspace.menus.groups())
    titles = {page.title() for page in evaluator.workspace.pages.pages()}
    keys = [
        one.shortcut().toString()
        for title, each in groups
        for one in each
        if title not in titles and not one.isCheckable() and "/" not in one.text()
    ]
    pages = [one.shortcut().toString() for title, each in groups for one in each if title in titles]
    assert "" not in keys
    assert len(keys) == len(set(keys))
    assert not set(keys) & set(pages)


def test_a_sortie_that_is_half_typed_is_there_after_unlocking(evaluator: Window) -> None:
    page = typing_a_sortie(evaluator)
    before = page.form.draft
    cover = locked(evaluator)
    give(cover.page, EVALUATOR)
    assert evaluator.guard is not None
    assert not evaluator.guard.lock.on
    assert page.form.isVisible()
    assert page.form.draft == before


def test_the_key_locks_the_window(evaluator: Window, qtbot: QtBot) -> None:
    evaluator.activateWindow()
    assert evaluator.workspace is not None
    QTest.keyClick(evaluator.workspace, Qt.Key.Key_L, CTRL)
    assert evaluator.guard is not None
    assert evaluator.guard.lock.on


def test_an_open_sign_off_is_covered_and_is_there_after_unlocking(evaluator: Window) -> None:
    panel = signing_off(evaluator)
    remarks = panel.fields["remarks"].editor
    remarks.setFocus()
    QTest.keyClicks(remarks, "Held well")
    cover = locked(evaluator)
    assert panel.isVisible()
    assert heard(panel) == []
    assert panel.windowTitle() == "Locked"
    give(cover.page, EVALUATOR)
    assert panel.fields["remarks"].editor.text() == "Held well"
    assert remarks.isVisible()
    assert panel.windowTitle() == "Sign off a task"
    assert panel.focusWidget() is remarks


def test_nothing_can_be_read_or_done_while_it_is_locked(evaluator: Window) -> None:
    assert evaluator.workspace is not None
    unit = evaluator.windowTitle()
    cover = locked(evaluator)
    assert heard(evaluator) == []
    assert evaluator.windowTitle() != unit
    assert not any(one.isEnabled() for one in evaluator.menuBar().actions())
    assert evaluator.state is not None
    assert evaluator.state.office.session is None
    shown = evaluator.workspace.bar.currentIndex()
    for key in (Qt.Key.Key_2, Qt.Key.Key_3):
        for widget in (evaluator, cover, evaluator.workspace):
            QTest.keyClick(widget, key, Qt.KeyboardModifier.AltModifier)
    assert evaluator.workspace.bar.currentIndex() == shown
    people = evaluator.workspace.pages.page(PEOPLE)
    assert not people.isVisible()


def test_escape_opens_nothing(evaluator: Window) -> None:
    cover = locked(evaluator)
    QTest.keyClick(cover, Qt.Key.Key_Escape)
    assert cover.isVisible()
    assert evaluator.guard is not None
    assert evaluator.guard.lock.on


def test_a_locked_window_can_be_closed(evaluator: Window, qtbot: QtBot) -> None:
    cover = locked(evaluator)
    QTest.mouseClick(cover.page.close_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not evaluator.isVisible())
    assert evaluator.state is None


def test_it_is_not_closed_over_an_open_panel(evaluator: Window) -> None:
    panel = signing_off(evaluator)
    cover = locked(evaluator)
    assert not cover.page.close_button.isVisible()
    cover.close()
    assert evaluator.isVisible()
    assert panel.isVisible()
    give(cover.page, EVALUATOR)
    panel.let_be()


def test_somebody_else_begins_afresh_and_the_drafts_stay_with_the_first(
    evaluator: Window, identified_record: Path, qtbot: QtBot
) -> None:
    typing_a_sortie(evaluator)
    panel = signing_off(evaluator)
    QTest.keyClicks(panel.fields["remarks"].editor, "Held well")
    first = evaluator.workspace
    give(locked(evaluator).page, PILOT)
    qtbot.waitUntil(lambda: evaluator.workspace is not first and filled(evaluator))
    assert evaluator.state is not None
    assert evaluator.state.author == PILOT
    assert not shiboken6.isValid(panel)
    assert not sorties_page(evaluator).form.unsaved()
    assert not evaluator.state.drafts.waiting()
    kept = Drafts(drafts_folder(identified_record, EVALUATOR))
    assert (kept.load(DRAFT) or {})["remarks"] == "Held well"
    assert kept.load("sortie") is not None


def test_the_drafts_are_offered_when_the_first_one_is_back(evaluator: Window, qtbot: QtBot) -> None:
    typing_a_sortie(evaluator)
    first = evaluator.workspace
    give(locked(evaluator).page, PILOT)
    qtbot.waitUntil(lambda: evaluator.workspace is not first and filled(evaluator))
    second = evaluator.workspace
    give(locked(evaluator).page, EVALUATOR)
    qtbot.waitUntil(lambda: evaluator.workspace is not second and filled(evaluator))
    page = sorties_page(evaluator)
    assert page.log.offer.isVisible()
    page.log.offer.drop.click()


def test_a_panel_that_waits_for_an_answer_ends_when_somebody_else_comes(
    evaluator: Window, qtbot: QtBot
) -> None:
    assert evaluator.state is not None
    panel = FactDialog(evaluator.state, CERTIFICATES, None, {"person": PILOT}, evaluator)
    ended: list[int] = []
    first = evaluator.workspace

    def meanwhile() -> None:
        give(locked(evaluator).page, PILOT)

    QTimer.singleShot(0, meanwhile)
    ended.append(panel.exec())
    assert ended == [0]
    qtbot.waitUntil(lambda: evaluator.workspace is not first and filled(evaluator))
    panel.deleteLater()


def test_it_locks_when_nobody_has_touched_anything(evaluator: Window, qtbot: QtBot) -> None:
    assert evaluator.guard is not None
    timer = evaluator.guard.idle.timer
    assert timer.isActive()
    assert timer.interval() == 15 * 60_000
    timer.timeout.emit()
    assert evaluator.guard.lock.on
    assert not timer.isActive()


def test_another_time_is_kept_and_never_is_one(evaluator: Window) -> None:
    assert evaluator.guard is not None
    assert evaluator.workspace is not None
    timer = evaluator.guard.idle.timer
    chosen = {one.text(): one for _, each in evaluator.workspace.menus.groups() for one in each}
    chosen["after 5 minutes"].trigger()
    assert timer.interval() == 5 * 60_000
    chosen["never"].trigger()
    assert not timer.isActive()
    assert evaluator.settings.lock_minutes == 0


def test_signing_out_shows_nothing_more(evaluator: Window, qtbot: QtBot) -> None:
    evaluator.signing_out.emit()
    page = evaluator.centralWidget()
    assert isinstance(page, SignInPage)
    assert evaluator.workspace is None
    assert evaluator.menuBar().actions() == []
    give(page, PILOT)
    qtbot.waitUntil(lambda: filled(evaluator), timeout=30_000)
    assert evaluator.state is not None
    assert evaluator.state.author == PILOT


def test_whoever_loses_access_elsewhere_is_asked_who_is_there(
    evaluator: Window, identified_record: Path, qtbot: QtBot
) -> None:
    with Office.open(identified_record) as other:
        access.sign_in(other, CHIEF, WORDS[CHIEF])
        with access.signing(other, WORDS[CHIEF]):
            access.end_access(other, EVALUATOR, Order(CHIEF))
    assert evaluator.guard is not None
    lock = evaluator.guard.lock
    qtbot.waitUntil(lambda: lock.on, timeout=10_000)
    assert lock.cover is not None
    assert lock.cover.page.people.findData(EVALUATOR) == -1


def test_the_passphrase_is_in_no_widget_after_signing_in(evaluator: Window) -> None:
    fields = [one for one in evaluator.findChildren(QLineEdit) if WORDS[EVALUATOR] in one.text()]
    assert fields == []


def test_long_work_ends_before_the_window_locks(evaluator: Window, qtbot: QtBot) -> None:
    ended = Event()
    panel = ProgressDialog("Looking", lambda _: ended.wait(10), evaluator)
    QTimer.singleShot(0, evaluator.locking.emit)
    seen: list[bool] = []

    def look() -> None:
        assert evaluator.guard is not None
        seen.append(evaluator.guard.lock.on)
        ended.set()

    QTimer.singleShot(50, look)
    panel.run()
    assert seen == [False]
    assert evaluator.guard is not None
    lock = evaluator.guard.lock
    qtbot.waitUntil(lambda: lock.on, timeout=10_000)
    panel.deleteLater()


def test_identifying_people_makes_whoever_does_it_sign_in(
    window: Window, demo_record: Path, qtbot: QtBot
) -> None:
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    typing_a_sortie(window)
    first = window.workspace
    assert window.state is not None
    assert window.state.act(access.give_access, CHIEF, WORDS[CHIEF], Order(CHIEF))
    window.state.know_session()
    qtbot.waitUntil(lambda: window.workspace is not first and filled(window))
    assert "Lock now" in actions(window)
    page = sorties_page(window)
    assert page.log.offer.isVisible()
    page.log.offer.drop.click()


def test_a_record_that_others_identify_asks_who_is_there(
    window: Window, demo_record: Path, qtbot: QtBot
) -> None:
    window.open_record(demo_record)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    with Office.open(demo_record) as other:
        access.give_access(other, CHIEF, WORDS[CHIEF], Order(CHIEF))
    assert window.guard is not None
    lock, first = window.guard.lock, window.workspace
    qtbot.waitUntil(lambda: lock.on, timeout=10_000)
    assert lock.cover is not None
    give(lock.cover.page, CHIEF)
    qtbot.waitUntil(lambda: window.workspace is not first and filled(window), timeout=10_000)
    assert window.state is not None
    assert window.state.author == CHIEF


def test_a_passphrase_is_in_no_file(
    evaluator: Window, identified_record: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    give(locked(evaluator).page, EVALUATOR, "this is not it at all")
    evaluator.close()
    home = Path(os.environ["HOME"])
    written = [file for top in (tmp_path, home) for file in top.rglob("*") if file.is_file()]
    assert identified_record in written
    for file in written:
        content = file.read_bytes()
        assert WORDS[EVALUATOR].encode() not in content
        assert b"this is not it at all" not in content
