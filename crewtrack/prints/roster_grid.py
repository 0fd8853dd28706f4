"""The roster's grid: people × qualifications, sheet by sheet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from crewtrack.engine.evidence import Person
from crewtrack.engine.standard import Qualification
from crewtrack.engine.standings import Roster, Standing
from crewtrack.prints import palette
from crewtrack.prints.gauge import Gauge, gauge
from crewtrack.prints.pages import Section
from crewtrack.prints.pieces import (
    Area,
    Item,
    Piece,
    Rule,
    Sign,
    abreast,
    padded,
    shifted,
    stacked,
    under_rule,
    written,
)
from crewtrack.prints.relief_tag import letters_of, relief_letters, tag
from crewtrack.prints.wrapping import Style, balanced, fitted, wrap

SERVES: Final = ("current", "due")
_LEAST: Final = 5.0
_ABOVE: Final = 2.6
_BELOW: Final = 2.8
_GROUP: Final = 5


@dataclass(frozen=True, slots=True)
class Grid:
    """What every cell is set from. ``letters`` marks each waiver's or extension's key."""

    roster: Roster
    cells: Mapping[tuple[str, str], Standing]
    letters: Mapping[str, str]
    gauge: Gauge


def sections(roster: Roster, width: float) -> tuple[Section, ...]:
    """The grid, one section for each sheet of qualifications."""
    measures = gauge(len(roster.qualifications), width)
    grid = Grid(roster, roster.cells(), relief_letters(roster), measures)
    across = measures.across
    starts = range(0, max(1, len(roster.qualifications)), across)
    parts = [roster.qualifications[start : start + across] for start in starts]
    return tuple(_sheet(grid, part, (n, len(parts))) for n, part in enumerate(parts, 1))


def _sheet(grid: Grid, part: Sequence[Qualification], place: tuple[int, int]) -> Section:
    width = grid.gauge.person + grid.gauge.column * len(part)
    heading = _heading(grid, part, place, width)
    people = enumerate(grid.roster.people, 1)
    rows = [_row(grid, person, part, number) for number, person in people]
    several = f", sheet {place[0]} of {place[1]}" if place[1] > 1 else ""
    # The counts never stand alone on a page: they go with the last person's row.
    last = [*rows[-1:], _counts(grid, part, width)] if rows else [_nobody(grid.roster)]
    rows = [*rows[:-1], stacked(last)]
    bookmark = f"Roster{several}"
    return Section(bookmark, heading, heading, tuple(rows), whole=place[0] > 1)


def _heading(
    grid: Grid, part: Sequence[Qualification], place: tuple[int, int], width: float
) -> Piece:
    """The qualifications' titles, standing on a strong rule."""
    style = Style("strong", min(grid.gauge.size, 8.0), palette.INK)
    room = grid.gauge.column - grid.gauge.size * 0.9
    titles = [_title(q.title, style, room) for q in part]
    people = written(_people(grid, place), Style("plain", 7.0, palette.QUIET))
    height = max(piece.height for piece in (*titles, people))
    placed = [(0.0, _sunk(people, height))]
    for number, title in enumerate(titles):
        x = grid.gauge.person + number * grid.gauge.column
        placed.append((x, _sunk(title, height)))
    head = padded(abreast(placed), 0.0, 3.0)
    rule = Rule(0, head.height, width, 0.9, palette.STRONG_RULE)
    return Piece(head.height, (*head.items, rule))


def _title(title: str, style: Style, room: float) -> Piece:
    """A title in few even lines, smaller before there are too many of them."""
    smaller, _ = fitted(title, style, room, lines=4, least=_LEAST)
    return written(balanced(title, smaller, room), smaller)


def _sunk(piece: Piece, height: float) -> Piece:
    """A piece that stands at the foot of a height."""
    return padded(piece, height - piece.height, 0.0)


def _people(grid: Grid, place: tuple[int, int]) -> list[str]:
    several = [f"Sheet {place[0]} of {place[1]}"] if place[1] > 1 else []
    return [*several, "Person"]


def _row(grid: Grid, person: Person, part: Sequence[Qualification], number: int) -> Piece:
    name = _person(grid.gauge, person)
    cells = [_cell(grid, grid.cells[person.key, q.key]) for q in part]
    height = max(piece.height for piece in (name, *cells)) + _ABOVE + _BELOW
    items: list[Item] = [*shifted(name.items, 0.0, _ABOVE)]
    for index, (q, cell) in enumerate(zip(part, cells, strict=True)):
        x = grid.gauge.person + index * grid.gauge.column
        items += _tint(grid, grid.cells[person.key, q.key], x, height)
        items += shifted(cell.items, x, _ABOVE)
    width = grid.gauge.person + grid.gauge.column * len(part)
    ink = palette.FIFTH_RULE if number % _GROUP == 0 else palette.FINE_RULE
    return Piece(height, (*items, Rule(0, height, width, 0.35, ink)))


def _tint(grid: Grid, standing: Standing, x: float, height: float) -> list[Item]:
    ink = palette.STANDING_TINTS.get(standing.word)
    edge = grid.gauge.size * 0.3
    width = grid.gauge.column - edge
    return [Area(x - edge, 0.4, width, height - 0.8, ink)] if ink else []


def _person(measures: Gauge, person: Person) -> Piece:
    """The name, over the person's key and duties."""
    room = measures.person - measures.gutter - measures.size * 0.3
    strong = Style("strong", measures.size + 0.5, palette.INK)
    style, lines = fitted(person.name, strong, room, lines=1, least=measures.size - 1.0)
    if len(lines) > 2:
        style, lines = fitted(person.name, style, room, lines=2, least=_LEAST)
    quiet = Style("plain", max(measures.size - 1.0, 6.0), palette.QUIET)
    under = " · ".join([person.key, *([", ".join(person.duties)] if person.duties else [])])
    small, below = fitted(under, quiet, room, lines=1, least=_LEAST)
    return stacked([written(lines, style), written(below, small)])


def _cell(grid: Grid, standing: Standing) -> Piece:
    """The shape, the word and the date, with a letter where it rests on a waiver."""
    measures = grid.gauge
    ink = palette.STANDING_INKS[standing.word]
    strong = standing.word in ("due", "lapsed")
    style = measures.style(strong=strong, ink=ink)
    word = written(wrap(standing.word, style, measures.room), style)
    told = wrap(told_date(standing, worded=measures.worded), measures.style(), measures.room)
    text = stacked([word, *([written(told, measures.style())] if told[0] else [])])
    top = style.ascent - measures.sign * 0.9
    sign = Sign(0.0, top, measures.sign, standing.word)
    x = measures.indent + style.width(standing.word) + measures.size * 0.3
    letters = letters_of(standing, grid.letters)
    tagged = shifted(tag(letters, style).items, x, 0.0) if letters else ()
    return Piece(text.height, (sign, *shifted(text.items, measures.indent, 0.0), *tagged))


def told_date(standing: Standing, *, worded: bool) -> str:
    """The date that goes with a standing: the last day it holds, or the first day of the lapse."""
    if standing.word in SERVES:
        return _told("through", standing.through, worded) if standing.through else "no limit"
    if standing.word == "lapsed" and standing.since:
        return _told("since", standing.since, worded)
    return ""


def _told(word: str, day: date, worded: bool) -> str:
    return f"{word} {day.isoformat()}" if worded else day.isoformat()


def _counts(grid: Grid, part: Sequence[Qualification], width: float) -> Piece:
    """How many people are current or due in each qualification, beside the standard's minimum."""
    measures = grid.gauge
    label = written(["Current or due"], measures.style(strong=True))
    quiet = Style("plain", max(measures.size - 1.0, 6.0), palette.QUIET)
    under = written(["how many people"], quiet)
    placed = [(0.0, stacked([label, under]))]
    for index, qualification in enumerate(part):
        x = measures.person + index * measures.column
        placed.append((x + measures.indent, _count(grid, qualification, quiet)))
    row = padded(abreast(placed), _ABOVE, _BELOW)
    return under_rule(row, Rule(0, 0, width, 0.9, palette.STRONG_RULE))


def _count(grid: Grid, qualification: Qualification, quiet: Style) -> Piece:
    rows = (grid.cells[person.key, qualification.key] for person in grid.roster.people)
    count = sum(row.word in SERVES for row in rows)
    number = written([str(count)], grid.gauge.style(strong=True))
    least = qualification.minimum
    if count < least:
        short = Style("strong", quiet.size, palette.STANDING_INKS["lapsed"])
        return stacked([number, written([f"short of {least}"], short)])
    return stacked([number, *([written([f"minimum {least}"], quiet)] if least else [])])


def _nobody(roster: Roster) -> Piece:
    style = Style("plain", 9.0, palette.INK)
    told = f"Nobody is on the unit's books on {roster.on.isoformat()}."
    return padded(written([told], style), 6.0, 6.0)
