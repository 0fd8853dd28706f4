"""The real program in a process of its own, typed into from within, and killed where it stands.

``python -m tests.desk.driven RECORD DEED NUMBER`` starts the desk on a record as anybody would;
what is done then is told by the deed, one line of JSON for each thing that a test waits for.
"""

import json
import os
import signal
import sys
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any, Final, NoReturn

import sqlalchemy
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest

from crewtrack.desk import application, signoff_dialog, sortie_page
from crewtrack.desk.drafts import Drafts, drafts_folder
from crewtrack.desk.pages import PEOPLE, SORTIES
from crewtrack.desk.people_page import PeoplePage
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.window import Window
from crewtrack.office.office import Office
from tests.desk.conftest import clock, filled
from tests.desk.sorties import CTRL, Keys, focused

FIELDS: Final = (
    "B-2", "A-1", "2026-11-21", "1500", "11", "live, from a boat", "47 07.2 N", "88 36.0 W",
    "under way", "2", "240/14", "60", "4.5", "090/1.2", "training", "K-08", "K-05", "K-07", "K-01",
)  # fmt: skip
"""What is typed into the form from the boat on, with a Tab after each."""
KEYS: Final = sum(len(text) + 1 for text in FIELDS)
REMARKS: Final = "Held well, a little late on the flare."

Steps = Iterator[None]
"""Between two steps the program does whatever else it has to do."""


def tell(**told: Any) -> None:
    """One line for whoever waits."""
    sys.stdout.write(f"{json.dumps(told)}\n")
    sys.stdout.flush()


def killed() -> NoReturn:
    """End as after a power cut: nothing is said, saved or closed."""
    os.kill(os.getpid(), getattr(signal, "SIGKILL", signal.SIGTERM))
    raise AssertionError


def press(count: int) -> Iterator[Callable[[], None]]:
    """The first so many keys of the form."""
    keys, left = Keys(), count
    for text in FIELDS:
        for mark in text[:left]:
            yield partial(keys.text, mark)
        left -= len(text)
        if left <= 0:
            return
        yield partial(keys.key, Qt.Key.Key_Tab)
        left -= 1


def type_sortie(window: Window, count: int) -> Steps:
    """Type some keys, wait until all of that is on disk, type a few more and be killed."""
    page = sorties_page(window)
    yield
    page.log.table.setFocus()
    Keys().key(Qt.Key.Key_N, CTRL)
    for number, pressed in enumerate(press(count + 5)):
        if number == count:
            while kept(window, sortie_page.DRAFT) != page.form.draft.plain():
                yield
        pressed()
        if number >= count - 1:
            tell(typed=page.form.draft.plain())
    killed()


def sign_off(window: Window, count: int) -> Steps:
    """The same with a sign-off: some criteria marked, and part of the remarks."""
    people_page(window).start_sign_off("K-05", "hand-recovery", "")
    panel = people_page(window).acts.panel
    assert isinstance(panel, signoff_dialog.SignOffDialog)
    yield
    for button in panel.marks.buttons[:2]:
        button.setFocus()
        QTest.keyClick(button, Qt.Key.Key_Space)
    remarks = panel.fields["remarks"].editor
    remarks.setFocus()
    for mark in REMARKS[:count]:
        QTest.keyClicks(focused(), mark)
    while (kept(window, signoff_dialog.DRAFT) or {}).get("remarks") != REMARKS[:count]:
        yield
    tell(marks=panel.marks.marks())
    killed()


def save(window: Window, at: int) -> Steps:
    """Go on with the draft, save it, and be killed at one of the act's statements: 0 is the first,
    -1 when it is about to be committed, -2 when that is done."""
    page = sorties_page(window)
    while not page.log.offer.isVisible():
        yield
    QTest.mouseClick(page.log.offer.take, Qt.MouseButton.LeftButton)
    tell(restored=page.form.draft.plain())
    _be_killed(at)
    Keys().key(Qt.Key.Key_S, CTRL)
    killed()


def _be_killed(at: int) -> None:
    whole = sqlalchemy.Connection.exec_driver_sql
    acting: list[str] = []

    def counted(connection: sqlalchemy.Connection, sql: str, *given: Any) -> Any:
        if acting or sql == "BEGIN IMMEDIATE":
            acting.append(sql)
            if len(acting) - 2 == at or (sql == "COMMIT" and at == -1):
                killed()
        result = whole(connection, sql, *given)
        if sql == "COMMIT":
            killed()
        return result

    sqlalchemy.Connection.exec_driver_sql = counted  # type: ignore[assignment,method-assign] # to be killed in


def sorties_page(window: Window) -> SortiesPage:
    """The page of sorties, in front."""
    assert window.workspace is not None
    window.workspace.go_to_page(SORTIES)
    page = window.workspace.pages.page(SORTIES)
    assert isinstance(page, SortiesPage)
    return page


def people_page(window: Window) -> PeoplePage:
    """The page of people, in front."""
    assert window.workspace is not None
    window.workspace.go_to_page(PEOPLE)
    page = window.workspace.pages.page(PEOPLE)
    assert isinstance(page, PeoplePage)
    return page


def kept(window: Window, name: str) -> dict[str, Any] | None:
    """The draft that is on disk."""
    assert window.state is not None
    return Drafts(drafts_folder(Path(window.state.office.record.path))).load(name)


DEEDS: Final[dict[str, Callable[[Window, int], Steps]]] = {
    "type": type_sortie,
    "sign": sign_off,
    "save": save,
}


def main(record: Path, deed: str, number: int) -> int:
    """Start the program; its exit code, if it comes to that."""
    timer = QTimer()
    Office.open.__func__.__defaults__ = (clock,)  # type: ignore[attr-defined] # what a classmethod wraps
    opened = application.Desk.open_window

    def open_window(self: application.Desk, record: Path | None) -> None:
        opened(self, record)
        window = self.windows[-1]
        steps = _steps(window, deed, number)
        timer.timeout.connect(lambda: next(steps))
        timer.start(5)

    application.Desk.open_window = open_window  # type: ignore[method-assign] # to be driven
    return application.run(record)


def _steps(window: Window, deed: str, number: int) -> Steps:
    while not filled(window):
        yield
    window.activateWindow()
    yield from DEEDS[deed](window, number)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])))
