"""``init``, ``verify``, ``backup`` and ``restore``: the record as a thing to be kept."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from crewtrack.cli.opening import opened, opened_for, place_of
from crewtrack.cli.options import EXISTING_FILE, NamedPath, author_option, record_option
from crewtrack.cli.passphrases import NEW_PASSPHRASE, asked_passphrase
from crewtrack.cli.terminal import MOST_TOLD, emit, harmless, tell
from crewtrack.errors import RecordUnusable

if TYPE_CHECKING:
    from crewtrack.office.keeping import Chief
    from crewtrack.office.office import Session


@click.command()
@click.option(
    "--standard", "file", type=EXISTING_FILE, required=True, help="The unit's standard (TOML)."
)
@click.option("--chief", metavar="PERSON", help="The key of the first chief, who signs in to it.")
@click.option("--name", help="The first chief's name; goes with --chief.")
@author_option
@record_option
def init(file: str, chief: str | None, name: str | None, author: str, record: str | None) -> None:
    """Make a new record with the unit's standard.

    \b
    Examples:
      crewtrack --db unit.crewtrack init --standard unit.toml
      crewtrack init --standard unit.toml --chief K-01 --name "R. Okafor"

    With a chief, people sign in to the record: the passphrase is asked for, or taken from
    CREWTRACK_NEW_PASSPHRASE.
    """
    from crewtrack.office import keeping
    from crewtrack.screens import changes_text

    first = _first_chief(chief, name)
    where = place_of(record)
    done = keeping.init(where, Path(file), first.person if first else author, chief=first)
    tell(f"Made {where}.")
    emit(changes_text.adopted(done))


def _first_chief(person: str | None, name: str | None) -> "Chief | None":
    from crewtrack.office.keeping import Chief

    if person is None and name is None:
        return None
    if not person or not name:
        raise click.UsageError("A first chief has a key and a name; give --chief and --name.")
    passphrase = asked_passphrase(NEW_PASSPHRASE, f"Passphrase for {person}", twice=True)
    return Chief(person.strip(), name, passphrase)


@click.command()
@click.option(
    "--journal",
    "journal",
    type=EXISTING_FILE,
    metavar="FILE",
    help="Check a journal that 'crewtrack export' wrote, and no record.",
)
@click.option(
    "--head",
    "digest",
    metavar="DIGEST",
    help="Say too whether this digest, or its first 8 digits or more, is part of it.",
)
@record_option
@click.pass_context
def verify(
    context: click.Context, journal: str | None, digest: str | None, record: str | None
) -> None:
    """Check the journal, its facts and its signatures.

    \b
    Examples:
      crewtrack verify
      crewtrack verify --head "3f9a 01c2 77be 40d5"
      crewtrack verify --journal everything/journal.jsonl

    Exit code 1 where a break is found, each named by its act and its fact, or where the digest of
    an old print is no part of it. An act that is dated earlier than one before it is told too, and
    is no break.
    """
    from crewtrack.cli import verifying
    from crewtrack.screens import changes_text

    found = (
        verifying.verify_journal(journal, digest)
        if journal is not None
        else verifying.verify_record(record, digest)
    )
    for odd in found.set_back[:MOST_TOLD]:
        tell(changes_text.clock_went_back(odd))
    emit(changes_text.verified([str(one) for one in found.breaks], journal is not None))
    if digest is not None:
        emit(changes_text.on_paper(found.act))
    if found.breaks and journal is None:
        tell(
            "Record nothing more in it. Put the last backup from before the break back with"
            " 'crewtrack restore FILE', which keeps this file under another name; then import"
            " again what has come in since."
        )
        tell(found.advice)
    if found.breaks or (digest is not None and found.act is None):
        context.exit(1)


@click.command()
@click.argument("file", metavar="FILE", type=NamedPath(dir_okay=False))
@record_option
def backup(file: str, record: str | None) -> None:
    """Write a copy of the record, and check it.

    It is consistent also while the record is in use.

    \b
    Example:
      crewtrack backup unit-2026-11-25.crewtrack
    """
    from crewtrack.office import keeping

    with opened(record) as office:
        keeping.backup(office, Path(file))
    emit(harmless(f"Wrote and checked {file}."))


@click.command()
@click.argument("file", metavar="FILE", type=EXISTING_FILE)
@author_option
@record_option
def restore(file: str, author: str, record: str | None) -> None:
    """Put a backup in the record's place.

    What was there is kept under another name. Where people sign in to it, it takes somebody who
    may.

    \b
    Example:
      crewtrack --db unit.crewtrack restore unit-2026-11-25.crewtrack
    """
    from crewtrack.office import keeping

    where = place_of(record)
    kept = keeping.restore(where, Path(file), session=_signed_in(record, author))
    emit(harmless(f"Restored {where} from {file}."))
    if kept is not None:
        tell(f"What was there is now {kept}.")


def _signed_in(record: str | None, author: str) -> "Session | None":
    """Whoever has signed in to the record at hand; one that can't be opened asks nobody."""
    try:
        with opened_for(record, author) as office:
            return office.session
    except RecordUnusable:
        return None
