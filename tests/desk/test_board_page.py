"""The board, by clicks and keys."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt, QUrl
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from crewtrack.desk.board_page import BoardPage
from crewtrack.desk.rows_model import ROLE_ROW
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.strip_days import around

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def page(demo_state: State, theme: Theme, qtbot: QtBot) -> BoardPage:
    shown = BoardPage(demo_state, theme)
    qtbot.addWidget(shown)
    shown.resize(1300, 800)
    shown.show()
    shown.board.setFocus()
    return shown


def people(page: BoardPage) -> list[str]:
    model = page.board.rows
    return [model.row_at(line).person.key for line in range(model.rowCount())]


def click(qtbot: QtBot, page: BoardPage, line: int, column: int) -> None:
    place = page.board.visualRect(page.board.rows.index(line, column)).center()
    qtbot.mouseClick(page.board.viewport(), LEFT, pos=place)


def clipboard() -> str:
    return QGuiApplication.clipboard().text()


def act(page: BoardPage, key: str) -> None:
    next(each for each in page.page_actions() if each.shortcut().toString() == key).trigger()


def test_it_shows_everybody_on_the_books(page: BoardPage, demo_state: State) -> None:
    roster = demo_state.snapshot.roster(demo_state.day)
    assert people(page) == [person.key for person in roster.people]
    assert page.board.rows.columnCount() == len(roster.qualifications) + 2


def test_a_click_on_a_cell_opens_it_below(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    assert page.reasons.toPlainText().startswith("Олена Дорошківська, Deck pilot, on 2026-11-25")
    assert page.lines.accessibleDescription().startswith("Deck pilot: ")


def test_arrows_move_cell_by_cell(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    qtbot.keyClick(page.board, Qt.Key.Key_Right)
    assert page.reasons.toPlainText().startswith("Олена Дорошківська, Under-way pilot")
    qtbot.keyClick(page.board, Qt.Key.Key_Down)
    assert page.reasons.toPlainText().startswith("Þorgerður Hallsdóttir, Under-way pilot")


def test_the_opened_cell_follows_the_day(page: BoardPage, demo_state: State, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    demo_state.go_to(date(2027, 5, 20))
    assert "on 2027-05-20" in page.reasons.toPlainText()
    assert "lapsed" in page.reasons.toPlainText()


def test_what_is_most_pressing_is_opened_first(page: BoardPage) -> None:
    assert "lapsed" in page.reasons.toPlainText()
    assert page.board.currentIndex().isValid()


def test_a_day_before_anybody_was_there_says_what_to_do(
    demo_state: State, theme: Theme, qtbot: QtBot
) -> None:
    demo_state.go_to(date(2001, 1, 1))
    shown = BoardPage(demo_state, theme)
    qtbot.addWidget(shown)
    shown.show()
    assert shown.reasons.toPlainText().startswith("Choose a cell")


def test_a_persons_name_opens_the_same_qualification_of_that_person(
    page: BoardPage, qtbot: QtBot
) -> None:
    click(qtbot, page, 2, 2)
    click(qtbot, page, 4, 0)
    name = page.board.rows.row_at(4).person.name
    assert page.reasons.toPlainText().startswith(f"{name}, Deck pilot, on ")


@pytest.mark.parametrize(("column", "qualification"), [(2, "deck-pilot"), (0, "")])
def test_enter_opens_the_person(
    page: BoardPage, qtbot: QtBot, column: int, qualification: str
) -> None:
    click(qtbot, page, 2, column)
    with qtbot.waitSignal(page.open_person) as opened:
        qtbot.keyClick(page.board, Qt.Key.Key_Return)
    assert opened.args == ["K-03", qualification]


def test_typing_a_name_leaves_those_that_hold_it(page: BoardPage, qtbot: QtBot) -> None:
    act(page, "Ctrl+F")
    qtbot.keyClicks(page.filter.text, "k-03")
    assert people(page) == ["K-03"]
    qtbot.keyClick(page.filter.text, Qt.Key.Key_Escape)
    assert len(people(page)) > 10


def test_duty_and_standing_filter_too_and_are_cleared_together(
    page: BoardPage, demo_state: State
) -> None:
    everybody = people(page)
    page.filter.duty.setCurrentIndex(page.filter.duty.findData("handler"))
    handlers = people(page)
    assert 0 < len(handlers) < len(everybody)
    page.filter.word.setCurrentIndex(page.filter.word.findData("lapsed"))
    assert set(people(page)) < set(handlers)
    act(page, "Ctrl+Shift+F")
    assert people(page) == everybody


def test_the_opened_cell_stays_when_its_row_is_filtered_away(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    before = page.reasons.toPlainText()
    page.filter.text.setText("K-01")
    assert page.reasons.toPlainText() == before


def test_a_click_on_a_heading_sorts_by_urgency(page: BoardPage, qtbot: QtBot) -> None:
    header = page.board.horizontalHeader()
    place = QPoint(header.sectionViewportPosition(2) + 8, 8)
    qtbot.mouseClick(header.viewport(), LEFT, pos=place)
    first = page.board.rows.row_at(0).cells[1].standing.word
    assert first == "lapsed"


def test_a_key_sorts_by_the_chosen_column_and_back(page: BoardPage, qtbot: QtBot) -> None:
    act(page, "Ctrl+Shift+S")
    click(qtbot, page, 2, 2)
    act(page, "Ctrl+Shift+S")
    assert page.board.rows.row_at(0).cells[1].standing.word == "lapsed"
    act(page, "Ctrl+Shift+S")
    assert page.board.rows.row_at(0).cells[1].standing.word == "none"


def test_the_selected_cells_are_copied_with_their_people(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    qtbot.keyClick(page.board, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(page.board, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert clipboard() == (
        "Person\tDeck pilot\tUnder-way pilot\n"
        "Олена Дорошківська; K-03\tcurrent 2027-02-09\tdue 2026-12-06"
    )


def test_without_a_selection_the_whole_board_is_copied(page: BoardPage, qtbot: QtBot) -> None:
    page.board.clearSelection()
    qtbot.keyClick(page.board, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    whole = clipboard()
    act(page, "Ctrl+Shift+C")
    assert clipboard() == whole
    assert len(whole.splitlines()) == len(people(page)) + 1


def test_every_cell_speaks_a_sentence(page: BoardPage) -> None:
    model = page.board.rows
    for line in range(model.rowCount()):
        for column in range(model.columnCount()):
            index = model.index(line, column)
            said = index.data(Qt.ItemDataRole.AccessibleTextRole)
            assert index.data(ROLE_ROW).person.name in said


def test_a_tick_opens_its_sortie(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    with qtbot.waitSignal(page.open_sortie) as opened:
        page.lines.evidence_opened.emit("performance", "S-0001")
    assert opened.args == ["S-0001"]


def test_a_link_in_the_reasons_opens_its_evidence(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    with qtbot.waitSignal(page.open_evidence) as opened:
        page.reasons.anchorClicked.emit(QUrl("sign-off:E-018"))
    assert opened.args == ["K-03", "sign-off", "E-018"]
    with qtbot.waitSignal(page.open_person) as opened:
        page.reasons.anchorClicked.emit(QUrl("qualification:remote-pilot"))
    assert opened.args == ["K-03", "remote-pilot"]
    with qtbot.waitSignal(page.open_sortie) as opened:
        page.reasons.anchorClicked.emit(QUrl("performance:S%2F1%20%C3%A9"))
    assert opened.args == ["S/1 é"]


def test_the_life_lines_follow_the_days_of_the_day_line(page: BoardPage, qtbot: QtBot) -> None:
    click(qtbot, page, 2, 2)
    page.show_days(around(date(2025, 1, 1)))
    assert page.lines.laid_out().days == around(date(2025, 1, 1))


def test_its_actions_have_keys_and_sentences(page: BoardPage) -> None:
    for action in page.page_actions():
        assert not action.shortcut().isEmpty()
        assert action.toolTip().endswith(".")
    assert page.title() == "Board"
    assert page.unsaved() == ""


def test_choosing_a_cell_by_name(page: BoardPage) -> None:
    assert page.board.choose_cell("K-05", 1)
    assert page.board.chosen_place() == 1
    assert not page.board.choose_cell("nobody", 1)


def test_a_chosen_person_who_was_not_known_yet_leaves_the_cell_closed(
    page: BoardPage, demo_state: State, qtbot: QtBot
) -> None:
    page.board.choose_cell("K-05", 1)
    page._cell = ("nobody", "deck-pilot")
    page.show_state()
    assert page.reasons.toPlainText().startswith("Choose a cell")


def test_tab_goes_from_the_filter_over_the_board_to_lines_and_reasons(
    page: BoardPage, qtbot: QtBot
) -> None:
    page.activateWindow()
    page.filter.text.setFocus()
    visited = []
    for _ in range(6):
        visited.append(page.focusWidget())
        qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Tab)
    bar = page.filter
    assert visited == [bar.text, bar.duty, bar.word, page.board, page.lines, page.reasons]
    assert all(widget.accessibleName() for widget in visited)
