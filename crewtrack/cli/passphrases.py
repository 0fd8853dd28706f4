"""Passphrases on the command line: from a variable of the environment, else asked for on the
terminal without showing what is typed. They are never options, which everybody on the machine can
read and shells keep."""

import os
import sys
from typing import Final

import click

PASSPHRASE: Final = "CREWTRACK_PASSPHRASE"
NEW_PASSPHRASE: Final = "CREWTRACK_NEW_PASSPHRASE"


def asked_passphrase(variable: str, told: str, *, twice: bool = False) -> str:
    """What the variable holds, else what somebody types (``twice`` the same, where it is new); a
    usage error where there is neither."""
    given = os.environ.get(variable)
    if given:
        return given
    if not sys.stdin.isatty():
        raise click.UsageError(
            f"{told}: there is no terminal to ask on; set {variable} for this command."
        )
    typed: str = click.prompt(told, hide_input=True, err=True, confirmation_prompt=twice)
    return typed
