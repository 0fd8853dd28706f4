"""``head``: the last digest of the journal, which stands for all that was recorded before it."""

import click

from crewtrack.cli.opening import opened
from crewtrack.cli.options import Delivery, delivery_options, record_option
from crewtrack.cli.results import deliver


@click.command()
@delivery_options("text", "json")
@record_option
def head(delivery: Delivery, record: str | None) -> None:
    """Print the journal's last digest, to be kept on paper.

    Every print has it too. 'crewtrack verify --head' says later whether it is part of a record.

    \b
    Examples:
      crewtrack head
      crewtrack head --format json
    """
    from crewtrack.files.answers import head_json
    from crewtrack.office import heads
    from crewtrack.screens import changes_text

    with opened(record) as office:
        last = heads.head(office)
    if delivery.form == "json":
        told = None if last is None else (last.digest, last.seq, last.instant, last.author)
        deliver(head_json(told), delivery.out)
    else:
        deliver(changes_text.head(last) + "\n", delivery.out)
