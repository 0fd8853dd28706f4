"""Everything in a window or a panel out of sight, and back again as it was."""

import shiboken6
from PySide6.QtWidgets import QWidget

from crewtrack.screens.language import say


class Veil:
    """Hides what stands in ``top``, from eyes and from whoever has it read aloud. The window or
    panel itself stays where it is: to hide a panel that somebody waits for would end it."""

    def __init__(self, top: QWidget) -> None:
        self.top = top
        self._focus: QWidget | None = top.focusWidget()
        self._title = top.windowTitle()
        self._shown = [
            child
            for child in top.children()
            if isinstance(child, QWidget) and not child.isWindow() and not child.isHidden()
        ]
        forget = getattr(top, "veiled", None)
        if forget is not None:
            forget()
        top.setWindowTitle(say("Locked"))
        for child in self._shown:
            child.hide()

    def lift(self) -> None:
        """Show it again, with the keys where they were."""
        if not shiboken6.isValid(self.top):
            return  # it has ended meanwhile
        self.top.setWindowTitle(self._title)
        for child in self._shown:
            if shiboken6.isValid(child):
                child.show()
        if self._focus is not None and shiboken6.isValid(self._focus):
            self._focus.setFocus()
