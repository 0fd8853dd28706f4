"""Colours, fonts and sizes of every widget; all of them come from here."""

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontMetrics, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from crewtrack.desk.plain_style import PlainStyle
from crewtrack.desk.style_sheet import style_sheet
from crewtrack.screens.shades import DARK, LIGHT, Shades

FAMILY: Final = "Roboto"
_POINTS: Final = 10.0
_FACES: Final = ("Regular", "Bold", "Italic")
_WORN: Final = "worn"
"""What the program keeps the look under that it wears."""


@dataclass(frozen=True, slots=True)
class Theme:
    """One look: light or dark, at a size of text (1.0 for the usual one)."""

    dark: bool = False
    scale: float = 1.0

    @property
    def shades(self) -> Shades:
        """The colours."""
        return DARK if self.dark else LIGHT

    def colour(self, shade: str) -> QColor:
        """A shade as a colour."""
        return QColor(shade)

    def font(self, size: float = 1.0, bold: bool = False) -> QFont:
        """The typeface, ``size`` times as large as the text around."""
        font = QFont(FAMILY)
        font.setPointSizeF(_POINTS * self.scale * size)
        font.setBold(bold)
        return font

    def line(self) -> int:
        """The height of one line of text, in pixels: what all other sizes are told in."""
        return QFontMetrics(self.font()).lineSpacing()


def wants_dark(setting: str) -> bool:
    """Whether a theme's name asks for dark; ``system`` as the desktop has it."""
    if setting == "system":
        hints = QGuiApplication.styleHints()
        return hints.colorScheme() == Qt.ColorScheme.Dark
    return setting == "dark"


@cache
def load_fonts() -> None:
    """Make the typeface known to the screen; where it is missing, the system's own serves."""
    folder = files("font_roboto").joinpath("files")
    for name in _FACES:
        face = folder.joinpath(f"Roboto-{name}.ttf")
        if face.is_file():
            QFontDatabase.addApplicationFontFromData(face.read_bytes())


def apply(application: QApplication, theme: Theme) -> None:
    """Give the whole program a look; one that it wears already is not put on again, since every
    widget there is would be dressed anew."""
    if application.property(_WORN) == repr(theme):
        return
    application.setProperty(_WORN, repr(theme))
    application.setStyle(PlainStyle(theme.shades, theme.line()))
    application.setFont(theme.font())
    application.setPalette(_palette(theme.shades))
    application.setStyleSheet(style_sheet(theme.shades, theme.line()))


def _palette(shades: Shades) -> QPalette:
    role = QPalette.ColorRole
    palette = QPalette()
    for name, shade in (
        (role.Window, shades.window),
        (role.WindowText, shades.text),
        (role.Base, shades.field),
        (role.AlternateBase, shades.panel),
        (role.Text, shades.text),
        (role.PlaceholderText, shades.quiet),
        (role.Button, shades.panel),
        (role.ButtonText, shades.text),
        (role.BrightText, shades.fault),
        (role.Highlight, shades.selected),
        (role.HighlightedText, shades.on_selected),
        (role.ToolTipBase, shades.panel),
        (role.ToolTipText, shades.text),
        (role.Link, shades.accent),
        (role.LinkVisited, shades.accent),
        (role.Accent, shades.accent),
        (role.Light, shades.panel),
        (role.Midlight, shades.rule),
        (role.Mid, shades.rule),
        (role.Dark, shades.strong_rule),
        (role.Shadow, shades.strong_rule),
    ):
        palette.setColor(name, QColor(shade))
    for name in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, name, QColor(shades.quiet))
    return palette
