"""Conditions worth flying in: those that requirements of recent practice ask for, and joined ones
that serve several of them at once."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields
from itertools import combinations
from typing import Any, Final

from crewtrack.engine.requirement import Floor, Only, Recent

_MOST: Final = 5
"""Different conditions of which every combination is tried; of more, each alone and all."""


@dataclass(frozen=True, slots=True)
class Setting:
    """A live sortie's conditions: just those of a floor, on craft that count for ``only``, of so
    many minutes (0: it does not matter)."""

    floor: Floor
    only: Only
    minutes: int = 0


def worth_trying(leaves: Sequence[Recent]) -> Iterator[Setting]:
    """Settings for some requirements, those that join fewer of them first."""
    asked = tuple(dict.fromkeys((leaf.floor, leaf.only) for leaf in leaves))
    minutes = max((leaf.amount for leaf in leaves if leaf.measure == "minutes"), default=0)
    sizes: Iterable[int] = range(1, len(asked) + 1)
    if len(asked) > _MOST:
        sizes = (1, len(asked))
    for size in sizes:
        for some in combinations(asked, size):
            only = _common_craft(craft for _, craft in some)
            if only is not None:
                yield Setting(_hardest([floor for floor, _ in some]), only, minutes)


def meets(setting: Setting, leaf: Recent) -> bool:
    """Whether what is flown in a setting counts for a requirement."""
    hard = all(
        least is None or ((have := getattr(setting.floor, name)) is not None and have >= least)
        for name, least in _asked(leaf.floor)
    )
    return hard and _common_craft((setting.only, leaf.only)) == setting.only


def _asked(floor: Floor) -> Iterator[tuple[str, Any]]:
    return ((field.name, getattr(floor, field.name)) for field in fields(Floor))


def _hardest(floors: Sequence[Floor]) -> Floor:
    """Conditions that meet all of the floors."""
    held: dict[str, Any] = {}
    for name, least in (asked for floor in floors for asked in _asked(floor)):
        if least is not None:
            held[name] = max(held.get(name, least), least)
    return Floor(**held)


def _common_craft(asked: Iterable[Only]) -> Only | None:
    """The kinds of craft that count for all; None where no kind does."""
    aircraft: tuple[str, ...] | None = ()
    vessel: tuple[str, ...] | None = ()
    for only in asked:
        aircraft = _common(aircraft or (), only.aircraft)
        vessel = _common(vessel or (), only.vessel)
        if aircraft is None or vessel is None:
            return None
    return Only(aircraft or (), vessel or ())


def _common(one: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...] | None:
    """The kinds in both, where an empty tuple is any kind; None where there is none."""
    if not one or not other:
        return one or other
    return tuple(kind for kind in one if kind in other) or None
