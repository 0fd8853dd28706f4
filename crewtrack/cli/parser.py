"""The command line as a whole.

Command modules import nothing heavy (SQL, paper, workbooks, astronomy) outside their functions, so
that ``crewtrack --help`` and shell completion answer at once.
"""

from pathlib import Path

import click

from crewtrack.cli.access_commands import access, passphrase
from crewtrack.cli.asking_commands import history, roster, why
from crewtrack.cli.backups_command import backups
from crewtrack.cli.deck_command import deck
from crewtrack.cli.demo_command import demo
from crewtrack.cli.evidence_commands import export, import_evidence
from crewtrack.cli.head_command import head
from crewtrack.cli.keeping_commands import backup, init, restore, verify
from crewtrack.cli.options import named_record
from crewtrack.cli.retention_command import retention
from crewtrack.cli.said_commands import disputes, occurrences
from crewtrack.cli.standard_commands import standard

COMMANDS = (
    demo,
    init,
    standard,
    import_evidence,
    export,
    roster,
    history,
    why,
    deck,
    occurrences,
    disputes,
    verify,
    head,
    backup,
    backups,
    restore,
    retention,
    access,
    passphrase,
)


class InOrder(click.Group):
    """A group that lists its commands in the order in which a unit comes to need them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, as added."""
        return list(self.commands)


@click.group(
    cls=InOrder,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit codes: 0 done; 1 the answer is no; 2 the command or its input is wrong;"
    " 3 the record can't be used.",
)
@click.option(
    "--db",
    "record",
    metavar="FILE-OR-URL",
    callback=named_record,
    help="The record. [default: $CREWTRACK_DB, else one in your data folder]",
)
@click.version_option(package_name="crewtrack", message="%(prog)s %(version)s")
@click.pass_context
def crewtrack(context: click.Context, record: str | None) -> None:
    """Keep a unit's training record and say who is current in what, on any day, and why.

    Without a command, the desk opens: the program's windows.

    \b
    Example:
      crewtrack demo

    A record and a planning aid: the master of the boat and the remote pilot decide.
    """
    if context.invoked_subcommand is None:
        context.exit(context.obj(Path(record) if record else None))


for command in COMMANDS:
    crewtrack.add_command(command)
