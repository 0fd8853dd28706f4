"""The page Standard: editions in words, a file adopted, two editions compared."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk import asking
from crewtrack.desk.adopt_dialog import AdoptDialog
from crewtrack.desk.compare_dialog import CompareDialog
from crewtrack.desk.standard_page import StandardPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.office import keeping
from crewtrack.office.office import Office


@pytest.fixture
def page(demo_state: State, theme: Theme, qtbot: QtBot) -> Iterator[StandardPage]:
    """The page, on the screen."""
    shown = StandardPage(demo_state, theme)
    qtbot.addWidget(shown)
    shown.resize(1000, 700)
    shown.show()
    yield shown
    shown.hide()


@pytest.fixture
def source(office: Office) -> str:
    """The text of the edition in effect, under another name and from another day."""
    text = keeping.standard_source(office)
    text = text.replace('edition   = "2026-1"', 'edition   = "2027-1"')
    return text.replace("effective = 2026-01-01", "effective = 2027-01-01")


@pytest.fixture
def draft(source: str, tmp_path: Path) -> Path:
    """A file of that text."""
    file = tmp_path / "draft.toml"
    file.write_text(source, encoding="utf-8")
    return file


def dialog(state: State, theme: Theme, file: Path, qtbot: QtBot) -> AdoptDialog:
    """The file looked through, on the screen."""
    shown = AdoptDialog(state, theme, file)
    qtbot.addWidget(shown)
    shown.show()
    return shown


def adopt(shown: AdoptDialog) -> None:
    """Press Adopt."""
    QTest.mouseClick(shown.adopt_button, Qt.MouseButton.LeftButton)


def editions(state: State) -> list[str]:
    """The editions in the record."""
    with state.office.view() as view:
        return [one.edition for one in view.editions.standards]


def test_shows_the_edition_in_effect_in_words(page: StandardPage) -> None:
    assert "Edition 2026-1" in page.words.toPlainText()
    assert "Deck launch: 3 times in 90 days" in page.words.toPlainText()


def test_another_edition_shows_when_it_is_chosen(page: StandardPage) -> None:
    QTest.keyClick(page.editions, Qt.Key.Key_Up)
    assert "Edition 2023-2" in page.words.toPlainText()


def test_the_list_says_which_edition_is_in_effect_on_the_day(
    page: StandardPage, demo_state: State
) -> None:
    demo_state.go_to(date(2025, 1, 1))
    table = page.editions.rows
    assert "in effect" in table.index(0, 1).data()
    assert "not yet" in table.index(1, 1).data()


def test_faults_are_listed_beside_the_line_they_are_in(
    demo_state: State, theme: Theme, draft: Path, source: str, qtbot: QtBot
) -> None:
    draft.write_text(source.replace("minimum = 4", "minimun = 4"), encoding="utf-8")
    shown = dialog(demo_state, theme, draft, qtbot)
    assert shown.faults.rows.rowCount() == 1
    assert shown.text.textCursor().block().text() == "minimun = 4"
    assert not shown.adopt_button.isEnabled()


def test_a_file_that_was_mended_is_read_again_and_adopted(
    demo_state: State, theme: Theme, draft: Path, source: str, qtbot: QtBot
) -> None:
    draft.write_text(source.replace("minimum = 4", "minimum = -4"), encoding="utf-8")
    shown = dialog(demo_state, theme, draft, qtbot)
    draft.write_text(source.replace("minimum = 4", "minimum = 5"), encoding="utf-8")
    QTest.mouseClick(shown.again_button, Qt.MouseButton.LeftButton)
    assert "Minimum: at least 5 people current" in shown.would_change.toPlainText()
    with qtbot.waitSignal(demo_state.moved):
        adopt(shown)
    assert editions(demo_state) == ["2023-2", "2026-1", "2027-1"]


def test_an_edition_in_the_past_asks_for_a_reason(
    demo_state: State, theme: Theme, draft: Path, source: str, qtbot: QtBot
) -> None:
    draft.write_text(source.replace("2027-01-01", "2026-11-01"), encoding="utf-8")
    shown = dialog(demo_state, theme, draft, qtbot)
    adopt(shown)
    assert shown.reason.fault.text() == "Give a reason."
    assert editions(demo_state) == ["2023-2", "2026-1"]
    QTest.keyClicks(shown.reason.editor, "Agreed on 1 November")
    with qtbot.waitSignal(demo_state.moved):
        adopt(shown)
    assert editions(demo_state)[-1] == "2027-1"


def test_what_the_record_has_against_an_edition_is_listed_too(
    demo_state: State, theme: Theme, draft: Path, source: str, qtbot: QtBot
) -> None:
    draft.write_text(source.replace('"2027-1"', '"2026-1"'), encoding="utf-8")
    shown = dialog(demo_state, theme, draft, qtbot)
    adopt(shown)
    assert "already" in shown.faults.rows.index(0, 2).data()
    assert shown.isVisible()


def test_a_text_that_nobody_has_seen_is_not_adopted(
    demo_state: State, theme: Theme, draft: Path, source: str, qtbot: QtBot
) -> None:
    shown = dialog(demo_state, theme, draft, qtbot)
    draft.write_text(source.replace("minimum = 4", "minimum = 9"), encoding="utf-8")
    adopt(shown)
    assert editions(demo_state) == ["2023-2", "2026-1"]
    assert "at least 9 people" in shown.would_change.toPlainText()


def test_two_editions_are_compared(demo_state: State, theme: Theme, qtbot: QtBot) -> None:
    shown = CompareDialog(demo_state, theme)
    qtbot.addWidget(shown)
    shown.show()
    assert (shown.old.currentText(), shown.new.currentText()) == ("2023-2", "2026-1")
    assert "Added, recency-launch: Deck launch: 3 times in 90 days" in shown.words.toPlainText()
    QTest.keyClick(shown.new, Qt.Key.Key_Up)
    assert shown.words.toPlainText() == "Both ask for the same."


@pytest.mark.usefixtures("backups_file")
def test_without_a_backup_nothing_is_adopted_unless_somebody_says_so(
    demo_state: State,
    theme: Theme,
    draft: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    record = demo_state.office.record.path
    record.with_name(f"{record.stem}-backups").write_text("a file is in its place")
    shown = dialog(demo_state, theme, draft, qtbot)
    asked: list[str] = []

    def answer(parent: QWidget, question: str, *_: str) -> bool:
        asked.append(question)
        return len(asked) > 1

    monkeypatch.setattr(asking, "agreed", answer)
    before = demo_state.office.newest()
    adopt(shown)
    assert asked[0].startswith("Nothing was done, since there can be no backup before it: ")
    assert demo_state.office.newest() == before
    with qtbot.waitSignal(demo_state.moved):
        adopt(shown)
    assert demo_state.office.newest() == before + 1
