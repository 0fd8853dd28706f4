"""What the tests of the desk share: the demonstration record, opened, at a fixed clock."""

import gc
import shutil
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from crewtrack.desk import theme as themes
from crewtrack.desk.settings import Settings
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.window import Window
from crewtrack.office import access, demonstration, snapshot
from crewtrack.office.office import Office
from crewtrack.office.snapshot import Snapshot
from crewtrack.screens import language
from tests.desk import identified

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 17, 0, tzinfo=UTC)
AUTHOR = "K-01"
_NONE = Qt.MouseButton.NoButton


def clock() -> datetime:
    """It is noon in the unit's zone."""
    return NOW


def filled(window: Window) -> bool:
    """Whether a record has been read and is on the screen: Qt shows what it was given a turn of
    events later."""
    return window.workspace is not None and window.workspace.isVisible()


def moved_to(
    widget: QWidget, where: QPoint, held: Qt.MouseButton = Qt.MouseButton.NoButton
) -> None:
    """The mouse moves over a widget. Qt's own way moves the one cursor of the screen, which sends
    nothing where it lies already, or to the window of an earlier test that lies on top."""
    at = QPointF(where)
    event = QMouseEvent(
        QEvent.Type.MouseMove, at, widget.mapToGlobal(at), _NONE, held,
        Qt.KeyboardModifier.NoModifier,
    )  # fmt: skip
    assert QApplication.sendEvent(widget, event)


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration record; copy it before writing to it."""
    return demonstration.make(tmp_path_factory.mktemp("demo"), TODAY)


@pytest.fixture
def demo_record(demo_file: Path, tmp_path: Path) -> Path:
    """A copy of the demonstration record of the test's own."""
    return Path(shutil.copy(demo_file, tmp_path / demo_file.name))


@pytest.fixture
def office(demo_record: Path) -> Iterator[Office]:
    """The office over that copy."""
    with Office.open(demo_record, clock) as opened:
        yield opened


@pytest.fixture(scope="session")
def demo_taken(demo_file: Path) -> Snapshot:
    """The demonstration as it was taken once: what is reckoned of it serves every copy."""
    with Office.open(demo_file, clock) as opened:
        taken = snapshot.take(opened)
    taken.history()
    return taken


@pytest.fixture
def demo_state(office: Office, demo_taken: Snapshot, qtbot: QtBot) -> Iterator[State]:
    """What a window would show of it."""
    taken = Snapshot(office, demo_taken.head, None, TODAY, demo_taken.reckoning)
    state = State(office, taken, AUTHOR)
    yield state
    state.close()


@pytest.fixture
def theme(qapp: QApplication) -> Theme:
    """The light look at the usual size, worn by the whole program."""
    themes.load_fonts()
    worn = Theme()
    themes.apply(qapp, worn)
    return worn


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Settings of the test's own."""
    return Settings(tmp_path / "desk.ini")


@pytest.fixture(autouse=True)
def collected_between_tests() -> Iterator[None]:
    """No cycles are collected within a test, as the program sees to: a thread that works might
    take what is left of windows apart."""
    gc.disable()
    yield
    gc.enable()


@pytest.fixture(autouse=True)
def english() -> Iterator[None]:
    """Every test begins and ends in English."""
    language.use(language.ENGLISH, {})
    yield
    language.use(language.ENGLISH, {})


@pytest.fixture(autouse=True)
def panels(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What panels with a sentence or a question said; each goes away unanswered, at once."""
    said: list[str] = []

    def closed(box: QMessageBox) -> int:
        said.append(box.text())
        return 0

    monkeypatch.setattr(QMessageBox, "exec", closed)
    return said


@pytest.fixture(scope="session")
def identified_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small record in which people sign in; copy it before opening it."""
    return identified.make(tmp_path_factory.mktemp("identified"))


@pytest.fixture
def identified_record(identified_file: Path, tmp_path: Path) -> Path:
    """A copy of it of the test's own."""
    return Path(shutil.copy(identified_file, tmp_path / identified_file.name))


@pytest.fixture
def guarded_office(identified_record: Path) -> Iterator[Office]:
    """The office over that copy; nobody is signed in."""
    with Office.open(identified_record, clock) as opened:
        yield opened


@pytest.fixture
def evaluator_state(guarded_office: Office, qtbot: QtBot) -> Iterator[State]:
    """What a window shows of it to the evaluator, who is signed in."""
    access.sign_in(guarded_office, identified.EVALUATOR, identified.WORDS[identified.EVALUATOR])
    state = State(guarded_office, snapshot.take(guarded_office), identified.EVALUATOR)
    yield state
    state.close()


@pytest.fixture
def window(settings: Settings, theme: Theme, qtbot: QtBot) -> Iterator[Window]:
    """A window without a record yet."""
    made = Window(settings, lambda _: None)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.close()
