"""What was said about the unit's work: ``occurrences`` and ``disputes``."""

from typing import TYPE_CHECKING

import click

from crewtrack.cli.opening import opened, opened_for
from crewtrack.cli.options import Delivery, author_option, delivery_options, record_option
from crewtrack.cli.results import deliver

if TYPE_CHECKING:
    from crewtrack.facts import Kind, Row


@click.command()
@author_option
@record_option
@delivery_options("text", "json", "csv")
def occurrences(author: str, record: str | None, delivery: Delivery) -> None:
    """List what was reported, the last to happen first.

    \b
    Example:
      crewtrack occurrences --format csv --out occurrences.csv

    Where people sign in, this is open to officers and chiefs only, who sign in for it.
    """
    from crewtrack.facts import OCCURRENCES
    from crewtrack.office import occurrences as reported

    with opened_for(record, author) as office:
        rows, zone = reported.listed(office), office.zone()
    if delivery.form == "text":
        from crewtrack.screens import said_text

        deliver(said_text.occurrences_told(rows, zone), delivery.out)
    else:
        deliver(_as_file(delivery.form, OCCURRENCES, rows), delivery.out)


@click.command()
@click.option("--all", "also_answered", is_flag=True, help="Also those that are answered.")
@record_option
@delivery_options("text", "json", "csv")
def disputes(also_answered: bool, record: str | None, delivery: Delivery) -> None:
    """List the entries that are disputed, the newest dispute first.

    \b
    Example:
      crewtrack disputes --all
    """
    from crewtrack.facts import DISPUTES
    from crewtrack.office import disputes as raised

    with opened(record) as office:
        found = [one for one in raised.listed(office) if also_answered or one.open]
    if delivery.form == "text":
        from crewtrack.screens import said_text

        deliver(said_text.disputes_told(found), delivery.out)
    else:
        rows = tuple(map(raised.row_of, found))
        deliver(_as_file(delivery.form, DISPUTES, rows), delivery.out)


def _as_file(form: str, kind: "Kind", rows: "tuple[Row, ...]") -> str:
    from crewtrack.files import answers

    return answers.facts_json(kind, rows) if form == "json" else answers.facts_csv(kind, rows)
