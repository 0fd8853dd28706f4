"""The pictures in README.md, made from the demonstration, the same every time.

``python -m tests.pictures`` writes them into ``assets``.
"""

import os
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtWidgets import QApplication

from crewtrack.desk import theme as themes
from crewtrack.desk.board_page import BoardPage
from crewtrack.desk.pages import BOARD, SORTIES
from crewtrack.desk.settings import Settings
from crewtrack.desk.shell import Shell
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.desk.workspace import Workspace
from crewtrack.office import demonstration, snapshot
from crewtrack.office.office import Office

DAY = date(2026, 11, 25)
NOON = datetime(2026, 11, 25, 17, 0, tzinfo=UTC)
SIZE = (1360, 900)
ASSETS = Path(__file__).resolve().parents[1] / "assets"


@contextmanager
def shown(folder: Path, theme: Theme) -> Iterator[tuple[Shell, Workspace]]:
    """A window on the demonstration, as it is at noon of the day it was made for."""
    record = demonstration.make(folder, DAY)
    with Office.open(record, lambda: NOON) as office:
        state = State(office, snapshot.take(office), "Θεοδώρα Καραμήτρου")
        shell = Shell(Settings(folder / "desk.ini"), lambda _: None)
        workspace = Workspace(shell, state, theme)
        shell.setCentralWidget(workspace)
        shell.resize(*SIZE)
        shell.show()
        yield shell, workspace
        state.close()
        shell.close()


def board(workspace: Workspace) -> None:
    """The board, with a lapsed cell opened."""
    workspace.go_to_page(BOARD)
    page = workspace.pages.page(BOARD)
    assert isinstance(page, BoardPage)
    page.show_cell("K-06", "deck-pilot")


def sortie(workspace: Workspace) -> None:
    """A sortie in its form, with the deck picture."""
    workspace.go_to_page(SORTIES)
    workspace.show_sortie("261121-8")


PICTURES: dict[str, Callable[[Workspace], None]] = {"board": board, "sortie": sortie}


def main() -> None:
    """Make all pictures, light and dark."""
    application = QApplication(sys.argv[:1])
    themes.load_fonts()
    for dark in (False, True):
        theme = Theme(dark)
        themes.apply(application, theme)
        folder = Path(tempfile.mkdtemp())
        with shown(folder, theme) as (shell, workspace):
            for name, show in PICTURES.items():
                show(workspace)
                for _ in range(10):
                    application.processEvents()
                made = ASSETS / f"{name}{'-dark' if dark else ''}.png"
                shell.grab().save(str(made))
        shutil.rmtree(folder)


if __name__ == "__main__":
    main()
