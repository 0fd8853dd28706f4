"""The currency roster on paper: the grid, the lapse list after it, and what closes it."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

from crewtrack.engine.standings import Roster
from crewtrack.prints import roster_grid
from crewtrack.prints.closing import (
    SHORT_CAUTION,
    Provenance,
    closing,
    note_on_lacking,
    short,
    told_known_at,
)
from crewtrack.prints.fonts import lacking
from crewtrack.prints.listing import section
from crewtrack.prints.pages import Section
from crewtrack.prints.roster_heads import TITLE, first_head, later_head, legend
from crewtrack.prints.roster_lists import lapse_list, relief_list, stood_down_list
from crewtrack.prints.sheet import LANDSCAPE, PaperName, Print
from crewtrack.prints.sheet import render as render_print


def render(roster: Roster, paper: PaperName, printed_by: str) -> bytes:
    """The roster as a PDF, landscape."""
    return render_print(roster_print(roster, paper, printed_by))


def roster_print(roster: Roster, paper: PaperName, printed_by: str) -> Print:
    """The roster, ready to be set on pages."""
    sheet = LANDSCAPE[paper]
    width = sheet.inner
    first, later = first_head(roster, width), later_head(roster, width)
    grid, lists = roster_grid.sections(roster, width), _lists(roster, width)
    foot = _foot(roster, printed_by)
    missing = lacking((*first.texts(), *foot, *chain.from_iterable(map(_texts, (*grid, *lists)))))
    top = legend(roster, width, lacking=bool(missing))
    made_from = Provenance(roster.edition, roster.known_at, roster.head, printed_by)
    last = closing(made_from, note_on_lacking(missing), "Chief", width)
    return Print(
        title=f"{TITLE}, {roster.unit}, {roster.on.isoformat()}",
        author=printed_by,
        subject=f"Who is current in what on {roster.on.isoformat()}, edition {roster.edition}",
        paper=sheet,
        first=first,
        later=later,
        foot=foot,
        sections=(*(replace(part, top=top) for part in grid), *lists, last),
    )


def _lists(roster: Roster, width: float) -> tuple[Section, ...]:
    """What has lapsed and, if anything does, what rests on a waiver; who is stood down, if
    anybody is."""
    lists = [section(lapse_list(roster, width))]
    if any(row.by_waiver for row in roster.rows):
        lists.append(section(relief_list(roster, width)))
    if roster.standdowns:
        lists.append(section(stood_down_list(roster, width)))
    return tuple(lists)


def _texts(part: Section) -> Iterator[str]:
    for piece in (part.opening, *part.rows):
        yield from piece.texts()


def _foot(roster: Roster, printed_by: str) -> tuple[str, ...]:
    known = told_known_at(roster.known_at)
    return (
        f"{roster.unit} · {TITLE} for {roster.on.isoformat()} · as known at {known} · "
        f"edition {roster.edition} · printed by {printed_by} · journal {short(roster.head)}",
        SHORT_CAUTION,
    )
