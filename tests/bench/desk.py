"""How fast the desk is: ``python -m tests.bench.desk [PERFORMANCES]``.

Everything is done in one process, offscreen, on copies of the demonstration and of a long history.
Prints milliseconds and, beside them, the ratio to a loop of a hundred thousand additions run just
before and after, so that figures from a busy or a slow machine can be told from those of a change.
All is measured until it is painted. Of a long history, "sortie saved" is the time until the form
says so: the screen is alive meanwhile.
"""

import gc
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import timedelta
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from crewtrack.desk import theme as themes
from crewtrack.desk.pages import BOARD, SORTIES
from crewtrack.desk.settings import Settings
from crewtrack.desk.sorties_page import SortiesPage
from crewtrack.desk.window import Window
from tests.bench.long_history import write
from tests.bench.speed import CREWTRACK

DAYS = 20
_QUIET = 30
"""So many rounds without anything to do, and the desk is at rest."""

Seconds = tuple[float, float]
"""Of what was measured, and of the loop around it."""


def _loop() -> float:
    start = time.perf_counter()
    total = 0
    for number in range(100_000):
        total += number
    return time.perf_counter() - start


def _taken(what: Callable[[], object]) -> Seconds:
    """What something takes until it is painted."""
    loops = [_loop() for _ in range(5)]
    start = time.perf_counter()
    what()
    QApplication.processEvents()
    taken = time.perf_counter() - start
    return taken, median([*loops, *(_loop() for _ in range(5))])


def _report(what: str, taken: Sequence[Seconds]) -> None:
    seconds, loops = median(one for one, _ in taken), median(loop for _, loop in taken)
    most = max(one for one, _ in taken)
    print(
        f"{what:46} {seconds * 1e3:8.1f} ms {seconds / loops:8.1f} loops, at most {most * 1e3:.1f}",
        flush=True,
    )


def _until(done: Callable[[], bool]) -> None:
    while not done():
        QApplication.processEvents()
        time.sleep(0.001)


def _at_rest() -> None:
    quiet = 0
    while quiet < _QUIET:
        start = time.perf_counter()
        QApplication.processEvents()
        quiet = quiet + 1 if time.perf_counter() - start < 0.005 else 0
        time.sleep(0.002)


@contextmanager
def _window(folder: Path, record: Path, name: str) -> Iterator[Window]:
    """A window, painted and then filled."""
    made: list[Window] = []

    def paint() -> None:
        made.append(Window(Settings(folder / "desk.ini"), lambda _: None))
        made[0].resize(1360, 900)
        made[0].show()

    _report(f"{name}: window painted", [_taken(paint)])
    (window,) = made

    def fill() -> None:
        window.open_record(record)
        _until(lambda: window.workspace is not None)

    _report(f"{name}: filled, reading included", [_taken(fill)])
    _at_rest()
    yield window
    window.close()
    QApplication.processEvents()


def _days(window: Window, name: str) -> None:
    state = window.state
    assert state is not None
    today = state.day
    days = [today - timedelta(days=7 * number + 1) for number in range(DAYS)]
    taken = [_taken(partial(state.go_to, day)) for day in days]
    _report(f"{name}: day change, board shown", taken)
    state.go_to(today)
    _at_rest()


def _sorties(window: Window, name: str) -> None:
    workspace, state = window.workspace, window.state
    assert workspace is not None
    assert state is not None
    _report(f"{name}: log shown first", [_taken(lambda: workspace.go_to_page(SORTIES))])
    _at_rest()
    page = workspace.pages.page(SORTIES)
    assert isinstance(page, SortiesPage)
    _report(
        f"{name}: log sorted by minutes",
        [_taken(lambda: page.log.table.sortByColumn(5, Qt.SortOrder.AscendingOrder))],
    )
    _at_rest()
    _report(f"{name}: form opened, same again", [_taken(page.again)])
    editor = page.form.first.fields["minutes"].editor
    typed = [_taken(partial(editor.set_text, str(number))) for number in range(9, 15)]
    _report(f"{name}: a field edited", typed)
    page.form.draft = page.form.draft.with_text("time", "2301")
    before = state.snapshot
    _report(f"{name}: sortie saved", [_taken(page.form.save)])
    if page.stack.currentWidget() is not page.after:
        raise SystemExit("the sortie was not saved")
    _report(
        f"{name}: and read anew", [_taken(lambda: _until(lambda: state.snapshot is not before))]
    )
    workspace.go_to_page(BOARD)
    _at_rest()


def _measured(folder: Path, record: Path, name: str) -> None:
    with _window(folder, record, name) as window:
        _days(window, name)
        _sorties(window, name)


def main(performances: int) -> None:
    """Generate, measure, print."""
    with TemporaryDirectory() as made:
        folder = Path(made)
        for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"):
            os.environ[name] = str(folder / name)
        demo, long = folder / "demo" / "tamarack-harbor.crewtrack", folder / "long.crewtrack"
        write(folder / "long", performances)
        for arguments in (
            ("demo", str(folder / "demo")),
            ("--db", str(long), "init", "--standard", str(folder / "long" / "standard.toml")),
            ("--db", str(long), "import", str(folder / "long")),
        ):
            subprocess.run((*CREWTRACK, *arguments), check=True, stdout=subprocess.DEVNULL)
        gc.set_threshold(100_000)  # as the program has it
        application = QApplication([])
        themes.load_fonts()
        themes.apply(application, themes.Theme())
        _measured(folder, demo, "demonstration")
        _measured(folder, long, "long history")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500_000)
