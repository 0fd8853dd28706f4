"""A panel over the window while long work goes on, with a way to call it off."""

from collections.abc import Callable
from typing import Any, Final

from PySide6.QtCore import QEventLoop, Qt, QTimer
from PySide6.QtGui import QCloseEvent, QKeyEvent
from PySide6.QtWidgets import QDialog, QLabel, QProgressBar, QPushButton, QVBoxLayout, QWidget

from crewtrack.desk.troubles import show_trouble
from crewtrack.desk.work import Cancelled, Progress, Work
from crewtrack.errors import NotBackedUp, Refused
from crewtrack.screens.language import number, say

_STEPS: Final = 1000


class ProgressDialog(QDialog):
    """What is being done, how far it is, and Cancel, or what ``stop`` calls it."""

    def __init__(
        self,
        title: str,
        function: Callable[[Progress], Any],
        parent: QWidget | None,
        stop: str = "",
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setModal(True)
        self.result_value: Any = None
        self.error: Exception | None = None
        self._told = QLabel(title)
        self._bar = QProgressBar()
        self._bar.setAccessibleName(title)
        self._bar.setRange(0, 0)
        self._cancel = QPushButton(stop or say("Cancel"))
        aloud = f"{stop}: {title}" if stop else say("Cancel: {what}", what=title)
        self._cancel.setAccessibleName(aloud)
        self._cancel.clicked.connect(self._call_off)
        layout = QVBoxLayout(self)
        layout.addWidget(self._told)
        layout.addWidget(self._bar)
        layout.addWidget(self._cancel, alignment=Qt.AlignmentFlag.AlignRight)
        self.setMinimumWidth(self.fontMetrics().averageCharWidth() * 50)
        self._ended = False
        self._work = Work(function, self)
        self._work.progress.connect(self._show)
        self._work.done.connect(self._finish)
        self._work.failed.connect(self._fail)

    def run(self, quiet_ms: int = 0) -> None:
        """Do the work; returns when it has ended one way or the other. The panel is not shown for
        what is over within ``quiet_ms``; keys and clicks wait meanwhile."""
        self._work.start()
        if quiet_ms:
            self._wait(quiet_ms)
        if not self._ended:
            self.exec()
        self._work.wait()

    def _wait(self, most_ms: int) -> None:
        loop = QEventLoop()
        timer = QTimer(singleShot=True)
        timer.timeout.connect(loop.quit)
        self.finished.connect(loop.quit)
        timer.start(most_ms)
        loop.exec(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)
        timer.stop()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape calls the work off; the panel goes when the work has stopped."""
        if event.key() == Qt.Key.Key_Escape:
            self._call_off()
        else:
            super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - Qt's name
        """Closing the panel calls the work off too."""
        self._call_off()
        event.ignore()

    def _call_off(self) -> None:
        self._work.cancel()
        self._cancel.setEnabled(False)
        self._told.setText(say("Stopping…"))

    def _show(self, what: str, done: int, total: int) -> None:
        if not self._cancel.isEnabled():
            return
        what = say(what)
        self._told.setText(say("{what}: {done} of {total}", what=what, done=number(done),
                               total=number(total)) if total else f"{what}…")  # fmt: skip
        self._bar.setRange(0, _STEPS if total else 0)
        self._bar.setValue(done * _STEPS // total if total else 0)

    def _finish(self, result: Any) -> None:
        self.result_value, self._ended = result, True
        self.done(QDialog.DialogCode.Accepted)

    def _fail(self, error: Exception) -> None:
        self.error, self._ended = error, True
        self.done(QDialog.DialogCode.Rejected)


def run_with_progress(
    parent: QWidget | None, title: str, function: Callable[[Progress], Any]
) -> Any | None:
    """Do long work under a panel. Returns what it returned; None where it was called off or
    failed, which is then told in a sentence. ``Refused`` goes through to the caller, who can
    show its faults in their places, and so does NotBackedUp, for the caller to ask."""
    dialog = ProgressDialog(title, function, parent)
    dialog.run()
    error, result = dialog.error, dialog.result_value
    dialog.deleteLater()
    if error is None:
        return result
    if isinstance(error, (Refused, NotBackedUp)):
        raise error
    if not isinstance(error, Cancelled):
        show_trouble(parent, title, error)
    return None
