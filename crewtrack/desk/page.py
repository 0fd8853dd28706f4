"""One page of the window: what all of them have in common."""

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QShowEvent
from PySide6.QtWidgets import QWidget

from crewtrack.desk import actions
from crewtrack.desk.state import State
from crewtrack.desk.theme import Theme
from crewtrack.screens.strip_days import StripDays


class Page(QWidget):
    """A page shows the state, and shows it anew when that has moved: at once where it is visible,
    else when it next is. It asks the window to open what belongs to another page."""

    open_person = Signal(str, str)
    """Person, qualification (empty for all)."""
    open_sortie = Signal(str)
    open_evidence = Signal(str, str, str)
    """Person, kind of evidence as ``engine.standings.Counted`` names it, key."""
    sign_off = Signal(str, str, str)
    """Person, task, sortie; each may be empty."""

    def __init__(self, state: State, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.theme = theme
        self._stale = True
        self.front: QWidget = self
        state.moved.connect(self._moved)

    def take_focus(self) -> None:
        """Put the keys on ``front``, what one uses first. It is no focus proxy of the page: with
        one, Tab would skip all that stands before it."""
        self.front.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def title(self) -> str:
        """The page's name."""
        raise NotImplementedError

    def show_state(self) -> None:
        """Show the state as it is."""
        raise NotImplementedError

    def page_actions(self) -> tuple[QAction, ...]:
        """All that can be done here, each with its key, in the order of the menu."""
        return ()

    def unsaved(self) -> str:
        """What would be lost if the window closed now, in words; empty for nothing."""
        return ""

    def show_days(self, days: StripDays) -> None:
        """The days that the day line shows, for pages that draw along them."""

    def show_person(self, person: str, qualification: str) -> None:
        """Open a person's books, where this is the page that has them."""

    def show_evidence(self, kind: str, key: str) -> None:
        """Open a piece of evidence of the person who is shown, where this page has it."""

    def show_sortie(self, key: str) -> None:
        """Open a sortie, where this is the page that has them."""

    def start_sign_off(self, person: str, task: str, sortie: str) -> None:
        """Open the form for signing off, where this is the page that has it."""

    def action(self, text: str, key: str, tip: str, slot: Callable[[], object]) -> QAction:
        """An action of this page: its name, its key, and one plain sentence on what it does.

        Its key works in the whole window while the page is shown, so also from the day line; one
        that is pressed alone, such as Escape, only within the page: elsewhere it has a meaning
        of its own.
        """
        action = actions.made(self, text, key, tip, slot)
        if "+" not in key:
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self.addAction(action)
        return action

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Show what has moved while the page was out of sight."""
        super().showEvent(event)
        if self._stale:
            self._stale = False
            self.show_state()

    def _moved(self) -> None:
        if self.isVisible():
            self._stale = False
            self.show_state()
        else:
            self._stale = True
