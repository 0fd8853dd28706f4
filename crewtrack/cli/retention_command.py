"""``retention``: what is past the period for which the unit keeps what it records."""

import click

from crewtrack.cli.opening import opened
from crewtrack.cli.options import Delivery, delivery_options, record_option
from crewtrack.cli.results import deliver
from crewtrack.cli.terminal import Progress


@click.command()
@record_option
@delivery_options("text", "json")
def retention(record: str | None, delivery: Delivery) -> None:
    """List what is past retention, and why it stays.

    \b
    Examples:
      crewtrack retention
      crewtrack retention --format json

    What later standings rest on can't be sealed, and neither can what is named by something that
    stays. An officer and a chief seal the rest together, on the page Record of the desk; the
    period and its rule are named there too.
    """
    from crewtrack.office import retention as office_retention
    from crewtrack.screens import retention_text

    with Progress() as progress, opened(record) as office:
        past = office_retention.past(office, progress=progress)
    form = retention_text.past_json if delivery.form == "json" else retention_text.past_text
    deliver(form(past), delivery.out)
