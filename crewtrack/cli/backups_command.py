"""``backups`` and ``backups keep``: the backups that are taken by themselves."""

from pathlib import Path

import click

from crewtrack.cli.opening import opened, place_of
from crewtrack.cli.options import record_option
from crewtrack.cli.terminal import Progress, emit, tell


@click.group(invoke_without_command=True)
@click.option(
    "--check", is_flag=True, help="Open and verify each; exit code 1 where one is not whole."
)
@record_option
@click.pass_context
def backups(context: click.Context, check: bool, record: str | None) -> None:
    """List the backups that were taken by themselves.

    \b
    Example:
      crewtrack backups --check

    They are taken when a window is closed, and before an import, an adoption, and a change of the
    record's tables. Where they go and how many are kept is set at the desk.
    """
    if context.invoked_subcommand is not None:
        return
    from crewtrack.office import safekeeping
    from crewtrack.office.backup_settings import read_settings
    from crewtrack.screens import backup_words

    read_settings()  # faults in them are told here; where a record is damaged, they stop nothing
    where = Path(place_of(record))
    found = safekeeping.listed(where)
    if not found:
        tell(f"There are no backups of {where} in {safekeeping.folder_of(where)}.")
        return
    with Progress() as progress:
        whole = [safekeeping.is_whole(one.path, progress) for one in found] if check else []
    emit(backup_words.listed_told(found, whole))
    context.exit(0 if all(whole) else 1)


@backups.command()
@record_option
def keep(record: str | None) -> None:
    """Take a backup now, and remove old ones as usual.

    \b
    Example:
      crewtrack backups keep
    """
    from crewtrack.office import safekeeping
    from crewtrack.screens import backup_words

    with Progress() as progress, opened(record) as office:
        done = safekeeping.keep_now(office, progress)
    emit(backup_words.kept_told(done))
    stuck = backup_words.stuck_told(done)
    if stuck:
        tell(stuck)
