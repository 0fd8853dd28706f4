"""What the parts of a window know of it: settings, other windows, and how to dress anew."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QMainWindow

from crewtrack.desk import theme as themes
from crewtrack.desk.settings import Settings
from crewtrack.desk.theme import Theme


class Shell(QMainWindow):
    """A window without anything in it. ``another`` opens a second one, on a record or on none;
    ``wear`` asks to be shown anew in the look and the language of the settings. ``locking`` and
    ``signing_out`` are asked for by whoever is signed in, ``idle_chosen`` says that the window is
    to lock by itself after another time."""

    wear = Signal()
    locking = Signal()
    signing_out = Signal()
    idle_chosen = Signal()

    def __init__(self, settings: Settings, another: Callable[[Path | None], None]) -> None:
        super().__init__()
        self.settings = settings
        self.another = another

    @property
    def theme(self) -> Theme:
        """The look that the settings ask for."""
        return Theme(themes.wants_dark(self.settings.theme), self.settings.scale)

    @property
    def shows_record(self) -> bool:
        """Whether the pages of a record are there, in sight or veiled."""
        return False

    def build(self) -> None:
        """Show the record to whoever acts."""
        raise NotImplementedError

    def clear(self) -> None:
        """Show nothing of the record any more, though it stays open."""
        raise NotImplementedError

    def keep_typed(self) -> str:
        """Keep what is being typed as drafts; says what that is, empty for nothing."""
        return ""

    def may_leave(self) -> bool:
        """Whether nothing is being typed, or whoever types agrees to leave it as a draft."""
        return True
