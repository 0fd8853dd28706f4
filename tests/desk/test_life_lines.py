"""Life lines on the screen."""

from datetime import date

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QScrollArea, QToolTip
from pytestqt.qtbot import QtBot

from crewtrack.desk.life_lines import LifeLines
from crewtrack.desk.theme import Theme
from crewtrack.engine.spans import Span
from crewtrack.screens.life_lines import LifeLine, Tick
from crewtrack.screens.strip_days import around
from tests.desk.conftest import moved_to

ON = date(2026, 11, 25)
SPANS = (Span(date(2026, 3, 1), date(2026, 12, 3)), Span(date(2020, 1, 1), date(2020, 2, 1)))
WHOLE = LifeLine("", "Deck pilot", 0, True, date(2026, 12, 3), SPANS, (), "due")
TICKS = (
    Tick("performance", "S-1", date(2026, 3, 1), False),
    Tick("sign-off", "E-1", date(2026, 6, 1), False, failed=True),
    Tick("certificate", "C-1", date(2026, 9, 1), True),
    Tick("performance", "S-9", date(2027, 2, 1), True),
)
PRACTICE = LifeLine("recency", "hand recovery in 90 days", 1, True, None, SPANS, TICKS)
LONG = LifeLine("long", "a rule that is long " * 20, 0, False, None, (), TICKS[:1])
OLD = Tick("performance", "S-0", date(2020, 1, 1), False)


@pytest.fixture
def lines(qtbot: QtBot, theme: Theme) -> LifeLines:
    shown = LifeLines(theme)
    qtbot.addWidget(shown)
    shown.resize(900, 400)
    shown.show_lines((WHOLE, PRACTICE, LONG), around(ON), ON)
    shown.show()
    return shown


def tick_point(lines: LifeLines, line: int, tick: int) -> QPoint:
    return lines.tick_room(line, tick).center().toPoint()


def test_a_click_on_a_tick_opens_it(lines: LifeLines, qtbot: QtBot) -> None:
    with qtbot.waitSignal(lines.evidence_opened) as opened:
        qtbot.mouseClick(lines, Qt.MouseButton.LeftButton, pos=tick_point(lines, 1, 1))
    assert opened.args == ["sign-off", "E-1"]


def test_a_click_beside_a_tick_opens_nothing(lines: LifeLines, qtbot: QtBot) -> None:
    away = tick_point(lines, 1, 1) + QPoint(60, 0)
    with qtbot.assertNotEmitted(lines.evidence_opened):
        qtbot.mouseClick(lines, Qt.MouseButton.LeftButton, pos=away)
        qtbot.mouseClick(lines, Qt.MouseButton.RightButton, pos=tick_point(lines, 1, 1))
    assert lines.accessibleDescription().startswith("recency: ")


def test_keys_choose_lines_and_ticks_and_enter_opens(lines: LifeLines, qtbot: QtBot) -> None:
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    chosen = lines.chosen_tick()
    assert chosen == TICKS[2], "the last one up to the day"
    qtbot.keyClick(lines, Qt.Key.Key_Left)
    qtbot.keyClick(lines, Qt.Key.Key_Left)
    qtbot.keyClick(lines, Qt.Key.Key_Left)
    assert lines.chosen_tick() == TICKS[0]
    with qtbot.waitSignal(lines.evidence_opened) as opened:
        qtbot.keyClick(lines, Qt.Key.Key_Return)
    assert opened.args == ["performance", "S-1"]


def test_the_keys_stop_at_the_ends(lines: LifeLines, qtbot: QtBot) -> None:
    for _ in range(5):
        qtbot.keyClick(lines, Qt.Key.Key_Down)
    assert "long: " in lines.accessibleDescription()
    qtbot.keyClick(lines, Qt.Key.Key_Right)
    assert lines.chosen_tick() == TICKS[0]
    for _ in range(5):
        qtbot.keyClick(lines, Qt.Key.Key_Up)
    assert lines.accessibleDescription() == "Deck pilot: due"


def test_enter_on_a_line_without_evidence_opens_nothing(lines: LifeLines, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(lines.evidence_opened):
        qtbot.keyClick(lines, Qt.Key.Key_Return)
        qtbot.keyClick(lines, Qt.Key.Key_Right)
        qtbot.keyClick(lines, Qt.Key.Key_Return)


def test_the_chosen_tick_is_spoken(lines: LifeLines, qtbot: QtBot) -> None:
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    assert lines.accessibleDescription().endswith("2026-09-01: certificate C-1, counts")


def test_the_chosen_tick_stays_chosen_on_another_day(lines: LifeLines, qtbot: QtBot) -> None:
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    lines.show_lines((WHOLE, PRACTICE), around(ON), date(2026, 12, 1))
    assert lines.chosen_tick() == TICKS[2]
    lines.show_lines((WHOLE,), around(ON), ON)
    assert lines.chosen_tick() is None


def test_a_rule_is_shown_whole_however_long(lines: LifeLines) -> None:
    rows = lines.laid_out().rows
    assert rows[2].room.height() > 4 * rows[1].room.height()
    assert lines.minimumHeight() >= lines.laid_out().height


def test_what_lies_under_the_mouse_is_told(
    lines: LifeLines, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(QToolTip, "showText", lambda _, text, __: told.append(text))
    row = lines.laid_out().rows[1].room.center().y()
    for where in (tick_point(lines, 1, 0), QPoint(5, round(row)), QPoint(5, 10_000)):
        event = QHelpEvent(QEvent.Type.ToolTip, where, lines.mapToGlobal(where))
        assert qapp.notify(lines, event)
    assert told[0] == "2026-03-01: sortie S-1, 1 done"
    assert told[1].startswith("recency: hand recovery in 90 days")
    assert told[2] == ""


def test_the_hand_shows_over_a_tick(lines: LifeLines) -> None:
    moved_to(lines, tick_point(lines, 1, 0))
    assert lines.cursor().shape() == Qt.CursorShape.PointingHandCursor
    moved_to(lines, QPoint(3, 3))
    assert lines.cursor().shape() == Qt.CursorShape.ArrowCursor


def test_the_lines_can_be_drawn_along_other_days(lines: LifeLines) -> None:
    before = lines.tick_room(1, 0).center().x()
    lines.show_days(around(date(2026, 6, 1)))
    assert lines.tick_room(1, 0).center().x() > before


def test_evidence_off_the_strip_is_kept_out_of_the_way(lines: LifeLines, qtbot: QtBot) -> None:
    old = LifeLine("old", "rule", 0, True, None, SPANS, (OLD,))
    lines.show_lines((old,), around(ON), ON)
    lines.setFocus()
    qtbot.keyClick(lines, Qt.Key.Key_Right)
    assert lines.chosen_tick() == OLD
    assert not lines.grab().isNull()


def test_without_lines_it_is_empty_and_quiet(lines: LifeLines, qtbot: QtBot) -> None:
    lines.show_lines((), around(ON), ON)
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    qtbot.keyClick(lines, Qt.Key.Key_Return)
    assert lines.accessibleDescription() == ""
    assert not lines.grab().isNull()


def test_the_chosen_line_is_brought_into_view(theme: Theme, qtbot: QtBot) -> None:
    area, lines = QScrollArea(), LifeLines(theme)
    qtbot.addWidget(area)
    lines.show_lines((WHOLE, PRACTICE, LONG), around(ON), ON)
    area.setWidgetResizable(True)
    area.setWidget(lines)
    area.resize(700, 120)
    area.show()
    qtbot.waitUntil(lambda: area.verticalScrollBar().maximum() > 0)
    assert area.verticalScrollBar().value() == 0
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    qtbot.keyClick(lines, Qt.Key.Key_Down)
    assert area.verticalScrollBar().value() > 0
    qtbot.keyClick(lines, Qt.Key.Key_Up)
    qtbot.keyClick(lines, Qt.Key.Key_Up)
    assert area.verticalScrollBar().value() == 0
