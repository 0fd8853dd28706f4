"""Python's collector of cycles, on the screen's thread alone.

Left to itself it runs on whatever thread makes the next object: there it would take what is left
of windows apart while Qt works on them, and the program would end or stand still.
"""

import gc
from typing import Final

from PySide6.QtCore import QObject, QTimer

_LOOK_MS: Final = 1_000


class Collector(QObject):
    """While there is one, cycles are collected from a timer of its own, and never by themselves."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        gc.disable()
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.look)
        self._timer.start(_LOOK_MS)

    def look(self) -> None:
        """Collect as many generations as Python itself would by now."""
        due = [
            generation
            for generation, (count, most) in enumerate(
                zip(gc.get_count(), gc.get_threshold(), strict=True)
            )
            if 0 < most < count
        ]
        if due:
            gc.collect(due[-1])

    def end(self) -> None:
        """Leave it to Python again."""
        self._timer.stop()
        gc.enable()
