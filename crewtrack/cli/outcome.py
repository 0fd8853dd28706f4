"""How a run of the program ends: which exit code, and what is said about it on standard error.

0 done; 1 the answer is no; 2 what was given is wrong; 3 the record can't be used. Beyond the
promise of those four: 70 a defect of the program (its details go to a file, never to the
terminal), 130 stopped from the keyboard, 141 whoever read the output left early; the last two
are what a shell reports for programs that end so.
"""

import errno
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Final

import click

from crewtrack.cli.parser import crewtrack
from crewtrack.cli.terminal import (
    MOST_TOLD,
    PipeClosed,
    discard_output,
    finish_output,
    prepare_output,
    tell,
)
from crewtrack.errors import Fault, RecordUnusable, Refused
from crewtrack.office.defects import written_down

DONE: Final = 0
REFUSED: Final = 2
RECORD_UNUSABLE: Final = 3
DEFECT: Final = 70
STOPPED: Final = 130
PIPE_CLOSED: Final = 141


OpenDesk = Callable[[Path | None], int]
"""Opens the desk on a record (None: the last one that was open) and returns its exit code. It is
handed in, since the terminal's side of the program never sees Qt."""


def _no_desk(_: Path | None) -> int:
    problem = "whoever started the command line gave it no desk"
    raise Refused(Fault("desk", "", problem, "start the program as 'crewtrack'"))


def run(arguments: Sequence[str], open_desk: OpenDesk = _no_desk) -> int:
    """Run one command; the exit code. Writes to the standard streams, and never raises."""
    prepare_output()
    try:
        code = _answer(arguments, open_desk)
        finish_output()
    except PipeClosed:
        discard_output()
        return PIPE_CLOSED
    return code


def _answer(arguments: Sequence[str], open_desk: OpenDesk) -> int:
    """The exit code of one command, its errors told in sentences."""
    try:
        answer = crewtrack.main(
            list(arguments), prog_name="crewtrack", standalone_mode=False, obj=open_desk
        )
        return answer if isinstance(answer, int) else DONE
    except click.Abort:
        tell("Stopped.")
        return STOPPED
    except click.ClickException as wrong:
        wrong.show()
        return REFUSED
    except Refused as refused:
        _tell_faults(refused.faults)
        _tell_notes(refused)
        return REFUSED
    except RecordUnusable as unusable:
        tell(str(unusable))
        _tell_notes(unusable)
        return RECORD_UNUSABLE
    except PipeClosed:
        raise
    except Exception as unexpected:  # noqa: BLE001 - the last stop: a user is never shown a traceback
        return _tell_unexpected(unexpected)


def _tell_faults(faults: Sequence[Fault]) -> None:
    """At most 50 faults, one a line, and the count of the rest."""
    for fault in faults[:MOST_TOLD]:
        tell(str(fault))
    rest = len(faults) - MOST_TOLD
    if rest > 0:
        tell(f"… and {rest} more {'fault' if rest == 1 else 'faults'}.")


def _tell_notes(error: Exception) -> None:
    for note in getattr(error, "__notes__", ()):
        tell(note)


def _tell_unexpected(unexpected: Exception) -> int:
    """Say what the system refused; anything else is a defect of the program."""
    if isinstance(unexpected, OSError) and (
        unexpected.filename or unexpected.errno == errno.ENOSPC
    ):
        where = f"{unexpected.filename}: " if unexpected.filename else ""
        tell(f"{where}{(unexpected.strerror or str(unexpected)).lower()}")
        return REFUSED
    tell(
        f"This is a defect of the program, not of what you gave it: {type(unexpected).__name__}."
        f" {written_down(unexpected)}"
    )
    return DEFECT
