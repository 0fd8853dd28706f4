"""What changed from one edition of the standard to another, in plain words."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeVar, assert_never

from crewtrack.engine.standard import Crew, Qualification, Standard, Task
from crewtrack.screens.columns import safe
from crewtrack.screens.fields import choice_told
from crewtrack.screens.language import say
from crewtrack.screens.rule_words import whole
from crewtrack.screens.standard_page_lines import (
    Line,
    crew_minimum,
    crew_told,
    general,
    minimum_told,
    task_told,
)

One = TypeVar("One", Qualification, Crew, Task)
Did = Literal["added", "dropped", "changed"]


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that differs. ``of`` is what it belongs to ("Deck pilot"), ``what`` the thing
    itself; ``before`` is empty where it was added, ``after`` where it was dropped."""

    of: str
    what: str
    before: str
    after: str

    @property
    def did(self) -> Did:
        """What became of it."""
        if not self.before:
            return "added"
        return "changed" if self.after else "dropped"


def changes(old: Standard, new: Standard) -> tuple[Change, ...]:
    """Everything that differs, in the order of the page; none where both ask for the same."""
    return tuple(_changes(old, new))


def change_lines(found: tuple[Change, ...]) -> tuple[Line, ...]:
    """The changes as lines under what they belong to."""
    if not found:
        return (Line("said", say("Both ask for the same.")),)
    lines: list[Line] = []
    for before, change in zip((None, *found), found, strict=False):
        if before is None or before.of != change.of:
            lines.append(Line("title", change.of))
        lines.append(Line("said", change_told(change), 1))
        if change.did == "changed":
            lines.append(Line("beside", say("was: {before}", before=change.before), 2))
    return tuple(lines)


def change_told(change: Change) -> str:
    """What became of something, where what it belongs to is told already."""
    values = {"what": change.what, "before": change.before, "after": change.after}
    match change.did:
        case "added":
            return say("Added, {what}: {after}", **values)
        case "dropped":
            return say("Dropped, {what}: {before}", **values)
        case "changed":
            return say("Changed, {what}: {after}", **values)
        case _:
            assert_never(change.did)


def _changes(old: Standard, new: Standard) -> Iterator[Change]:
    edition = say("The edition")
    for (name, before), (_, after) in zip(general(old), general(new), strict=True):
        if before != after:
            yield Change(edition, name, before, after)
    editions = (old, new)
    yield from _each(old.qualifications, new.qualifications, _qualification, editions)
    yield from _each(old.crews, new.crews, _crew, editions)
    yield from _each(old.tasks, new.tasks, _task, editions)


Said = Mapping[str, tuple[str, str]]
"""What is said of one thing, by a key: what it is called, and its value in words."""


def _qualification(one: Qualification, standard: Standard) -> Said:
    duty = choice_told(one.duty) if one.duty else say("any duty")
    return {
        " title": (say("Title"), safe(one.title)),
        " duty": (say("Duty"), duty),
        " minimum": (say("Minimum"), minimum_told(one.minimum)),
        **{need.id: (need.id, safe(whole(need, standard))) for need in one.needs},
    }


def _crew(one: Crew, standard: Standard) -> Said:
    return {
        " title": (say("Title"), safe(one.title)),
        " minimum": (say("Minimum"), crew_minimum(one.minimum)),
        " seats": (say("Seats"), crew_told(standard, one.key)),
    }


def _task(one: Task, standard: Standard) -> Said:
    return {
        " title": (say("Title"), safe(one.title)),
        " terms": (say("Terms"), task_told(one, standard)),
        **{line: (say("Criterion"), safe(line)) for line in one.criteria},
    }


def _each(
    old: Mapping[str, One],
    new: Mapping[str, One],
    said: Callable[[One, Standard], Said],
    editions: tuple[Standard, Standard],
) -> Iterator[Change]:
    """What differs in things of one kind, matched by their keys."""
    for key in dict.fromkeys((*old, *new)):
        was: Said = said(old[key], editions[0]) if key in old else {}
        now: Said = said(new[key], editions[1]) if key in new else {}
        _, title = (now or was)[" title"]
        for name in dict.fromkeys((*was, *now)):
            what, before = was.get(name, ("", ""))
            named, after = now.get(name, (what, ""))
            if before != after:
                yield Change(title, named, before, after)
