"""Ids for the requirements that the standard leaves without one."""

from collections.abc import Iterable
from dataclasses import replace
from typing import assert_never

from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Holds,
    Recent,
    Requirement,
    Signed,
    inside,
)

Needs = tuple[Requirement, ...]


def with_ids(needs: Needs) -> Needs:
    """The requirements of one qualification, each with an id that no other of them has.

    A written id stays. Any other is made of kind and subject, with a number from 2 on where that
    is taken: ``recent-hand-recovery``, ``recent-hand-recovery-2``; counted over all depths in the
    order of the file.
    """
    everything = (one for need in needs for one in inside(need))
    return _Numbering(one.id for one in everything if one.named).all_of(needs)


class _Numbering:
    def __init__(self, taken: Iterable[str]) -> None:
        self._taken = set(taken)
        self._last: dict[str, int] = {}

    def all_of(self, needs: Needs) -> Needs:
        return tuple(self._one(need) for need in needs)

    def _one(self, need: Requirement) -> Requirement:
        id = need.id if need.named else self._free(_stem(need))
        if isinstance(need, AnyOf | AllOf):
            return replace(need, id=id, needs=self.all_of(need.needs))
        return replace(need, id=id)

    def _free(self, stem: str) -> str:
        number = self._last.get(stem, 1)
        id = stem if number == 1 else f"{stem}-{number}"
        while id in self._taken:
            number += 1
            id = f"{stem}-{number}"
        self._last[stem] = number
        self._taken.add(id)
        return id


def _stem(need: Requirement) -> str:
    match need:
        case Recent():
            return "-".join(("recent", *need.tasks))
        case Signed():
            return f"signed-{need.task}"
        case Certified():
            return f"certificate-{need.kind}"
        case Holds():
            return f"holds-{need.qualification}"
        case AnyOf():
            return "any"
        case AllOf():
            return "all"
    assert_never(need)
