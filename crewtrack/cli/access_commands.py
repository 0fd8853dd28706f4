"""``access`` and ``passphrase``: who signs in to a record, and with what."""

import click

from crewtrack.cli.opening import opened, opened_for
from crewtrack.cli.options import author_option, record_option
from crewtrack.cli.passphrases import NEW_PASSPHRASE, PASSPHRASE, asked_passphrase
from crewtrack.cli.terminal import emit


@click.group(invoke_without_command=True)
@record_option
@click.pass_context
def access(context: click.Context, record: str | None) -> None:
    """List who signs in, and give and end access.

    \b
    Example:
      crewtrack access
    """
    if context.invoked_subcommand is None:
        from crewtrack.office.who_signs_in import access_of
        from crewtrack.screens.access_text import access_lines

        with opened(record) as office:
            emit(access_lines(access_of(office)))


@access.command()
@click.argument("person")
@click.option("--reason", help="Why, for a new key in place of a lost one.")
@author_option
@record_option
def give(person: str, reason: str | None, author: str, record: str | None) -> None:
    """Give a person a key, or a new one for a lost passphrase.

    \b
    Examples:
      crewtrack access give K-04 --by K-01
      crewtrack access give K-04 --by K-01 --reason "passphrase lost"

    The person types the passphrase twice (or CREWTRACK_NEW_PASSPHRASE holds it), a chief signs.
    On a record without any key, the person becomes the first chief.
    """
    from crewtrack.office import access as keys
    from crewtrack.office.entries import Order

    with opened_for(record, author) as office:
        new = asked_passphrase(NEW_PASSPHRASE, f"Passphrase for {person}", twice=True)
        by = office.session.person if office.session else person
        key = keys.give_access(office, person, new, Order(by, reason))
    emit(f"{person} signs in from now on, with the key {key}.")


@access.command()
@click.argument("person")
@click.option("--reason", help="Why.")
@author_option
@record_option
def end(person: str, reason: str | None, author: str, record: str | None) -> None:
    """End a person's access.

    What was signed stays signed.

    \b
    Example:
      crewtrack access end K-04 --by K-01 --reason "left the unit"
    """
    from crewtrack.office import access as keys
    from crewtrack.office.entries import Order

    with opened_for(record, author) as office:
        keys.end_access(office, person, Order(author, reason))
    emit(f"{person} does not sign in any more.")


@click.command()
@author_option
@record_option
def passphrase(author: str, record: str | None) -> None:
    """Change your passphrase; your key stays the same.

    \b
    Example:
      crewtrack passphrase --by K-04

    Both are asked for, or taken from CREWTRACK_PASSPHRASE and CREWTRACK_NEW_PASSPHRASE.
    """
    from crewtrack.office import access as keys

    with opened(record) as office:
        old = asked_passphrase(PASSPHRASE, f"Passphrase of {author}")
        keys.sign_in(office, author, old)
        new = asked_passphrase(NEW_PASSPHRASE, "New passphrase", twice=True)
        keys.change_passphrase(office, old, new)
    emit(f"The passphrase of {author} is changed.")
