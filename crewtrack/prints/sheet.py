"""A print: paper, page furniture, footer, and the PDF itself.

The same value gives the same bytes: no clock is read, the document's id is the digest of what it
holds, and nothing rests on the order of a set.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from types import MappingProxyType
from typing import Final, Literal, assert_never

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from crewtrack.prints import palette
from crewtrack.prints.fonts import font_name, printable
from crewtrack.prints.marks import SHAPES, Shape
from crewtrack.prints.pages import Page, Section, set_on_pages
from crewtrack.prints.pieces import (
    Area,
    Item,
    Piece,
    Rule,
    Sign,
    Words,
    abreast,
    padded,
    under_rule,
    written,
)
from crewtrack.prints.wrapping import Style, wrap

PaperName = Literal["A4", "letter"]

MARGIN: Final = 30.0
_LEAST_BODY: Final = 200.0
_HEAD_GAP: Final = 6.0
_FOOT_GAP: Final = 7.0
FOOT: Final = Style("plain", 6.5, palette.QUIET)
_FOOT_STRONG: Final = Style("strong", 6.5, palette.INK)


@dataclass(frozen=True, slots=True)
class Paper:
    """A page's size in points, and what lies between its margins."""

    width: float
    height: float

    @property
    def inner(self) -> float:
        """The width between the margins."""
        return self.width - 2 * MARGIN


LANDSCAPE: Final[Mapping[PaperName, Paper]] = MappingProxyType(
    {"A4": Paper(841.89, 595.28), "letter": Paper(792.0, 612.0)}
)


@dataclass(frozen=True, slots=True)
class Print:
    """All that goes on paper, before it is set on pages.

    ``first`` and ``later`` head the first page and every other one. ``foot`` are the lines of the
    footer, each wrapped where it must be; the page's number joins the first.
    """

    title: str
    author: str
    subject: str
    paper: Paper
    first: Piece
    later: Piece
    foot: tuple[str, ...]
    sections: tuple[Section, ...]


def render(sheet: Print) -> bytes:
    """The PDF."""
    kept = BytesIO()
    canvas = _canvas(sheet, kept)
    pages = laid_out(sheet)
    for number, page in enumerate(pages, 1):
        _draw_page(canvas, sheet, page, (number, len(pages)))
        canvas.showPage()
    canvas.save()
    return kept.getvalue()


def laid_out(sheet: Print) -> tuple[Page, ...]:
    """The print's sections on its pages."""
    taken = footer(sheet, (1, 1)).height + _HEAD_GAP + _FOOT_GAP
    rooms = [
        max(_LEAST_BODY, sheet.paper.height - 2 * MARGIN - head.height - taken)
        for head in (sheet.first, sheet.later)
    ]
    return set_on_pages(sheet.sections, (rooms[0], rooms[1]))


def footer(sheet: Print, page: tuple[int, int]) -> Piece:
    """The foot of a page, given its number and the count of pages. Its height is the same on
    every page."""
    place = f"Page {page[0]} of {page[1]}"
    widest = FOOT.width("Page 9999 of 9999") + 12
    inner = sheet.paper.inner
    lines = written(
        [part for line in sheet.foot for part in wrap(line, FOOT, inner - widest)], FOOT
    )
    number = written([place], _FOOT_STRONG)
    sides = abreast([(0.0, lines), (inner - _FOOT_STRONG.width(place), number)])
    return under_rule(padded(sides, 4.0, 0.0), Rule(0, 0, inner, 0.5, palette.STRONG_RULE))


def _canvas(sheet: Print, kept: BytesIO) -> Canvas:
    canvas = Canvas(
        kept,
        pagesize=(sheet.paper.width, sheet.paper.height),
        pageCompression=1,
        invariant=1,
        # Else an unembedded Helvetica is named on every page. The stubs take it for a number.
        initialFontName=font_name("plain"),  # type: ignore[arg-type]
        lang="en",
    )
    canvas.setTitle(sheet.title)
    canvas.setAuthor(sheet.author)
    canvas.setSubject(sheet.subject)
    canvas.setCreator("crewtrack")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas


def _draw_page(canvas: Canvas, sheet: Print, page: Page, place: tuple[int, int]) -> None:
    top = MARGIN
    head = sheet.first if place[0] == 1 else sheet.later
    _draw(canvas, sheet.paper, head, top)
    top += head.height + _HEAD_GAP
    for placed in page.placed:
        _draw(canvas, sheet.paper, placed.piece, top + placed.y)
    for number, (title, y) in enumerate(page.bookmarks):
        key = f"page-{place[0]}-{number}"
        height = sheet.paper.height - (MARGIN if number == 0 else top + y)
        canvas.bookmarkPage(key, fit="XYZ", left=0, top=height)
        canvas.addOutlineEntry(title, key)
    foot = footer(sheet, place)
    _draw(canvas, sheet.paper, foot, sheet.paper.height - MARGIN - foot.height)


def _draw(canvas: Canvas, paper: Paper, piece: Piece, top: float) -> None:
    """Draw a piece between the margins, ``top`` points below the page's edge."""
    for item in piece.items:
        _draw_item(canvas, item, MARGIN + item.x, paper.height - top - item.y)


def _draw_item(canvas: Canvas, item: Item, x: float, y: float) -> None:
    """Draw one item at a point in the PDF's own measure, y up from the page's foot."""
    match item:
        case Words():
            canvas.setFillColor(HexColor(item.style.ink))
            canvas.setFont(font_name(item.style.face), item.style.size)
            canvas.drawString(x, y, printable(item.text))
        case Rule():
            canvas.setStrokeColor(HexColor(item.ink))
            canvas.setLineWidth(item.weight)
            canvas.line(x, y, x + item.length, y)
        case Area():
            canvas.setFillColor(HexColor(item.ink))
            canvas.setStrokeColor(HexColor(item.ink))
            canvas.setLineWidth(item.weight)
            filled = int(item.weight == 0)
            canvas.rect(x, y - item.height, item.width, item.height, 1 - filled, filled)
        case Sign():
            canvas.setFillColor(HexColor(palette.STANDING_INKS[item.word]))
            _draw_shape(canvas, SHAPES[item.word], (x, y), item.size)
        case _:
            assert_never(item)


def _draw_shape(canvas: Canvas, shape: Shape, corner: tuple[float, float], size: float) -> None:
    path = canvas.beginPath()
    for (first_x, first_y), *others in shape:
        path.moveTo(corner[0] + first_x * size, corner[1] - first_y * size)
        for x, y in others:
            path.lineTo(corner[0] + x * size, corner[1] - y * size)
        path.close()
    canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
