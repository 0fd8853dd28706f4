"""``standard check``, ``adopt`` and ``show``: the unit's written rules and their editions."""

from datetime import date
from pathlib import Path

import click

from crewtrack.cli.opening import opened, opened_for
from crewtrack.cli.options import (
    EXISTING_FILE,
    author_option,
    no_backup_option,
    on_option,
    out_option,
    record_option,
)
from crewtrack.cli.results import deliver
from crewtrack.cli.terminal import emit


@click.group()
def standard() -> None:
    """Check, adopt and show the unit's standard.

    \b
    Example:
      crewtrack standard check unit.toml
    """


@standard.command()
@click.argument("file", type=EXISTING_FILE)
def check(file: str) -> None:
    """Read a standard and list all of its faults.

    \b
    Example:
      crewtrack standard check unit.toml
    """
    from crewtrack.office import keeping
    from crewtrack.screens import changes_text

    emit(changes_text.sound_standard(file, keeping.check_standard(Path(file))))


@standard.command()
@click.argument("file", type=EXISTING_FILE)
@click.option("--reason", help="Why; needed where the edition takes effect in the past.")
@no_backup_option
@author_option
@record_option
def adopt(file: str, reason: str | None, no_backup: bool, author: str, record: str | None) -> None:
    """Add a standard to the record as a further edition.

    \b
    Example:
      crewtrack standard adopt unit-2027.toml --by "R. Okafor"

    Before it, the record is backed up.
    """
    from crewtrack.office import keeping
    from crewtrack.screens import changes_text

    with opened_for(record, author) as office:
        done = keeping.adopt(office, Path(file), author, reason, backup=not no_backup)
    emit(changes_text.adopted(done))


@standard.command()
@on_option("The day whose edition is wanted. [default: today, in the unit's zone]")
@out_option
@record_option
def show(on: date | None, out: str | None, record: str | None) -> None:
    """Print the edition in effect on a day, as it was adopted.

    \b
    Example:
      crewtrack standard show --on 2026-07-01 --out unit.toml
    """
    from crewtrack.office import keeping

    with opened(record) as office:
        source = keeping.standard_source(office, on)
    deliver(source, out)
