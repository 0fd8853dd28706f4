"""The page Ahead: the list follows the day, and a row opens its person."""

from collections.abc import Iterator
from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from crewtrack.desk.ahead_page import AheadPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.engine.due import listed


@pytest.fixture
def page(demo_state: State, theme: Theme, qtbot: QtBot) -> Iterator[AheadPage]:
    """The page, on the screen."""
    shown = AheadPage(demo_state, theme)
    qtbot.addWidget(shown)
    shown.resize(1000, 700)
    shown.show()
    yield shown
    shown.hide()


def days(page: AheadPage) -> list[str]:
    """The last days, row by row."""
    return [
        page.table.rows.row_at(n).through.isoformat() for n in range(page.table.rows.rowCount())
    ]


def middle_of(page: AheadPage, row: int) -> QPoint:
    """Where to click for a row."""
    return page.table.visualRect(page.table.rows.index(row, 2)).center()


def test_lists_what_ends_soon_and_the_soonest_first(page: AheadPage) -> None:
    assert days(page) == sorted(days(page))
    assert days(page)
    assert page.count.text().endswith("within 60 days.")


def test_another_day_lists_anew(page: AheadPage, demo_state: State) -> None:
    before = days(page)
    demo_state.go_to(date(2026, 12, 25))
    assert days(page) != before
    assert all(day >= "2026-12-25" for day in days(page))


def test_fewer_days_list_less(page: AheadPage) -> None:
    before = days(page)
    page.days.selectAll()
    QTest.keyClicks(page.days, "7")
    QTest.keyClick(page.days, Qt.Key.Key_Return)
    assert days(page) == [day for day in before if day < "2026-12-02"]


def test_what_follows_from_other_rows_shows_when_asked_for(
    page: AheadPage, demo_state: State
) -> None:
    fewer = len(days(page))
    QTest.keyClick(page.everything, Qt.Key.Key_Space)
    every = listed(demo_state.snapshot.reckoning, demo_state.day, 60)
    assert len(days(page)) == len(every) > fewer


def test_a_double_click_opens_the_person(page: AheadPage, qtbot: QtBot) -> None:
    due = page.table.rows.row_at(1)
    at, viewport = middle_of(page, 1), page.table.viewport()
    with qtbot.waitSignal(page.open_person) as opened:
        QTest.mouseClick(viewport, Qt.MouseButton.LeftButton, pos=at)
        QTest.mouseDClick(viewport, Qt.MouseButton.LeftButton, pos=at)
    assert opened.args == [due.person, due.qualification]


def test_enter_opens_the_person(page: AheadPage, qtbot: QtBot) -> None:
    due = page.table.chosen()
    assert due is not None
    with qtbot.waitSignal(page.open_person) as opened:
        QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert opened.args == [due.person, due.qualification]


def test_the_chosen_row_tells_the_one_sortie(page: AheadPage, qtbot: QtBot) -> None:
    rows = [page.table.rows.row_at(n) for n in range(page.table.rows.rowCount())]
    under_way = next(n for n, due in enumerate(rows) if due.requirement == "recency-under-way")
    QTest.mouseClick(
        page.table.viewport(), Qt.MouseButton.LeftButton, pos=middle_of(page, under_way)
    )
    qtbot.waitUntil(lambda: "One sortie on 2026-11-26" in page.panel.toPlainText())
    told = page.panel.toPlainText()
    assert "2 × Hand recovery (pilot), under way" in told
    assert "Extends Under-way pilot to" in told


def test_a_row_that_no_sortie_extends_says_so(page: AheadPage, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: "No sortie extends" in page.panel.toPlainText())


def test_every_action_has_a_key_and_a_sentence(page: AheadPage) -> None:
    assert all(action.shortcut().toString() for action in page.page_actions())
    assert all(action.toolTip().endswith(".") for action in page.page_actions())
