"""What is put off for a moment, so that typing is not held up by it."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer


def single_shot(parent: QObject, wait: int, slot: Callable[[], None]) -> QTimer:
    """A timer that calls once, so many milliseconds after its last start."""
    timer = QTimer(parent)
    timer.setSingleShot(True)
    timer.setInterval(wait)
    timer.timeout.connect(slot)
    return timer
