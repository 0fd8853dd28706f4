"""What a window remembers: shape, text size, paper, theme, language; nothing that changes an
answer."""

from pathlib import Path
from typing import TYPE_CHECKING, Final

import platformdirs
from PySide6.QtCore import QByteArray, QSettings

if TYPE_CHECKING:
    from crewtrack.prints.sheet import PaperName

SCALES: Final = (1.0, 1.25, 1.5, 2.0)
THEMES: Final = ("system", "light", "dark")
PAPERS: Final[tuple["PaperName", ...]] = ("A4", "letter")
LOCK_MINUTES: Final = (5, 10, 15, 30, 60, 0)
"""After how long a window may lock by itself; 0 for never."""
_LOCK_USUAL: Final = 15
_MOST_RECENT: Final = 8


def settings_file() -> Path:
    """Where the settings lie, in the user's own folder."""
    return platformdirs.user_config_path("crewtrack", appauthor=False) / "desk.ini"


class Settings:
    """The settings, each read and kept at once. A value that can't be used is as good as none."""

    def __init__(self, file: Path | None = None) -> None:
        self._kept = QSettings(str(file or settings_file()), QSettings.Format.IniFormat)

    @property
    def scale(self) -> float:
        """How large text is, 1.0 for the usual size."""
        try:
            scale = float(self._text("scale", "1"))
        except ValueError:
            return SCALES[0]
        return scale if scale in SCALES else SCALES[0]

    @scale.setter
    def scale(self, scale: float) -> None:
        self._kept.setValue("scale", str(scale))

    @property
    def theme(self) -> str:
        """One of ``THEMES``."""
        return self._one_of("theme", THEMES)

    @theme.setter
    def theme(self, theme: str) -> None:
        self._kept.setValue("theme", theme)

    @property
    def language(self) -> str:
        """The name of a language, empty for the system's."""
        return self._text("language", "")

    @language.setter
    def language(self, language: str) -> None:
        self._kept.setValue("language", language)

    @property
    def paper(self) -> "PaperName":
        """What prints are made for."""
        found = self._one_of("paper", PAPERS)
        return "letter" if found == "letter" else "A4"

    @paper.setter
    def paper(self, paper: "PaperName") -> None:
        self._kept.setValue("paper", paper)

    @property
    def author(self) -> str:
        """Who answers for what is done at this desk; empty for the login name."""
        return self._text("author", "")

    @author.setter
    def author(self, author: str) -> None:
        self._kept.setValue("author", author)

    @property
    def person(self) -> str:
        """The key of the person who signed in at this desk last; empty for nobody."""
        return self._text("person", "")

    @person.setter
    def person(self, person: str) -> None:
        self._kept.setValue("person", person)

    @property
    def lock_minutes(self) -> int:
        """One of ``LOCK_MINUTES``."""
        found = self._text("lock_minutes", str(_LOCK_USUAL))
        return next((one for one in LOCK_MINUTES if str(one) == found), _LOCK_USUAL)

    @lock_minutes.setter
    def lock_minutes(self, minutes: int) -> None:
        self._kept.setValue("lock_minutes", str(minutes))

    @property
    def recent(self) -> tuple[str, ...]:
        """The records that were open, the last one first."""
        found = self._kept.value("recent", [])
        names = found if isinstance(found, list) else [found]
        return tuple(str(name) for name in names if name)

    def opened(self, record: Path) -> None:
        """Remember a record as the last one that was open."""
        name = str(record.absolute())
        rest = [other for other in self.recent if other != name]
        self._kept.setValue("recent", [name, *rest][:_MOST_RECENT])

    def shape(self, name: str) -> QByteArray:
        """The saved shape of a window or splitter; empty where none is."""
        found = self._kept.value(f"shape/{name}")
        return found if isinstance(found, QByteArray) else QByteArray()

    def keep_shape(self, name: str, shape: QByteArray) -> None:
        """Remember the shape of a window or splitter."""
        self._kept.setValue(f"shape/{name}", shape)

    def _text(self, name: str, otherwise: str) -> str:
        return str(self._kept.value(name, otherwise) or otherwise)

    def _one_of(self, name: str, options: tuple[str, ...]) -> str:
        found = self._text(name, options[0])
        return found if found in options else options[0]
