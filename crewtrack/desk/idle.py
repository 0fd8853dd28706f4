"""Notices that nobody has touched a key or the mouse for a while."""

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Signal

from crewtrack.desk.single_shot import single_shot

_TOUCHES = frozenset(
    {
        QEvent.Type.KeyPress,
        QEvent.Type.MouseButtonPress,
        QEvent.Type.MouseMove,
        QEvent.Type.Wheel,
        QEvent.Type.TouchBegin,
        QEvent.Type.TabletMove,
        QEvent.Type.InputMethod,
    }
)


class Idle(QObject):
    """``left_alone`` comes once after so many minutes in which nothing was touched in any window
    of the program; never where they are 0."""

    left_alone = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._watching = False
        self.timer = single_shot(self, 0, self.left_alone.emit)

    def watch(self, minutes: int) -> None:
        """Begin to count, so many minutes from now on."""
        self.timer.setInterval(minutes * 60_000)
        if minutes:
            self.timer.start()
            self._listen(True)
        else:
            self.stop()

    def stop(self) -> None:
        """Count no longer."""
        self.timer.stop()
        self._listen(False)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Anything that a person does begins the time anew; nothing is kept from anybody."""
        if event.type() in _TOUCHES:
            self.timer.start()
        return False

    def _listen(self, wanted: bool) -> None:
        application = QCoreApplication.instance()
        if application is None or wanted == self._watching:
            return
        self._watching = wanted
        if wanted:
            application.installEventFilter(self)
        else:
            application.removeEventFilter(self)
