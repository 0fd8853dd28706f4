"""What the parts of a window know of it: settings, other windows, and how to dress anew."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QMainWindow

from crewtrack.desk.settings import Settings


class Shell(QMainWindow):
    """A window without anything in it. ``another`` opens a second one, on a record or on none;
    ``wear`` asks to be shown anew in the look and the language of the settings."""

    wear = Signal()

    def __init__(self, settings: Settings, another: Callable[[Path | None], None]) -> None:
        super().__init__()
        self.settings = settings
        self.another = another
