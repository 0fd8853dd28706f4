"""The program killed while somebody types, or while it saves: nothing that was typed is lost, and
the record stays whole."""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.settings import Settings
from crewtrack.desk.signoff_dialog import SignOffDialog
from crewtrack.desk.sortie_page import DRAFT
from crewtrack.desk.theme import Theme
from crewtrack.desk.window import Window
from crewtrack.office import flying, keeping, snapshot
from crewtrack.office.office import Office
from crewtrack.screens.sortie_book import SortieBook
from tests.desk.conftest import clock, filled
from tests.desk.driven import KEYS, REMARKS, people_page, sorties_page
from tests.desk.sorties import FLYING, LAST, NEXT

FOLDERS = ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME")
MOMENTS = tuple(Random("keys").sample(range(8, KEYS // 2), 1))
STATEMENTS = (*Random("statements").sample(range(40), 2), -1, -2)


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both starts have the user's folders to themselves."""
    for name in ("HOME", "USERPROFILE", "LOCALAPPDATA", "APPDATA"):
        monkeypatch.setenv(name, str(tmp_path))
    for name in FOLDERS:
        monkeypatch.setenv(name, str(tmp_path / name.lower()))


def started(record: Path, deed: str, number: int) -> list[dict[str, Any]]:
    """What the program told before it was killed, which it was in the midst of things."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.desk.driven", str(record), deed, str(number)],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
        env={**os.environ, "CREWTRACK_BY": "K-01"},
    )
    assert done.returncode == -getattr(signal, "SIGKILL", -signal.SIGTERM), done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


@contextmanager
def opened(record: Path, settings: Settings, qtbot: QtBot) -> Iterator[Window]:
    """The program started again."""
    window = Window(settings, lambda _: None)
    window.show()
    window.open_record(record)
    qtbot.waitUntil(lambda: filled(window), timeout=30_000)
    yield window
    window.close()


@pytest.mark.parametrize("moment", MOMENTS)
def test_a_sortie_that_was_being_typed_is_offered_at_the_next_start(
    moment: int, demo_record: Path, settings: Settings, theme: Theme, qtbot: QtBot
) -> None:
    typed = [line["typed"] for line in started(demo_record, "type", moment)]
    with opened(demo_record, settings, qtbot) as window:
        page = sorties_page(window)
        assert page.log.offer.isVisible()
        qtbot.mouseClick(page.log.offer.take, Qt.MouseButton.LeftButton)
        assert page.form.draft.plain() in typed
        page.form.let_go()


def test_a_sortie_that_was_nearly_typed_comes_back_with_crew_and_tasks(
    demo_record: Path, settings: Settings, theme: Theme, qtbot: QtBot
) -> None:
    first, *_ = (line["typed"] for line in started(demo_record, "type", KEYS - 5))
    with opened(demo_record, settings, qtbot) as window:
        page = sorties_page(window)
        qtbot.mouseClick(page.log.offer.take, Qt.MouseButton.LeftButton)
        seats = [seat.editor.text() for seat in page.form.crew.fields.values()]
        assert seats[:3] == ["K-08", "K-05", "K-07"]
        assert page.form.first.text("wind") == first["texts"]["wind"] == "240/14"
        assert len(page.form.draft.tasks) == len(first["tasks"]) >= 3
        page.form.let_go()


def test_a_sign_off_that_was_being_filled_in_is_offered_at_the_next_start(
    demo_record: Path, settings: Settings, theme: Theme, qtbot: QtBot
) -> None:
    count = Random("remarks").randrange(5, len(REMARKS))
    (told,) = started(demo_record, "sign", count)
    with opened(demo_record, settings, qtbot) as window:
        page = people_page(window)
        assert "Ctrl+Shift+G goes on" in page.panel.changes.text()
        page.acts.go_on()
        panel = page.acts.panel
        assert isinstance(panel, SignOffDialog)
        assert list(panel.marks.marks()) == told["marks"]
        assert panel.fields["person"].editor.text() == "K-05"
        assert panel.fields["task"].editor.text() == "hand-recovery"
        assert panel.fields["remarks"].editor.text() == REMARKS[:count]
        panel.done(0)


@pytest.mark.parametrize("statement", STATEMENTS)
def test_a_program_that_is_killed_while_it_saves_leaves_the_sortie_whole_or_absent(
    statement: int, demo_record: Path
) -> None:
    with Office.open(demo_record, clock) as office:
        last = flying.flown(office, LAST)
        assert last is not None
        draft = SortieBook(snapshot.take(office)).again(last, FLYING)
    drafts = Drafts(drafts_folder(demo_record))
    drafts.save(DRAFT, draft.plain())
    (told,) = started(demo_record, "save", statement)
    assert told["restored"] == draft.plain()
    with Office.open(demo_record, clock) as office:
        assert keeping.verify(office) == ()
        made = flying.flown(office, NEXT)
    assert (made is not None) == (statement == -2)
    assert made is None or len(made.performances) == len(draft.tasks)
    assert drafts.load(DRAFT) == draft.plain()
