"""Why somebody stands where they stand, in words that can be selected; evidence opens from it."""

from collections.abc import Iterator, Sequence
from html import escape
from urllib.parse import quote, unquote

from PySide6.QtCore import QUrl, Signal
from PySide6.QtWidgets import QTextBrowser, QWidget

from crewtrack.desk.theme import Theme
from crewtrack.engine.standings import Word
from crewtrack.screens.language import say
from crewtrack.screens.reasons_words import Said

MET, NOT_MET = "✔", "✖"


class ReasonsPanel(QTextBrowser):
    """``evidence_opened`` tells the kind and the key of a piece of evidence."""

    evidence_opened = Signal(str, str)

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._shown: tuple[str, Word | None, Sequence[Said]] = ("", None, ())
        self.setOpenLinks(False)
        self.setAccessibleName(say("Reasons"))
        self.anchorClicked.connect(self._open)

    def show_reasons(self, title: str, word: Word | None, said: Sequence[Said]) -> None:
        """Show reasons under a title; the word gives the ink of the first line."""
        self._shown = (title, word, said)
        at = self.verticalScrollBar().value()
        self.setHtml("".join(self._parts()))
        self.verticalScrollBar().setValue(at)

    def _parts(self) -> Iterator[str]:
        title, word, said = self._shown
        yield f'<p style="margin:0"><b>{escape(title)}</b></p>'
        for one in said:
            yield self._paragraph(one, word)

    def _paragraph(self, said: Said, word: Word | None) -> str:
        line = self._theme.line()
        above = line // 2 if said.kind == "rule" and not said.depth else line // 8
        style = f"margin:{above}px 0 0 {said.depth * line}px"
        return f'<p style="{style}">{self._inked(said, word)}</p>'

    def _inked(self, said: Said, word: Word | None) -> str:
        shades, text = self._theme.shades, escape(said.text)
        match said.kind:
            case "standing":
                return _span(text, shades.standing[word or "none"], bold=True)
            case "rule":
                sign = MET if said.met else NOT_MET
                ink = shades.standing["current" if said.met else "lapsed"]
                return f"{_span(sign, ink)} {_span(text, shades.text)}"
            case "missing":
                return _span(text, shades.text, bold=True)
            case "evidence" if said.link is not None:
                kind, key = said.link
                return f'<a href="{kind}:{quote(key, safe="")}">{text}</a>'
            case _:
                return _span(text, shades.quiet)

    def _open(self, link: QUrl) -> None:
        kind, _, key = link.toString(QUrl.ComponentFormattingOption.FullyEncoded).partition(":")
        self.evidence_opened.emit(kind, unquote(key))


def _span(text: str, ink: str, bold: bool = False) -> str:
    weight = ";font-weight:bold" if bold else ""
    return f'<span style="color:{ink}{weight}">{text}</span>'
