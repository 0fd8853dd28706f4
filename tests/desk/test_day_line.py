"""The day line: one control moves all to another day, or to what was known earlier."""

from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from crewtrack.desk.day_line import DayLine
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.strip_days import around
from tests.desk.conftest import TODAY, moved_to

LEFT = Qt.MouseButton.LeftButton
ALONE = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def line(demo_state: State, theme: Theme, qtbot: QtBot) -> DayLine:
    shown = DayLine(demo_state, theme)
    qtbot.addWidget(shown)
    shown.resize(1200, shown.sizeHint().height())
    shown.show()
    return shown


def point_of(line: DayLine, day: date) -> QPoint:
    return QPoint(round(line.strip.x_of(day)), line.strip.height() // 2)


def typed(qtbot: QtBot, line: DayLine, text: str) -> None:
    line.enter_day()
    line.day_entry.selectAll()
    qtbot.keyClicks(line.day_entry, text)
    qtbot.keyClick(line.day_entry, Qt.Key.Key_Return)


def test_it_says_how_many_are_current_on_the_day(line: DayLine) -> None:
    assert line.told.startswith("2026-11-25: Remote pilot, ")
    assert line.told in line.strip.accessibleDescription()


def test_a_click_on_the_strip_goes_to_that_day(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    day = date(2026, 8, 3)
    with qtbot.waitSignal(demo_state.moved):
        qtbot.mouseClick(line.strip, LEFT, pos=point_of(line, day))
    assert abs(demo_state.day - day) <= timedelta(days=1)
    assert line.day_entry.text() == demo_state.day.isoformat()
    assert line.told.startswith(demo_state.day.isoformat())


def test_dragging_takes_everything_along(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    qtbot.mousePress(line.strip, LEFT, pos=point_of(line, date(2026, 9, 1)))
    for month in (8, 7, 6):
        moved_to(line.strip, point_of(line, date(2026, month, 1)), LEFT)
    assert line.told.startswith(line.strip.day.isoformat())
    qtbot.waitUntil(lambda: demo_state.day == line.strip.day)
    qtbot.mouseRelease(line.strip, LEFT, pos=point_of(line, line.strip.day))
    assert abs(demo_state.day - date(2026, 6, 1)) <= timedelta(days=1)


def test_however_often_the_mouse_moves_the_state_moves_once_in_a_turn_of_events(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    days: list[date] = []
    demo_state.moved.connect(lambda: days.append(demo_state.day))
    with qtbot.waitSignal(demo_state.moved):
        for month in (8, 7, 6):
            line.strip.mark(date(2026, month, 1))
            line.strip.day_chosen.emit(date(2026, month, 1))
    assert days == [date(2026, 6, 1)]


@pytest.mark.parametrize(
    ("pressed", "day"),
    [
        ((Qt.Key.Key_Left, ALONE), date(2026, 11, 24)),
        ((Qt.Key.Key_Right, ALONE), date(2026, 11, 26)),
        ((Qt.Key.Key_Left, SHIFT), date(2026, 11, 18)),
        ((Qt.Key.Key_Right, SHIFT), date(2026, 12, 2)),
        ((Qt.Key.Key_PageUp, ALONE), date(2026, 10, 25)),
        ((Qt.Key.Key_PageDown, ALONE), date(2026, 12, 25)),
    ],
)
def test_keys_move_the_marker(
    line: DayLine,
    demo_state: State,
    qtbot: QtBot,
    pressed: tuple[Qt.Key, Qt.KeyboardModifier],
    day: date,
) -> None:
    with qtbot.waitSignal(demo_state.moved):
        qtbot.keyClick(line.strip, *pressed)
    assert demo_state.day == day


def test_home_goes_to_today(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    demo_state.go_to(date(2026, 3, 1))
    with qtbot.waitSignal(demo_state.moved):
        qtbot.keyClick(line.strip, Qt.Key.Key_Home)
    assert demo_state.day == TODAY


def test_another_key_is_left_to_others(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(line.strip.day_chosen):
        qtbot.keyClick(line.strip, Qt.Key.Key_F7)


def test_a_typed_day_is_gone_to(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    typed(qtbot, line, "2027-01-14")
    assert demo_state.day == date(2027, 1, 14)
    assert line.strip.day == date(2027, 1, 14)


def test_a_typed_fault_is_told_in_words_and_goes_nowhere(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    typed(qtbot, line, "2026-02-30")
    assert demo_state.day == TODAY
    assert line.told == "there is no 2026-02-30; February 2026 has 28 days"
    assert line.day_entry.accessibleDescription() == line.told


def test_a_fault_goes_when_it_is_mended(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    typed(qtbot, line, "2026-02-30")
    typed(qtbot, line, "2026-02-28")
    assert line.told.startswith("2026-02-28: ")
    assert demo_state.day == date(2026, 2, 28)


def test_what_is_being_typed_stays_when_the_state_moves(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    line.day_entry.selectAll()
    qtbot.keyClicks(line.day_entry, "2027")
    demo_state.go_to(date(2026, 3, 1))
    assert line.day_entry.text() == "2027"


def test_today_is_one_click_away(line: DayLine, demo_state: State, qtbot: QtBot) -> None:
    typed(qtbot, line, "2026-02-30")
    demo_state.go_to(date(2026, 3, 1))
    qtbot.mouseClick(line.today_button, LEFT)
    assert demo_state.day == TODAY
    assert line.told.startswith("2026-11-25: ")


def test_its_actions_have_keys_and_put_the_cursor_into_the_entry(
    line: DayLine, qtbot: QtBot
) -> None:
    keys = [action.shortcut().toString() for action in line.actions()]
    assert keys == ["Ctrl+D", "Ctrl+T", "F7", "F8", "Shift+F7", "Shift+F8", "Ctrl+K"]
    line.activateWindow()
    line.actions()[0].trigger()
    assert line.focusWidget() is line.day_entry
    assert line.day_entry.selectedText() == "2026-11-25"


def test_the_strip_follows_a_day_far_off_and_tells_so(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(line.days_shown) as told:
        demo_state.go_to(date(2029, 5, 1))
    assert told.args == [around(date(2029, 5, 1))]
    assert demo_state.day in line.strip.days


def test_a_drag_to_the_end_scrolls_when_it_is_let_go(line: DayLine, qtbot: QtBot) -> None:
    last = line.days.last
    qtbot.mousePress(line.strip, LEFT, pos=point_of(line, last))
    qtbot.waitUntil(lambda: line.strip.day == line.days.last)
    assert line.days.last == last
    qtbot.mouseRelease(line.strip, LEFT, pos=point_of(line, last))
    assert line.days.last == last + timedelta(days=10)


def test_another_qualification_can_be_counted(line: DayLine, qtbot: QtBot) -> None:
    place = line.chooser.findText("Night pilot")
    assert place > 0
    line.chooser.setCurrentIndex(place)
    assert line.told.startswith("2026-11-25: Night pilot, ")


def test_the_record_is_asked_as_known_at_a_day(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    qtbot.mouseClick(line.known_entry.asked, LEFT, pos=QPoint(8, 8))
    qtbot.keyClicks(line.known_entry.line, "2026-11-01")
    with qtbot.waitSignal(demo_state.moved):
        qtbot.keyClick(line.known_entry.line, Qt.Key.Key_Return)
    assert demo_state.known_at is not None
    assert line.known_entry.line.text() == "2026-11-01T23:59:59-05:00"


def test_unticking_asks_about_all_that_is_recorded(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(demo_state.moved):
        demo_state.know_at(datetime(2026, 11, 1, tzinfo=UTC))
    assert line.known_entry.asked.isChecked()
    with qtbot.waitSignal(demo_state.moved):
        qtbot.mouseClick(line.known_entry.asked, LEFT, pos=QPoint(8, 8))
    assert demo_state.known_at is None
    assert not line.known_entry.asked.isChecked()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("soon", "'soon' is not a date with a time"),
        ("2027-01-01", "is later than now"),
        ("1999-01-01", "the record held nothing yet"),
    ],
)
def test_an_instant_that_nothing_is_known_at_is_told_in_words(
    line: DayLine, demo_state: State, qtbot: QtBot, text: str, told: str
) -> None:
    line.known_entry.asked.setChecked(True)
    qtbot.keyClicks(line.known_entry.line, text)
    qtbot.keyClick(line.known_entry.line, Qt.Key.Key_Return)
    assert told in line.told
    assert demo_state.known_at is None


def test_an_enter_without_anything_typed_asks_nothing(line: DayLine, qtbot: QtBot) -> None:
    line.known_entry.asked.setChecked(True)
    with qtbot.assertNotEmitted(line.known_entry.chosen):
        qtbot.keyClick(line.known_entry.line, Qt.Key.Key_Return)


def test_moving_the_marker_does_not_paint_the_curve_again(
    line: DayLine, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    line.strip.grab()
    monkeypatch.setattr(line.strip, "_painted", lambda _: pytest.fail("painted again"))
    line.strip.mark(date(2026, 9, 9))
    assert not line.strip.grab().isNull()


def test_days_below_the_minimum_show(line: DayLine, demo_state: State) -> None:
    demo_state.go_to(date(2027, 5, 24))
    shown = line.strip.grab().toImage()
    x = round(line.strip.x_of(date(2027, 5, 24)) * shown.devicePixelRatio()) + 6
    tints = {shown.pixelColor(x, y).name() for y in range(shown.height())}
    assert "#f6dfe0" in tints


def test_tab_goes_in_reading_order(line: DayLine, qtbot: QtBot) -> None:
    line.activateWindow()
    line.known_entry.asked.setChecked(True)
    line.day_entry.setFocus()
    visited = []
    for _ in range(6):
        visited.append(line.focusWidget())
        qtbot.keyClick(line.focusWidget(), Qt.Key.Key_Tab)
    known = line.known_entry
    assert visited == [
        line.day_entry, line.today_button, known.asked, known.line, line.chooser, line.strip,
    ]  # fmt: skip


def test_every_widget_of_it_has_an_accessible_name(line: DayLine) -> None:
    known = line.known_entry
    for widget in (line.day_entry, line.today_button, known.asked, known.line, line.chooser):
        assert widget.accessibleName()
    assert line.strip.accessibleName() == "Day line"


def test_escape_takes_back_a_day_that_was_typed(
    line: DayLine, demo_state: State, qtbot: QtBot
) -> None:
    line.day_entry.selectAll()
    qtbot.keyClicks(line.day_entry, "2026-02-30")
    assert line.told == "there is no 2026-02-30; February 2026 has 28 days"
    qtbot.keyClick(line.day_entry, Qt.Key.Key_Escape)
    assert line.day_entry.text() == "2026-11-25"
    assert line.told.startswith("2026-11-25: ")
    assert demo_state.day == date(2026, 11, 25)


@pytest.mark.parametrize(
    ("key", "day"),
    [
        ("F7", date(2026, 11, 24)),
        ("F8", date(2026, 11, 26)),
        ("Shift+F7", date(2026, 10, 25)),
        ("Shift+F8", date(2026, 12, 25)),
    ],
)
def test_the_day_moves_by_keys_from_anywhere(
    line: DayLine, demo_state: State, key: str, day: date
) -> None:
    found = [action for action in line.actions() if action.shortcut().toString() == key]
    found[0].trigger()
    assert demo_state.day == day
    assert line.day_entry.text() == day.isoformat()


def test_an_earlier_instant_can_be_asked_for_by_key(line: DayLine) -> None:
    line.activateWindow()
    found = [one for one in line.actions() if one.shortcut().toString() == "Ctrl+K"]
    found[0].trigger()
    assert line.known_entry.asked.isChecked()
    assert line.focusWidget() is line.known_entry.line


def test_a_long_fault_does_not_make_the_window_wider(line: DayLine, qtbot: QtBot) -> None:
    before = line.minimumSizeHint().width()
    line.day_entry.selectAll()
    qtbot.keyClicks(line.day_entry, "the day after the day on which we came back from the cape")
    assert "is not a date" in line.told
    assert line.minimumSizeHint().width() == before
