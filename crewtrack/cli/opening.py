"""Opening the record that a command names, and the instant that a question is asked as known at."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from crewtrack.cli.passphrases import PASSPHRASE, asked_passphrase
from crewtrack.cli.terminal import tell
from crewtrack.errors import Fault, RecordUnusable, Refused

if TYPE_CHECKING:
    from zoneinfo import ZoneInfo

    from crewtrack.office.office import Office

_SERVER = re.compile(r"[a-z][a-z0-9+]+:/")  # a drive of Windows has one letter


def place_of(record: str | None) -> str | Path:
    """The record named, or else the default one."""
    from crewtrack.office.unnamed import default_record

    where = record or default_record()
    if _SERVER.match(str(where)):
        raise RecordUnusable(f"{where} is on a server, which this crewtrack can't use; name a file")
    return where


def _nothing() -> None:
    """No line to take away."""


@contextmanager
def opened(record: str | None, clear: Callable[[], None] = _nothing) -> "Iterator[Office]":
    """The office over the record named, or over the default one. That another program is waited
    for is told once, after ``clear`` has taken away what stands in the terminal's last line.
    Where a backup would help, the error says which."""
    from crewtrack.office.office import Office

    where = place_of(record)
    try:
        with Office.open(where) as office:
            office.on_waiting(_once(clear))
            yield office
    except RecordUnusable as error:
        from crewtrack.screens.window_words import backup_helps

        if backup_helps(error):
            error.add_note(advice_for(Path(where)))
        raise


def advice_for(record: Path, progress: Callable[[str, int, int], None] | None = None) -> str:
    """Which backup to put in the place of a damaged record, and how."""
    from crewtrack.office import safekeeping
    from crewtrack.office.office import silent
    from crewtrack.screens.backup_words import restore_advice

    best = safekeeping.best_backup(record, progress or silent)
    return restore_advice(best, safekeeping.folder_of(record), record)


def _once(clear: Callable[[], None]) -> Callable[[], None]:
    told: list[str] = []

    def waiting() -> None:
        if not told:
            told.append("Another program is writing to the record; waiting…")
            clear()
            tell(told[0])

    return waiting


@contextmanager
def opened_for(
    record: str | None, author: str, clear: Callable[[], None] = _nothing
) -> "Iterator[Office]":
    """The same for a command that writes: where people sign in to the record, ``author`` does,
    and all within is signed. A usage error where it is nobody who could, or where there is no
    passphrase to be had."""
    from crewtrack.office import access

    with opened(record, clear) as office:
        able = dict(access.able_people(office)) if access.is_identified(office) else None
        if able is None:
            yield office
            return
        if author not in able:
            people = ", ".join(f"{person} {name}" for person, name in able.items())
            raise click.UsageError(
                f"This record asks who you are, and {author!r} can't sign in to it; give --by"
                f" PERSON (or set CREWTRACK_BY). These can: {people}."
            )
        passphrase = asked_passphrase(PASSPHRASE, f"Passphrase of {author}")
        access.sign_in(office, author, passphrase)
        with access.signing(office, passphrase):
            yield office


def known_instant(
    text: str | None, zone: "Callable[[], ZoneInfo]", clock: Callable[[], datetime]
) -> datetime | None:
    """The instant of ``--known-at``. Without an offset it is read in the unit's zone; a date alone
    means through the end of that day there, as a last day is always included, and today's date
    through now."""
    from crewtrack.bad_cell import BadCell
    from crewtrack.screens.known_entry import read_known_at

    if text is None:
        return None
    try:
        return read_known_at(text, zone(), clock())
    except BadCell as bad:
        raise Refused(Fault("--known-at", "", bad.problem, bad.cure)) from None
