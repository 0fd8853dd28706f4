"""What the floors below say, for somebody at a window: where they name a command or an option as
the cure, a window has another."""

from collections.abc import Mapping
from typing import Final

from crewtrack.errors import Fault, RecordUnusable
from crewtrack.phrases import Joined, Phrase, later
from crewtrack.screens.language import say

HERE: Final[Mapping[str, str]] = {
    "make a record with 'crewtrack init --standard FILE', or name another with --db": later(
        "open another, or make a new one"
    ),
    "name a record's file with --db": later("choose a record's file"),
    "put a backup back with 'crewtrack restore FILE', or remove the file and make a record with"
    " 'crewtrack init --standard FILE'": later(
        "put a backup in its place, or remove the file and make a new record"
    ),
    "name a crewtrack record with --db": later("choose a crewtrack record"),
    "put the last backup back with 'crewtrack restore FILE'": later(
        "put the last backup in its place"
    ),
    "name another with --db": later("choose another"),
    "is read-only; allow writing to the file, or name another record with --db": later(
        "is read-only; allow writing to the file, or open another record"
    ),
    "is read-only; allow writing to the file and its folder, or name another record with"
    " --db": later(
        "is read-only; allow writing to the file and its folder, or open another record"
    ),
    "is damaged; put the last backup back with 'crewtrack restore FILE'": later(
        "is damaged; put the last backup in its place"
    ),
    "move that log to another folder and open the record again, or put the last backup back with"
    " 'crewtrack restore FILE'": later(
        "move that log to another folder and open the record again, or put the last backup in its"
        " place"
    ),
    "holds something that is not as it was recorded ({what}); see 'crewtrack verify', and put"
    " the last good backup back with 'crewtrack restore FILE'": later(
        "holds something that is not as it was recorded ({what}); verify it on the page Record, and"
        " put the last good backup in its place"
    ),
    "{source} could not be copied soundly to {target}; look whether the disk is failing, or put a"
    " backup back with 'crewtrack restore FILE'": later(
        "{source} could not be copied soundly to {target}; look whether the disk is failing, or put"
        " a backup in its place"
    ),
    "the record holds no standard: it was never finished; make another with"
    " 'crewtrack init --standard FILE'": later(
        "the record holds no standard: it was never finished; make another"
    ),
    "name a whole backup of a crewtrack record, made with 'crewtrack backup'": later(
        "choose a whole backup of a crewtrack record"
    ),
    "see 'crewtrack verify', and use a backup that is whole": later("use a backup that is whole"),
    "name one that is new with --db FILE": later("choose a name that is new"),
    'adopting it needs a reason: add --reason "why"': later("adopting it needs a reason"),
    'to revise it, import with --revise --reason "why it changed"': later(
        "to revise it, take over what differs, with a reason"
    ),
    'add --reason "why it changed"': later("give a reason"),
    "nothing was done, since there can be no backup before it: {why}; see to that, or go on without"
    " one: --no-backup": later("Nothing was done, since there can be no backup before it: {why}."),
}
"""The wording in a window, by the wording of the command line."""


_FORMLESS: Final = frozenset({"author", "passphrase"})


def told_here(text: str) -> str:
    """A sentence from below in the language in use, with the cures of a window."""
    match text:
        case Phrase():
            wording = HERE.get(text.template, text.template)
            return say(wording, **{name: _filled(v) for name, v in text.values.items()})
        case Joined():
            return text.separator.join(map(told_here, text.parts))
        case _:
            return _replaced(text)


def backup_helps(error: BaseException) -> bool:
    """Whether putting a backup in the record's place is the cure."""
    return isinstance(error, RecordUnusable) and "crewtrack restore" in str(error)


def fault_told_here(fault: Fault) -> str:
    """A fault as one sentence; an option's name says nothing in a window, nor does that of a
    field that no form has."""
    place = "" if fault.place.startswith("--") else fault.place
    field = "" if fault.field in _FORMLESS and not place else fault.field
    return str(Fault(place, field, told_here(fault.problem), told_here(fault.cure)))


def _filled(value: object) -> object:
    return told_here(value) if isinstance(value, str) else value


def _replaced(text: str) -> str:
    """A sentence that has forgotten how it was made: the longest wording goes first, since some
    hold others."""
    for command, here in sorted(HERE.items(), key=lambda pair: -len(pair[0])):
        if "{" not in command and command in text:
            text = text.replace(command, say(here))
    return text
