"""Where two drafts of one sortie differ: what somebody else made of it, and what is typed here."""

from collections.abc import Iterator

from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.screens import fields
from crewtrack.screens.language import say
from crewtrack.screens.sortie_draft import FIELDS, TASK_FIELDS, SortieDraft, TaskLine


def differences(theirs: SortieDraft, yours: SortieDraft) -> tuple[str, ...]:
    """One sentence for each field, then for each task; none where both say the same."""
    return (*_fields(theirs, yours), *_tasks(theirs, yours))


def field_told(name: str) -> str:
    """What a field of the form is called."""
    match name:
        case "date":
            return say("Launch date")
        case "time":
            return say("Launch time")
        case "wind":
            return say("Wind from / kn")
        case "current":
            return say("Set / drift kn")
        case _:
            return fields.label(SORTIES, name)


def _fields(theirs: SortieDraft, yours: SortieDraft) -> Iterator[str]:
    for name in FIELDS:
        if theirs.text(name) != yours.text(name):
            yield _line(field_told(name), theirs.text(name), yours.text(name))


def _tasks(theirs: SortieDraft, yours: SortieDraft) -> Iterator[str]:
    first, second = (
        {(line.person, line.task): line for line in draft.tasks if not line.blank}
        for draft in (theirs, yours)
    )
    for person, task in dict.fromkeys((*first, *second)):
        told = [
            _brief(found) if (found := lines.get((person, task))) else ""
            for lines in (first, second)
        ]
        if told[0] != told[1]:
            yield _line(f"{person}, {task}", *told)


def _brief(line: TaskLine) -> str:
    named = ((name, line.text(name)) for name in TASK_FIELDS[2:])
    return ", ".join(f"{fields.label(PERFORMANCES, name)} {text}" for name, text in named if text)


def _line(what: str, theirs: str, yours: str) -> str:
    return say("{what}: theirs {theirs}, yours {yours}", what=what, theirs=theirs or "–",
               yours=yours or "–")  # fmt: skip
