"""The commands that ask: ``roster``, ``history`` and ``why``."""

from typing import TYPE_CHECKING

import click

from crewtrack.cli.opening import known_instant, opened
from crewtrack.cli.options import (
    Delivery,
    Question,
    author_option,
    delivery_options,
    on_option,
    paper_option,
    question_options,
)
from crewtrack.cli.results import deliver
from crewtrack.cli.terminal import on_terminal, painter, width

if TYPE_CHECKING:
    from datetime import datetime

    from crewtrack.engine.standings import HistoryRow, Roster
    from crewtrack.prints.sheet import PaperName


@click.command()
@question_options
@on_option("The day asked about. [default: today, in the unit's zone]")
@delivery_options("text", "json", "csv", "pdf")
@paper_option
@author_option
def roster(question: Question, delivery: Delivery, paper: "PaperName", author: str) -> None:
    """Say where everybody stands on a day.

    \b
    Examples:
      crewtrack roster
      crewtrack roster --on 2026-07-01 --known-at 2026-07-01T08:00-04:00
      crewtrack roster --out roster.pdf --paper letter
      crewtrack roster | grep lapsed

    On a terminal it is a table; in a pipe one line for each person and qualification assigned.
    """
    from crewtrack.office import asking

    with opened(question.record) as office:
        known = known_instant(question.known_at, office.zone, office.clock)
        asked = asking.roster(office, question.on, known)
    if delivery.form == "pdf":
        from crewtrack.prints import roster_sheet

        deliver(roster_sheet.render(asked, paper, author), delivery.out)
    else:
        deliver(_roster_as(delivery, asked), delivery.out)


def _roster_as(delivery: Delivery, asked: "Roster") -> str:
    if delivery.form == "text":
        return roster_words(asked, delivery.out is None and on_terminal())
    from crewtrack.files import answers

    return answers.roster_json(asked) if delivery.form == "json" else answers.roster_csv(asked)


def roster_words(asked: "Roster", for_terminal: bool) -> str:
    """The roster as text: a table as wide as the terminal, or a line for each standing."""
    if for_terminal:
        from crewtrack.screens import roster_text

        return roster_text.told(asked, width(), painter())
    from crewtrack.screens import roster_lines

    return roster_lines.told(asked)


@click.command()
@click.option("--person", metavar="PERSON", help="Only this person, by key.")
@click.option("--qualification", metavar="QUALIFICATION", help="Only this qualification, by key.")
@question_options
@delivery_options("text", "json", "csv")
def history(
    question: Question, delivery: Delivery, person: str | None, qualification: str | None
) -> None:
    """List the days on which qualifications were met.

    \b
    Examples:
      crewtrack history --person K-07
      crewtrack history --qualification deck-pilot --format csv

    Spans lie within the assignment and the time on the books, stand-downs taken out; both of
    their ends are included.
    """
    from crewtrack.office import asking

    with opened(question.record) as office:
        known = known_instant(question.known_at, office.zone, office.clock)
        rows = asking.history(office, person, qualification, known)
    deliver(_history_as(delivery.form, rows, known), delivery.out)


def _history_as(form: str, rows: "tuple[HistoryRow, ...]", known: "datetime | None") -> str:
    if form == "text":
        from crewtrack.screens import history_text

        return history_text.told(rows, known)
    from crewtrack.files import answers

    return answers.history_json(rows) if form == "json" else answers.history_csv(rows)


@click.command()
@click.argument("person")
@click.argument("qualification")
@question_options
@on_option("The day asked about. [default: today, in the unit's zone]")
@delivery_options("text", "json")
def why(question: Question, delivery: Delivery, person: str, qualification: str) -> None:
    """Explain one standing down to the evidence.

    \b
    Example:
      crewtrack why K-07 deck-pilot --on 2026-11-25
    """
    from crewtrack.office import asking

    with opened(question.record) as office:
        known = known_instant(question.known_at, office.zone, office.clock)
        day = question.on or office.today()
        asked = asking.why(office, person, qualification, day, known)
    if delivery.form == "json":
        from crewtrack.files import answers

        deliver(answers.why_json(asked, day, known), delivery.out)
        return
    from crewtrack.screens import why_text

    if delivery.out is None and on_terminal():
        deliver(why_text.told(asked, day, width(), painter(), known), None)
    else:
        deliver(why_text.told(asked, day, known_at=known), delivery.out)
