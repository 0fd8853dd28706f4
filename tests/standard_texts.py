"""Standards as TOML text, and what the reader finds wrong with them."""

from dataclasses import dataclass

from crewtrack.engine.requirement import Requirement
from crewtrack.engine.standard import Standard
from crewtrack.errors import Fault, Refused
from crewtrack.files.standard_file import read_standard

HEAD = 'edition = "2026-1"\neffective = 2026-01-01\nzone = "America/Detroit"\n'
TASKS = "[tasks.hand-recovery]\n[tasks.deck-launch]\n"
BEFORE_NEED = HEAD + TASKS + "[qualifications.observer]\nneeds = [{ certificate = 'm' }]\n"
"""Eight lines; then comes the qualification of ``with_needs``."""


def with_needs(*needs: str) -> str:
    """A standard whose qualification ``deck-pilot`` has these needs, the first on line 11."""
    listed = "".join(f"  {need},\n" for need in needs)
    return f"{BEFORE_NEED}\n[qualifications.deck-pilot]\nneeds = [\n{listed}]\n"


def read(text: str) -> Standard:
    """What the text says."""
    return read_standard(text, "unit.toml")


def need(text: str) -> Requirement:
    """What one requirement says."""
    return read(with_needs(text)).qualifications["deck-pilot"].needs[0]


def faults(text: str) -> tuple[Fault, ...]:
    """Everything that is wrong with a standard; empty if nothing is."""
    try:
        read(text)
    except Refused as refused:
        return refused.faults
    return ()


@dataclass(frozen=True)
class Told:
    """One fault of one requirement: the key it is told at, and what is told."""

    key: str
    problem: str
    cure: str


def need_faults(text: str) -> list[Told]:
    """What is wrong with one requirement; keys are relative to it."""
    inside = "qualifications.deck-pilot.needs[1]"
    return [
        Told(fault.field.removeprefix(inside).removeprefix("."), fault.problem, fault.cure)
        for fault in faults(with_needs(text))
    ]
