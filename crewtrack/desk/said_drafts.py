"""What is being reported, disputed or answered, kept on disk while it is typed."""

from collections.abc import Callable, Mapping
from typing import Final

from PySide6.QtCore import QObject

from crewtrack.desk.drafts import Drafts
from crewtrack.desk.single_shot import single_shot

NAME: Final = "said"
"""The name under which all of them are kept together."""
_KEEP_MS: Final = 1000


class KeptTexts(QObject):
    """The texts of one form, by what it is about: many may wait, since a form for another entry
    may be opened after a crash. ``typed`` says what is in the form now, None for nothing."""

    def __init__(
        self,
        drafts: Drafts,
        about: str,
        typed: Callable[[], Mapping[str, str] | None],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._drafts = drafts
        self._about = about
        self._typed = typed
        self._timer = single_shot(self, _KEEP_MS, self.keep)

    def found(self) -> Mapping[str, str]:
        """What was kept; empty for nothing."""
        kept = (self._drafts.load(NAME) or {}).get(self._about)
        return {str(n): str(text) for n, text in kept.items()} if isinstance(kept, dict) else {}

    def edited(self) -> None:
        """Keep what was typed, soon."""
        if not self._timer.isActive():
            self._timer.start()

    def keep(self) -> None:
        """Keep what was typed, now."""
        typed = self._typed()
        if typed is not None:
            self._drafts.save(NAME, {**self._others(), self._about: dict(typed)})

    def drop(self) -> None:
        """It was saved or given up."""
        self._timer.stop()
        others = self._others()
        if others:
            self._drafts.save(NAME, others)
        else:
            self._drafts.drop(NAME)

    def _others(self) -> dict[str, object]:
        kept = self._drafts.load(NAME) or {}
        return {about: texts for about, texts in kept.items() if about != self._about}
