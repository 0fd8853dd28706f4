"""The page Record: what it says, what it does, and the journal."""

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk import asking, journal_view, record_acts, record_page
from crewtrack.desk.import_dialog import ImportDialog
from crewtrack.desk.journal_view import JournalView
from crewtrack.desk.record_page import RecordPage
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.facts import PEOPLE
from crewtrack.office import recording, safekeeping
from crewtrack.office.entries import Entry, Order
from crewtrack.office.office import Office
from crewtrack.office.retention import RetentionTold
from tests.behind_its_back import change


@pytest.fixture
def page(demo_state: State, theme: Theme, qtbot: QtBot) -> Iterator[RecordPage]:
    """The page, on the screen."""
    shown = RecordPage(demo_state, theme)
    qtbot.addWidget(shown)
    shown.resize(1000, 700)
    shown.show()
    yield shown
    shown.hide()


def people(folder: Path, *lines: str) -> Path:
    """A file of people."""
    file = folder / "people.csv"
    file.write_text("\n".join(("person,name,joined", *lines)), encoding="utf-8")
    return file


def preview(state: State, theme: Theme, file: Path, qtbot: QtBot) -> ImportDialog:
    """A file looked through, on the screen."""
    shown = ImportDialog(state, theme, [file])
    qtbot.addWidget(shown)
    shown.show()
    shown.look()
    return shown


def names(state: State) -> dict[str, str]:
    """The people in the record by key."""
    with state.office.record.reading() as reading:
        return {str(row[0]): str(row[1]) for row in reading.rows(PEOPLE)}


def press(button: QPushButton) -> None:
    """Press a button."""
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def test_an_import_shows_its_faults_first_and_then_what_it_would_add(
    demo_state: State, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    shown = preview(demo_state, theme, people(tmp_path, "N-1,New,2026-13-01"), qtbot)
    assert shown.faults.rows.index(0, 0).data() == "people.csv:2"
    assert "there is no 2026-13-01" in shown.notices.toPlainText()
    assert not shown.import_button.isEnabled()
    people(tmp_path, "N-1,New,2026-11-01")
    press(shown.look_button)
    assert shown.told.text() == "No faults. It would bring 1 new fact."
    assert "N-1" not in names(demo_state)
    with qtbot.waitSignal(demo_state.moved):
        press(shown.import_button)
    assert names(demo_state)["N-1"] == "New"


def test_what_differs_is_taken_over_with_a_reason_only(
    demo_state: State, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    file = tmp_path / "people.csv"
    file.write_text("person,name\nK-01,Another Name\n", encoding="utf-8")
    shown = preview(demo_state, theme, file, qtbot)
    assert shown.told.text().startswith("1 row is recorded otherwise")
    QTest.keyClick(shown.revise, Qt.Key.Key_Space)
    press(shown.look_button)
    assert shown.told.text() == "No faults. It would bring 1 revised fact."
    press(shown.import_button)
    assert shown.reason.fault.text() == "Give a reason."
    QTest.keyClicks(shown.reason.editor, "Married")
    with qtbot.waitSignal(demo_state.moved):
        press(shown.import_button)
    assert names(demo_state)["K-01"] == "Another Name"


def test_a_choice_that_was_not_looked_at_is_not_imported(
    demo_state: State, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    shown = preview(demo_state, theme, people(tmp_path, "N-1,New,2026-11-01"), qtbot)
    assert shown.import_button.isEnabled()
    QTest.keyClick(shown.revise, Qt.Key.Key_Space)
    assert not shown.import_button.isEnabled()


def test_verifying_says_that_the_record_is_whole(page: RecordPage) -> None:
    page.verify()
    assert "agree" in page.detail.toPlainText()


def test_says_what_the_record_holds(page: RecordPage, demo_state: State) -> None:
    told = [page.facts.itemAt(n).widget().accessibleName() for n in range(page.facts.count())]  # type: ignore[union-attr] # rows hold labels
    assert f"File: {demo_state.office.record.path}" in told
    assert f"Journal's last digest: {demo_state.snapshot.head.digest}" in told


def test_the_newest_act_is_shown_with_what_it_recorded(page: RecordPage) -> None:
    assert "Act 11" in page.detail.toPlainText()
    assert "Sortie 26" in page.detail.toPlainText()


def test_the_journal_is_filtered_by_text(page: RecordPage) -> None:
    QTest.keyClicks(page.journal.text, "wrong person")
    assert page.journal.table.rows.rowCount() == 1
    assert "Withdrawn by: K-02 (was nothing)" in page.detail.toPlainText()
    page.journal.text.clear()
    assert page.journal.table.rows.rowCount() == 11


def test_the_journal_is_filtered_by_kind(page: RecordPage) -> None:
    QTest.keyClicks(page.journal.kind, "adopted")
    assert page.journal.table.rows.rowCount() == 2


def test_the_journal_is_filtered_by_days(page: RecordPage) -> None:
    QTest.keyClicks(page.journal.first, "2026-09-01")
    QTest.keyClicks(page.journal.last, "2026-10-01")
    assert page.journal.table.rows.rowCount() == 2


def test_a_day_that_is_none_is_told_in_words(page: RecordPage) -> None:
    QTest.keyClicks(page.journal.first, "2026-13-01")
    assert page.journal.told.text() == "there is no 2026-13-01; months go from 01 to 12"


def test_a_filter_that_takes_nothing_shows_nothing(page: RecordPage) -> None:
    QTest.keyClicks(page.journal.text, "zzz")
    assert page.journal.table.rows.rowCount() == 0
    assert page.detail.toPlainText() == ""


def test_a_backup_is_written_and_put_back(
    page: RecordPage, demo_state: State, theme: Theme, tmp_path: Path, qtbot: QtBot
) -> None:
    copy = tmp_path / "copy.crewtrack"
    record_acts.back_up_to(page, demo_state, copy)
    shown = preview(demo_state, theme, people(tmp_path, "N-1,New,2026-11-01"), qtbot)
    with qtbot.waitSignal(demo_state.moved):
        press(shown.import_button)
    assert "N-1" in names(demo_state)
    with qtbot.waitSignal(demo_state.moved):
        record_acts.restore_from(page, demo_state, copy)
    assert "N-1" not in names(demo_state)
    assert list(tmp_path.glob("*before-restore*"))


def test_an_export_writes_files(page: RecordPage, demo_state: State, tmp_path: Path) -> None:
    record_acts.export_to(page, demo_state, tmp_path / "out")
    assert (tmp_path / "out" / "people.csv").exists()
    assert (tmp_path / "out" / "journal.jsonl").exists()


def test_every_action_has_a_key_of_its_own_and_a_sentence(page: RecordPage) -> None:
    keys = [action.shortcut().toString() for action in page.page_actions()]
    assert all(keys)
    assert len(set(keys)) == len(keys)
    assert all(action.toolTip().endswith(".") for action in page.page_actions())


def test_the_journal_reads_on_as_one_scrolls(
    demo_state: State, theme: Theme, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(journal_view, "AT_ONCE", 4)
    shown = JournalView(demo_state)
    qtbot.addWidget(shown)
    shown.resize(700, 1)
    shown.show()
    shown.show_state()
    assert shown.table.rows.rowCount() == 4
    assert "scroll down" in shown.told.text()
    rows, bar = shown.table.rows, shown.table.verticalScrollBar()
    for before, after in ((4, 8), (8, 11)):
        qtbot.waitUntil(lambda: bar.maximum() > 0)
        assert rows.rowCount() == before
        QTest.keyClick(shown.table, Qt.Key.Key_End, Qt.KeyboardModifier.ControlModifier)
        assert rows.rowCount() == after
        QApplication.processEvents()
    assert shown.told.text() == "11 acts."


def test_an_export_that_is_refused_is_told_and_no_older_sentence_stays(
    page: RecordPage, demo_state: State, tmp_path: Path, panels: list[str]
) -> None:
    said: list[str] = []
    demo_state.told.connect(said.append)
    record_acts.export_to(page, demo_state, tmp_path / "out")
    record_acts.export_to(page, demo_state, tmp_path / "out")
    assert "name an empty folder, or a new one" in panels[0]
    assert said[-1] == "Exporting: not done."


def test_a_backup_that_was_changed_is_not_put_back(
    page: RecordPage, demo_state: State, tmp_path: Path, panels: list[str]
) -> None:
    made = tmp_path / "backup.crewtrack"
    record_acts.back_up_to(page, demo_state, made)
    made.write_bytes(made.read_bytes().replace(b"Lehtovaara", b"Lehtovaard"))
    before = demo_state.office.newest()
    record_acts.restore_from(page, demo_state, made)
    assert "is not as it was recorded" in panels[0]
    assert panels[0].endswith("; use a backup that is whole")
    assert demo_state.office.newest() == before


def test_in_a_low_window_with_large_text_all_of_it_can_be_scrolled_to(
    page: RecordPage, qtbot: QtBot
) -> None:
    page.resize(500, 250)
    area = page.findChild(QScrollArea)
    assert area is not None
    assert area.verticalScrollBar().maximum() > 0
    assert page.journal.table.height() > 3 * page.theme.line()


def last_backup(page: RecordPage) -> str:
    """What the page says of the last good backup."""
    told = [page.facts.itemAt(n).widget().accessibleName() for n in range(page.facts.count())]  # type: ignore[union-attr] # rows hold labels
    (line,) = [each for each in told if each.startswith("Last good backup: ")]
    return line.removeprefix("Last good backup: ")


def test_says_when_the_last_good_backup_was(
    backups_file: Path, page: RecordPage, demo_state: State
) -> None:
    page.show_state()
    assert last_backup(page) == "none yet"
    taken = safekeeping.keep_now(demo_state.office)
    page.show_state()
    folder = taken.path.parent
    assert last_backup(page) == f"2026-11-25 12:00, by hand, in {folder}; 1 kept"


def test_says_what_is_wrong_with_the_settings_of_backups(
    backups_file: Path, page: RecordPage
) -> None:
    backups_file.write_text("days = -1\n", encoding="utf-8")
    page.show_state()
    assert "days: -1 is less than 0" in last_backup(page)


@pytest.mark.usefixtures("backups_file")
def test_without_a_backup_nothing_is_imported_unless_somebody_says_so(
    demo_state: State,
    theme: Theme,
    tmp_path: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    record = demo_state.office.record.path
    record.with_name(f"{record.stem}-backups").write_text("a file is in its place")
    shown = preview(demo_state, theme, people(tmp_path, "N-1,New,2026-11-01"), qtbot)
    asked: list[str] = []

    def answer(parent: QWidget, question: str, *_: str) -> bool:
        asked.append(question)
        return len(asked) > 1

    monkeypatch.setattr(asking, "agreed", answer)
    press(shown.import_button)
    assert asked[0].startswith("Nothing was done, since there can be no backup before it: ")
    assert "N-1" not in names(demo_state)
    with qtbot.waitSignal(demo_state.moved):
        press(shown.import_button)
    assert "N-1" in names(demo_state)


def test_the_best_backup_is_named_where_verifying_finds_a_break(
    backups_file: Path, page: RecordPage, demo_state: State
) -> None:
    best = safekeeping.keep_now(demo_state.office).path
    name = "UPDATE people SET name = 'Somebody else' WHERE person = 'K-03'"
    change(demo_state.office.record.path, name)
    page.verify()
    assert f"The newest backup that is whole is {best}." in page.detail.toPlainText()


def test_what_is_past_retention_is_found_out_once_an_act_and_not_for_every_day_shown(
    page: RecordPage, demo_state: State, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []

    def told(office: Office) -> RetentionTold:
        asked.append(office.newest())
        return RetentionTold(None, 0, None, 0)

    monkeypatch.setattr(record_page, "retention_told", told)
    demo_state.go_to(demo_state.day + timedelta(days=1))
    assert not asked
    row = ("N-1", "New", *(None for _ in PEOPLE.names[2:]))
    with qtbot.waitSignal(demo_state.moved):
        demo_state.act(recording.record, [Entry(PEOPLE, row)], Order("K-01"))
    assert asked == [demo_state.office.newest()]
