"""Lines of text under headings, that can be selected and read aloud."""

from collections.abc import Sequence
from html import escape

from PySide6.QtWidgets import QTextBrowser, QWidget

from crewtrack.desk.theme import Theme
from crewtrack.screens.standard_page_lines import Line


class LinesPanel(QTextBrowser):
    """Shows lines as a page of text."""

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self.setAccessibleName(name)
        self.setOpenLinks(False)
        self.setTabChangesFocus(True)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines, from the first one on; the same ones stay where they are."""
        text = "".join(map(self._paragraph, lines))
        if text != self.property("shown"):
            self.setProperty("shown", text)
            self.setHtml(text)

    def _paragraph(self, line: Line) -> str:
        unit, shades = self._theme.line(), self._theme.shades
        ink = shades.quiet if line.kind == "beside" else shades.text
        above = {"heading": unit, "title": unit * 2 // 3}.get(line.kind, unit // 6)
        size = ";font-size:large" if line.kind == "heading" else ""
        weight = ";font-weight:bold" if line.kind in ("heading", "title") else ""
        style = f"margin:{above}px 0 0 {line.depth * unit}px;color:{ink}{size}{weight}"
        return f'<p style="{style}">{escape(line.text)}</p>'
