"""The backup on closing a window: it may be skipped, and whatever becomes of it, the window
closes."""

from typing import Final

from PySide6.QtWidgets import QWidget

from crewtrack.desk.progress_dialog import ProgressDialog
from crewtrack.desk.troubles import show_sentence, trouble_told
from crewtrack.desk.work import Cancelled
from crewtrack.office import safekeeping
from crewtrack.office.office import Office
from crewtrack.office.safekeeping import Taken
from crewtrack.screens.backup_words import stuck_told
from crewtrack.screens.language import say

_QUIET_MS: Final = 400
"""A panel that comes and goes within so long is nothing but a flicker."""


def back_up(parent: QWidget, office: Office) -> None:
    """Take a backup where the record changed since the last one; what goes wrong is told."""
    title = say("Backing up")
    panel = ProgressDialog(
        title, lambda progress: safekeeping.on_closing(office, progress), parent, say("Skip")
    )
    panel.run(_QUIET_MS)
    error, done = panel.error, panel.result_value
    panel.deleteLater()
    if error is not None and not isinstance(error, Cancelled):
        told = say("There is no backup of this closing: {why}", why=trouble_told(error))
        show_sentence(parent, told, title)
    if isinstance(done, Taken) and done.stuck:
        show_sentence(parent, stuck_told(done), title)
