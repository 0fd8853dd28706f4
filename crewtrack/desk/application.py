"""The desktop program: one application, any number of windows."""

import sys
from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLocale, QTimer
from PySide6.QtWidgets import QApplication

from crewtrack.desk import theme as themes
from crewtrack.desk.collector import Collector
from crewtrack.desk.languages import speak
from crewtrack.desk.settings import Settings
from crewtrack.desk.troubles import DefectTeller
from crewtrack.desk.window import NAME, Window
from crewtrack.office.unnamed import default_record, named_record
from crewtrack.screens.language import say


class Desk:
    """The windows that are open, and how another comes to be."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings
        self.windows: list[Window] = []

    def open_window(self, record: Path | None) -> None:
        """Show a window at once; the record is read once the window has been painted. Without a
        record, the one that the environment names is opened, else the last one, else the one in
        the user's data folder; where there is none, the window offers to open or make one."""
        window = Window(self._settings, self.open_window)
        window.destroyed.connect(lambda: self.windows.remove(window))
        self.windows.append(window)
        window.show()
        QTimer.singleShot(0, lambda: self._fill(window, record))

    def _fill(self, window: Window, record: Path | None) -> None:
        last = next((Path(name) for name in self._settings.recent), None)
        own = default_record()
        asked = record or named_record()
        if asked is not None:
            window.open_record(asked)
        elif last is not None and last.exists():
            window.open_record(last)
        elif last is None and own.exists():
            window.open_record(own)
        else:
            window.offer("" if last is None else _gone(last))


def _gone(record: Path) -> str:
    return say(
        "{record}, open here last, is not there now: it was moved, or its drive is not connected.",
        record=record,
    )


def run(record: Path | None, arguments: Sequence[str] = ()) -> int:
    """Open the desk on a record (None: the last one, or an offer to make one); the exit code."""
    application = QApplication([sys.argv[0], *arguments])
    application.setApplicationName(NAME)
    application.setQuitOnLastWindowClosed(True)
    sys.excepthook = DefectTeller()
    collector = Collector(application)
    settings = Settings()
    speak(settings.language or QLocale.system().name())
    themes.load_fonts()
    themes.apply(application, themes.Theme(themes.wants_dark(settings.theme), settings.scale))
    Desk(settings).open_window(record)
    code = application.exec()
    QCoreApplication.processEvents()
    collector.end()
    return code
