"""One person's qualifications on a day: the standing of each, and its days with what was known
by then."""

from dataclasses import dataclass
from datetime import date

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.spans import Days, Span, as_spans, difference, intersection
from crewtrack.engine.standing import Docket, on_the_books, standing
from crewtrack.engine.standings import Standing
from crewtrack.screens import relief_words
from crewtrack.screens.columns import safe
from crewtrack.screens.language import say
from crewtrack.screens.reasons_words import spans_told
from crewtrack.screens.standing_words import SHAPES, date_told, word_told
from crewtrack.screens.tables import Table, TableColumn, day_order


@dataclass(frozen=True, slots=True)
class StandingLine:
    """One qualification: ``spans`` are the days met within assignment and books, stand-downs
    taken out, by evidence up to the day; ``letters`` say that it rests on a waiver (W) or an
    extension (E)."""

    qualification: str
    title: str
    standing: Standing
    spans: tuple[Span, ...]
    letters: str


def standing_lines(
    reckoning: Reckoning, person: str, on: date, all_of_them: bool = False
) -> tuple[StandingLine, ...]:
    """A line for each qualification of that day's edition that the person was ever assigned to
    by then, or for all of them."""
    docket = reckoning.docket(reckoning.evidence.books[person], on.toordinal())
    asked = reckoning.editions.qualifications_on(on.toordinal())
    return tuple(
        _line(docket, told.key, told.title, on)
        for told in asked
        if all_of_them or docket.assigned(told.key)
    )


def standings_table(lines: tuple[StandingLine, ...]) -> Table:
    """The lines as a table."""
    columns = (
        TableColumn(say("Qualification"), lambda line: safe(line.title), order=lines.index),
        TableColumn(
            say("Standing"),
            lambda line: f"{word_told(line.standing.word)} {line.letters}".rstrip(),
            order=lambda line: tuple(SHAPES).index(line.standing.word),
            spoken=sentence,
            word=lambda line: line.standing.word,
        ),
        TableColumn(say("Date"), lambda line: date_told(line.standing), order=_date_order),
        TableColumn(say("Days current"), lambda line: spans_told(line.spans), order=_first_day),
    )
    return Table(columns, lines, lambda line: line.qualification)


def sentence(line: StandingLine) -> str:
    """The standing as one sentence, for reading aloud and for tool tips."""
    on = line.standing
    word = word_told(on.word)
    if on.word in ("current", "due"):
        if on.through is None:
            return say("{title}: {word}, no limit", title=line.title, word=word)
        return say("{title}: {word} through {day}", title=line.title, word=word, day=on.through)
    if on.word == "lapsed":
        return say("{title}: {word} since {day}", title=line.title, word=word, day=on.since)
    return say("{title}: {word}", title=line.title, word=word)


def _line(docket: Docket, key: str, title: str, on: date) -> StandingLine:
    found = standing(docket, key, on.toordinal())
    kinds = {waiver.key: waiver.kind for waiver in docket.books.waivers}
    return StandingLine(
        key,
        title,
        found,
        as_spans(_days(docket, key)),
        relief_words.letters(found, kinds),
    )


def _days(docket: Docket, key: str) -> Days:
    days = intersection(docket.met(key), docket.assigned(key))
    days = intersection(days, (on_the_books(docket.books),))
    return difference(days, docket.cases[0].stood_down(key))


def _date_order(line: StandingLine) -> date:
    on = line.standing
    return day_order(on.since if on.word == "lapsed" else on.through)


def _first_day(line: StandingLine) -> date:
    return day_order(line.spans[0].first if line.spans else None)
