"""``demo``: a unit that does not exist, with three years of records, to look around in."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from crewtrack.cli.asking_commands import roster_words
from crewtrack.cli.options import NamedPath, on_option, paper_option
from crewtrack.cli.results import write_file
from crewtrack.cli.terminal import emit, on_terminal, tell

if TYPE_CHECKING:
    from crewtrack.engine.standings import Roster
    from crewtrack.prints.sheet import PaperName


@click.command()
@click.argument("folder", metavar="[DIR]", required=False, type=NamedPath(file_okay=False))
@on_option("The day to make it for. [default: today]")
@paper_option
@click.option("--desk", is_flag=True, help="Open the record in the desk when it is made.")
@click.pass_context
def demo(
    context: click.Context, folder: str | None, on: date | None, paper: "PaperName", desk: bool
) -> None:
    """Look around in a unit that does not exist.

    \b
    Example:
      crewtrack demo

    The record and the roster as PDF are written to DIR, a new temporary folder where none is
    given. For one day it is always the same.
    """
    import tempfile

    from crewtrack.office import asking, demonstration
    from crewtrack.office.office import Office
    from crewtrack.prints import roster_sheet

    where = Path(folder) if folder else Path(tempfile.mkdtemp(prefix="crewtrack-demo-"))
    record = demonstration.make(where, on)
    with Office.open(record) as office:
        asked = asking.roster(office, on, None)
    sheet = where / "roster.pdf"
    write_file(sheet, roster_sheet.render(asked, paper, "the demonstration"))
    emit(roster_words(asked, on_terminal()))
    tell(f"Record: {record}\nRoster as PDF: {sheet}\n{_next_question(asked, record)}")
    if desk:
        context.exit(context.obj(record))


def _next_question(asked: "Roster", record: Path) -> str:
    """A command to go on with."""
    lapsed = asked.lapses[0].standing if asked.lapses else asked.rows[0]
    return f"Next: crewtrack --db {record} why {lapsed.person} {lapsed.qualification}"
