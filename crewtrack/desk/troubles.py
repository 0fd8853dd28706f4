"""What went wrong, told in a sentence in the window and never as a traceback."""

import errno
import sys
from traceback import extract_tb
from types import TracebackType

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QMessageBox, QWidget

from crewtrack.errors import RecordUnusable, Refused
from crewtrack.office.defects import written_down
from crewtrack.screens.language import say, told
from crewtrack.screens.window_words import fault_told_here, told_here


def trouble_told(error: BaseException) -> str:
    """An error as a sentence: what a person gave, what the system refused, or a defect."""
    match error:
        case Refused():
            return "\n".join(map(fault_told_here, error.faults))
        case RecordUnusable():
            return told_here(*error.args)
        case OSError() if error.filename or error.errno == errno.ENOSPC:
            where = f"{error.filename}: " if error.filename else ""
            return f"{where}{(error.strerror or str(error)).lower()}"
        case _:
            defect = say("This is a defect of the program, not of what you gave it: {name}.",
                         name=type(error).__name__)  # fmt: skip
            return f"{defect} {told(written_down(error))}"


class DefectTeller:
    """In the place of ``sys.excepthook``: tells an error that nobody expected in a panel, since
    nobody at a window sees what goes to a stream. One that comes again is told once, or a timer
    would bring a panel every second."""

    def __init__(self) -> None:
        self._told: set[tuple[str, str, int | None]] = set()

    def __call__(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Tell it."""
        if not isinstance(error, Exception):
            sys.__excepthook__(kind, error, trace)
            return
        at = extract_tb(trace)[-1:]
        one = (kind.__name__, at[0].filename if at else "", at[0].lineno if at else None)
        if one not in self._told:
            self._told.add(one)
            show_sentence(QApplication.activeWindow(), trouble_told(error))


def show_trouble(parent: QWidget | None, title: str, error: BaseException) -> None:
    """Tell an error in a panel; what was typed stays as it is."""
    show_sentence(parent, trouble_told(error), title)


def show_sentence(parent: QWidget | None, told: str, title: str = "crewtrack") -> None:
    """Tell a sentence in a panel."""
    box = QMessageBox(QMessageBox.Icon.NoIcon, title, told, parent=parent)
    box.setAccessibleName(title)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.exec()
    box.deleteLater()
