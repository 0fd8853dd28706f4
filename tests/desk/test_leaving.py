"""The backup on closing: skipped, and shown only where it takes its time."""

from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from crewtrack.desk import leaving
from crewtrack.desk.progress_dialog import ProgressDialog
from crewtrack.desk.state import State
from crewtrack.desk.work import Cancelled
from crewtrack.office import safekeeping
from crewtrack.office.office import Office, Progress
from crewtrack.office.safekeeping import Taken


def test_a_backup_that_takes_long_can_be_skipped(
    demo_state: State, qtbot: QtBot, panels: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    skipped, stopped = Event(), Event()

    def slowly(office: Office, progress: Progress) -> None:
        try:
            while not skipped.wait(0.01):
                progress("copying", 1, 2)
            progress("copying", 2, 2)
        except Cancelled:
            stopped.set()
            raise

    def skip() -> None:
        panel = QApplication.activeModalWidget()
        if not isinstance(panel, ProgressDialog):
            QTimer.singleShot(1, skip)
            return
        button = panel.findChild(QPushButton)
        assert button is not None
        assert (button.text(), button.accessibleName()) == ("Skip", "Skip: Backing up")
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
        skipped.set()

    monkeypatch.setattr(safekeeping, "on_closing", slowly)
    monkeypatch.setattr(leaving, "_QUIET_MS", 1)
    QTimer.singleShot(0, skip)
    leaving.back_up(_parent(qtbot), demo_state.office)
    assert stopped.is_set()
    assert panels == []


def test_what_is_over_at_once_shows_no_panel(
    demo_state: State, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[bool] = []
    monkeypatch.setattr(ProgressDialog, "exec", lambda _: shown.append(True))
    monkeypatch.setattr(safekeeping, "on_closing", lambda office, progress: None)
    monkeypatch.setattr(leaving, "_QUIET_MS", 60_000)
    leaving.back_up(_parent(qtbot), demo_state.office)
    assert shown == []


def test_old_ones_that_could_not_be_removed_are_told(
    demo_state: State, qtbot: QtBot, panels: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    taken = Taken(Path("a"), (), (Path("b"), Path("c")))
    monkeypatch.setattr(safekeeping, "on_closing", lambda office, progress: taken)
    leaving.back_up(_parent(qtbot), demo_state.office)
    (told,) = panels
    assert told.startswith("2 files of older backups could not be removed; ")


def _parent(qtbot: QtBot) -> QPushButton:
    """Something for the panel to belong to."""
    made = QPushButton()
    qtbot.addWidget(made)
    return made
