"""The panel for where backups go and how many are kept."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk.backups_dialog import BackupsDialog
from crewtrack.desk.theme import Theme
from crewtrack.office.backup_settings import BackupSettings, read_settings
from tests.desk.walking import nameless, tab_order


@pytest.fixture
def dialog(backups_file: Path, tmp_path: Path, theme: Theme, qtbot: QtBot) -> BackupsDialog:
    return _shown(tmp_path, qtbot)


def _shown(folder: Path, qtbot: QtBot) -> BackupsDialog:
    made = BackupsDialog(folder / "unit.crewtrack")
    qtbot.addWidget(made)
    made.show()
    return made


def press(dialog: BackupsDialog, told: str, qtbot: QtBot) -> None:
    (button,) = [one for one in dialog.findChildren(QPushButton) if one.text() == told]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_shows_what_is_usual_and_saves_what_is_set(
    dialog: BackupsDialog, tmp_path: Path, qtbot: QtBot
) -> None:
    assert [box.value() for box in (dialog.days, dialog.weeks, dialog.months)] == [7, 5, 12]
    qtbot.keyClicks(dialog.folder.editor, str(tmp_path))
    dialog.weeks.setValue(9)
    press(dialog, "&Save", qtbot)
    assert read_settings() == BackupSettings(tmp_path, 7, 9, 12)
    assert dialog.result()


def test_a_folder_that_can_t_be_used_is_told_at_its_field(
    dialog: BackupsDialog, backups_file: Path, qtbot: QtBot
) -> None:
    qtbot.keyClicks(dialog.folder.editor, "somewhere")
    press(dialog, "&Save", qtbot)
    assert dialog.folder.fault.text().startswith("'somewhere' is not a folder's whole path; ")
    assert dialog.isVisible()
    assert not backups_file.exists()


def test_that_nothing_is_backed_up_any_more_is_said_before_it_is_saved(
    dialog: BackupsDialog,
) -> None:
    dialog.days.setValue(0)
    dialog.weeks.setValue(0)
    assert not dialog.warning.isVisible()
    dialog.months.setValue(0)
    assert dialog.warning.isVisible()


def test_cancelled_it_saves_nothing(
    dialog: BackupsDialog, backups_file: Path, qtbot: QtBot
) -> None:
    dialog.days.setValue(1)
    press(dialog, "Cancel", qtbot)
    assert not backups_file.exists()


def test_faults_of_the_file_are_told_and_what_is_usual_is_offered(
    backups_file: Path, tmp_path: Path, theme: Theme, qtbot: QtBot
) -> None:
    backups_file.write_text("days = -1\n", encoding="utf-8")
    shown = _shown(tmp_path, qtbot)
    assert "days: -1 is less than 0" in shown.general.text()
    assert shown.days.value() == 7


def test_a_folder_can_be_chosen(
    dialog: BackupsDialog, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path))
    press(dialog, "&Choose…", qtbot)
    assert dialog.folder.editor.text() == str(tmp_path)


def test_everything_has_a_name_and_is_reached_from_top_to_bottom(dialog: BackupsDialog) -> None:
    assert nameless(dialog) == []
    heights = [each.mapTo(dialog, each.rect().center()).y() for each in tab_order(dialog)]
    assert heights == sorted(heights)
