"""What is laid out before anything is drawn: words, shapes and rules, gathered in pieces.

A piece is a strip of the page as high as it says; what it holds lies relative to its top left
corner, x to the right and y *down*, in points. Pieces are placed on pages by ``pages``.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from crewtrack.engine.standings import Word
from crewtrack.prints import palette
from crewtrack.prints.wrapping import Style, wrap


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text; ``y`` is its baseline."""

    x: float
    y: float
    text: str
    style: Style


@dataclass(frozen=True, slots=True)
class Sign:
    """The shape of a standing in a square of ``size`` with its top left corner at x, y."""

    x: float
    y: float
    size: float
    word: Word


@dataclass(frozen=True, slots=True)
class Rule:
    """A horizontal line."""

    x: float
    y: float
    length: float
    weight: float = 0.3
    ink: str = palette.FINE_RULE


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle: filled where ``weight`` is 0, else drawn as a frame of that weight."""

    x: float
    y: float
    width: float
    height: float
    ink: str
    weight: float = 0.0


Item = Words | Sign | Rule | Area


@dataclass(frozen=True, slots=True)
class Piece:
    """A strip of the page."""

    height: float = 0.0
    items: tuple[Item, ...] = ()

    def texts(self) -> tuple[str, ...]:
        """Every text in it, as given."""
        return tuple(item.text for item in self.items if isinstance(item, Words))


def shifted(items: Iterable[Item], x: float, y: float) -> tuple[Item, ...]:
    """The items moved right by ``x`` and down by ``y``."""
    return tuple(replace(item, x=item.x + x, y=item.y + y) for item in items)


def written(lines: Sequence[str], style: Style) -> Piece:
    """Lines one below the other, each already fit for its width."""
    items = tuple(
        Words(0.0, style.ascent + number * style.leading, line, style)
        for number, line in enumerate(lines)
        if line
    )
    return Piece(len(lines) * style.leading, items)


def paragraph(text: str, style: Style, width: float) -> Piece:
    """A text wrapped to a width."""
    return written(wrap(text, style, width), style)


def stacked(pieces: Iterable[Piece], gap: float = 0.0) -> Piece:
    """Pieces one below the other."""
    items: list[Item] = []
    y = 0.0
    for number, piece in enumerate(pieces):
        y += gap if number else 0.0
        items += shifted(piece.items, 0.0, y)
        y += piece.height
    return Piece(y, tuple(items))


def abreast(pieces: Iterable[tuple[float, Piece]]) -> Piece:
    """Pieces side by side, each at its x; as high as the highest."""
    placed = tuple(pieces)
    items = (item for x, piece in placed for item in shifted(piece.items, x, 0.0))
    return Piece(max((piece.height for _, piece in placed), default=0.0), tuple(items))


def padded(piece: Piece, above: float, below: float) -> Piece:
    """A piece with room above and below it."""
    return Piece(above + piece.height + below, shifted(piece.items, 0.0, above))


def under_rule(piece: Piece, rule: Rule) -> Piece:
    """A piece with a rule along its top edge."""
    return Piece(piece.height, (rule, *piece.items))
