"""The criteria of a task as an evaluator marks them: seen and met, seen and not yet met, or not
seen. Those not seen are left out of what is recorded."""

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from crewtrack.office.signing import Marks, marked, marks_of
from crewtrack.screens.language import count_of, later, say

Mark = Literal["yes", "not-yet", "not-seen"]
MARKS: Final[tuple[Mark, ...]] = ("not-seen", "yes", "not-yet")
"""In the order in which Space goes through them."""

_TOLD: Final[Mapping[Mark, str]] = later(
    {"yes": "✔ yes", "not-yet": "✖ not yet", "not-seen": "– not seen"}
)


def mark_told(mark: Mark) -> str:
    """A mark in a word, with its sign."""
    return say(_TOLD[mark])


def remarks(criteria: Sequence[str], marks: Sequence[Mark], words: str) -> str:
    """The remarks as they are recorded."""
    seen = [(one, mark) for one, mark in zip(criteria, marks, strict=True) if mark != "not-seen"]
    return marked([one for one, _ in seen], [mark == "yes" for _, mark in seen], words)


def marks_in(criteria: Sequence[str], recorded: str) -> tuple[Mark, ...]:
    """The marks of some criteria in recorded remarks."""
    met = {" ".join(one.split()): ok for one, ok in marks_of(recorded).criteria}
    return tuple(_mark(met.get(" ".join(one.split()))) for one in criteria)


def counted(recorded: str | None) -> str:
    """``4 of 5 criteria met`` of those that were seen; empty where none was marked."""
    found = marks_of(recorded)
    if not found.criteria:
        return ""
    met = sum(ok for _, ok in found.criteria)
    many = len(found.criteria)
    return say("{met} of {criteria} met", met=met, criteria=_criteria(many))


def told(recorded: str | None) -> str:
    """Marks and words of recorded remarks, in sentences."""
    found: Marks = marks_of(recorded)
    signs = {True: mark_told("yes"), False: mark_told("not-yet")}
    lines = [f"{signs[ok]}: {one}" for one, ok in found.criteria]
    return "\n".join((*lines, found.words) if found.words else lines)


def contradiction(marks: Sequence[Mark], result: str) -> str:
    """What does not go together between marks and result; empty where nothing is amiss."""
    missing = sum(mark == "not-yet" for mark in marks)
    if result == "passed" and missing:
        return count_of(
            missing,
            "{count} criterion is marked not yet, and the result is a pass.",
            "{count} criteria are marked not yet, and the result is a pass.",
        )
    return ""


def _criteria(many: int) -> str:
    return count_of(many, "{count} criterion", "{count} criteria")


def _mark(met: bool | None) -> Mark:
    if met is None:
        return "not-seen"
    return "yes" if met else "not-yet"
