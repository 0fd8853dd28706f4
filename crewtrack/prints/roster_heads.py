"""The roster's heads: what it is, whose, for which day; and its legend."""

from collections.abc import Iterator
from typing import Final

from crewtrack.engine.standings import Roster, Word
from crewtrack.prints import palette
from crewtrack.prints.fonts import REPLACEMENT
from crewtrack.prints.pieces import (
    Item,
    Piece,
    Rule,
    Sign,
    Words,
    abreast,
    padded,
    stacked,
    written,
)
from crewtrack.prints.relief_tag import (
    EXTENSION,
    UNKNOWN,
    WAIVER,
    letters_of,
    relief_letters,
    tag,
    tag_width,
)
from crewtrack.prints.wrapping import Style, wrap

TITLE: Final = "Currency roster"
_DAY_NAMES: Final = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
_LARGE: Final = Style("strong", 21.0, palette.INK)
_UNIT: Final = Style("plain", 10.0, palette.QUIET)
_RUNNING: Final = Style("strong", 9.0, palette.INK)
_LEGEND: Final = Style("plain", 7.0, palette.INK)
_LEGEND_SIGN: Final = 6.2

_MEANINGS: Final[tuple[tuple[Word, str], ...]] = (
    ("current", "through the date shown"),
    ("due", "ends on that date, within notice"),
    ("lapsed", "since the date shown"),
    ("training", "not yet met"),
    ("stood-down", "out of it for now"),
    ("none", "not assigned"),
)
_LETTERS: Final = (
    (WAIVER, "rests on a waiver"),
    (EXTENSION, "rests on an extension"),
    (UNKNOWN, "rests on a waiver or an extension"),
)


def _day(roster: Roster) -> str:
    return f"{_DAY_NAMES[roster.on.weekday()]} {roster.on.isoformat()}"


def first_head(roster: Roster, width: float) -> Piece:
    """The first page's head: what it is, whose, for which day; and its legend."""
    day = _day(roster)
    right = width - _LARGE.width(day)
    size = f"{_count(len(roster.people), 'person', 'people')} · {_count_of_qualifications(roster)}"
    edition = f"Edition {roster.edition} · {size}"
    line = stacked(
        [
            abreast([(0, written([TITLE], _LARGE)), (right, written([day], _LARGE))]),
            _sides(roster.unit, edition, _UNIT, width),
        ],
        1.0,
    )
    return _headed(line, width)


def later_head(roster: Roster, width: float) -> Piece:
    """The head of every other page."""
    line = _sides(f"{TITLE} · {roster.unit}", _day(roster), _RUNNING, width)
    return _headed(line, width)


def _headed(line: Piece, width: float) -> Piece:
    rule = Rule(0, 0, width, 0.35, palette.FIFTH_RULE)
    return stacked([line, Piece(1.0, (rule,))], 4.0)


def _sides(left: str, right: str, style: Style, width: float) -> Piece:
    """Two texts on one line, at its two ends; the right one under the left where both won't fit."""
    rights = wrap(right, style, width / 2)
    beside = max(map(style.width, rights))
    lefts = written(wrap(left, style, width - beside - 12), style)
    edge = [
        Words(width - style.width(line), style.ascent + n * style.leading, line, style)
        for n, line in enumerate(rights)
    ]
    height = max(lefts.height, len(rights) * style.leading)
    return Piece(height, (*lefts.items, *edge))


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _count_of_qualifications(roster: Roster) -> str:
    return _count(len(roster.qualifications), "qualification", "qualifications")


def legend(roster: Roster, width: float, *, lacking: bool) -> Piece:
    """Every standing's shape, word and meaning, set like words in a line; ``lacking`` says that a
    character on the sheets had to be replaced."""
    rows: list[Piece] = []
    line: list[tuple[float, Piece]] = []
    x = 0.0
    for entry, entry_width in (*_standings(), *_letters(roster), *_replaced(lacking)):
        if line and x + entry_width > width:
            rows.append(abreast(line))
            line, x = [], 0.0
        line.append((x, entry))
        x += entry_width + 11.0
    return padded(stacked([*rows, abreast(line)], 1.5), 0.0, 8.0)


def _standings() -> Iterator[tuple[Piece, float]]:
    start = _LEGEND_SIGN + 2.5
    for word, meaning in _MEANINGS:
        style = Style("strong", _LEGEND.size, palette.STANDING_INKS[word])
        sign = Sign(0, _LEGEND.ascent - _LEGEND_SIGN * 0.9, _LEGEND_SIGN, word)
        told = Words(start, style.ascent, word, style)
        yield _meant((sign, told), start + style.width(word), meaning)


def _letters(roster: Roster) -> Iterator[tuple[Piece, float]]:
    """The letters that this roster uses."""
    letters = relief_letters(roster)
    used = {letter for row in roster.rows for letter in letters_of(row, letters)}
    for letter, meaning in _LETTERS:
        if letter in used:
            yield _meant(tag(letter, _LEGEND).items, tag_width(letter, _LEGEND), meaning)


def _replaced(lacking: bool) -> Iterator[tuple[Piece, float]]:
    if lacking:
        told = Words(0, _LEGEND.ascent, REPLACEMENT, _LEGEND)
        meaning = "a letter the typeface lacks: see the last page"
        yield _meant((told,), _LEGEND.width(REPLACEMENT), meaning)


def _meant(items: tuple[Item, ...], width: float, meaning: str) -> tuple[Piece, float]:
    """What is explained, its meaning after it, and the width of both."""
    rest = Words(width + 3.0, _LEGEND.ascent, meaning, _LEGEND)
    return Piece(_LEGEND.leading, (*items, rest)), width + 3.0 + _LEGEND.width(meaning)
