"""``import`` and ``export``: evidence in, and everything out again."""

from pathlib import Path
from typing import Any

import click

from crewtrack.cli.opening import opened_for
from crewtrack.cli.options import NamedPath, author_option, no_backup_option, record_option
from crewtrack.cli.terminal import MOST_TOLD, Progress, emit, tell
from crewtrack.errors import Refused


@click.command("import")
@click.argument("paths", nargs=-1, required=True, metavar="PATH…", type=NamedPath(exists=True))
@click.option("--dry-run", is_flag=True, help="Do everything but write.")
@click.option("--revise", is_flag=True, help="Let rows that differ revise what the record holds.")
@click.option("--reason", help="Why the record is revised; goes with --revise.")
@no_backup_option
@author_option
@record_option
def import_evidence(
    paths: tuple[str, ...], dry_run: bool, revise: bool, reason: str | None, **rest: Any
) -> None:
    """Bring evidence in: CSV files or a workbook.

    \b
    Examples:
      crewtrack import spreadsheet.xlsx --dry-run
      crewtrack import people.csv sorties.csv performances.csv
      crewtrack import corrections/ --revise --reason "logged under the wrong boat"

    All or nothing: every fault is listed, and with one nothing is written. The same file twice
    changes nothing. Before anything is written, the record is backed up.
    """
    from crewtrack.office import importing
    from crewtrack.screens import changes_text

    if revise and not (reason or "").strip():
        raise click.UsageError("A revision needs its reason; give --reason TEXT with --revise.")
    if reason and not revise:
        raise click.UsageError("--reason says why the record is revised; give it with --revise.")
    backup = not rest["no_backup"]
    order = importing.ImportOrder(rest["author"], dry_run, revise, reason, backup)
    files = [Path(path) for path in paths]
    try:
        with (
            Progress() as progress,
            opened_for(rest["record"], rest["author"], progress.clear) as office,
        ):
            done = importing.import_evidence(office, files, order, progress)
    except Refused as refused:
        count = len(refused.faults)
        refused.add_note(f"{count} fault{'' if count == 1 else 's'}; nothing was written.")
        raise
    for notice in done.notices[:MOST_TOLD]:
        tell(notice)
    if len(done.notices) > MOST_TOLD:
        tell(f"… and {len(done.notices) - MOST_TOLD} more.")
    emit(changes_text.imported(done, dry_run))


@click.command()
@click.argument("folder", metavar="DIR", type=NamedPath(file_okay=False))
@author_option
@record_option
def export(folder: str, author: str, record: str | None) -> None:
    """Write the whole record as files.

    The evidence, the standards and the journal.

    \b
    Example:
      crewtrack export everything/

    A new record made from those files gives the same answers.
    """
    from crewtrack.office import exporting

    with Progress() as progress, opened_for(record, author) as office:
        written = exporting.export(office, Path(folder), progress)
    emit("\n".join(str(path) for path in written))
