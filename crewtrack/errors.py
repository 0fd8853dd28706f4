"""Errors, by whose fault they are.

``Refused`` is the fault of what was given (exit code 2), ``RecordUnusable`` that of the record or
of the place it lies in (exit code 3). Anything else that is raised is a bug in the program.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong in what a user gave.

    ``place`` is where ("performances.csv:218", "standard.toml:12", "--on"), ``field`` the column,
    key path or option within it (may be empty), ``problem`` what is wrong, with the value, and
    ``cure`` what would be right (may be empty).
    """

    place: str
    field: str
    problem: str
    cure: str = ""

    def __str__(self) -> str:
        told = ": ".join(part for part in (self.place, self.field, self.problem) if part)
        return f"{told}; {self.cure}" if self.cure else told


class CrewtrackError(Exception):
    """The root of all errors that a user is told in a sentence."""


class Refused(CrewtrackError):
    """What was given can't be taken. Holds every fault found, in the order of the input."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = faults


class RecordUnusable(CrewtrackError):
    """The record can't be used; the message is one sentence that says why and what to do."""


class NotBackedUp(RecordUnusable):
    """No backup could be made before an act that wants one, so nothing was done; it may be done
    without, where somebody says so."""
