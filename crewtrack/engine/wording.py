"""A requirement's rule in plain words, in the trade's terms and the standard's own titles."""

from collections.abc import Sequence
from typing import assert_never

from crewtrack.engine.days import Duration, Horizon
from crewtrack.engine.requirement import (
    AllOf,
    AnyOf,
    Certified,
    Floor,
    Holds,
    Only,
    Recent,
    Requirement,
    Signed,
)
from crewtrack.engine.standard import Standard
from crewtrack.facts import LEVELS, WAYS

_DARKNESS = ("by day or darker", "in twilight or at night", "at night")
"""The least light that counts, by its position in ``facts.LIGHTS``."""


def rule(requirement: Requirement, standard: Standard) -> str:
    """What a requirement asks for, in one line."""
    match requirement:
        case Recent():
            return _recent(requirement, standard)
        case Signed():
            return _signed(requirement, standard)
        case Certified():
            return _certified(requirement)
        case Holds():
            return f"{standard.qualifications[requirement.qualification].title} is held"
        case AnyOf():
            return "any one of these"
        case AllOf():
            return "all of these"
        case _:
            assert_never(requirement)


def _recent(requirement: Recent, standard: Standard) -> str:
    parts = [
        f"{titles(requirement.tasks, standard)}: {amount(requirement, requirement.amount)}"
        f"{window(requirement.horizon)}",
        at_least(requirement.floor),
        only_on(requirement.only),
    ]
    if requirement.drills == 0:
        parts.append("drills do not count")
    elif requirement.drills is not None:
        parts.append(f"at most {amount(requirement, requirement.drills)} of that in drills")
    if requirement.supervised_regain:
        parts.append("while it is not met only supervised ones count")
    if requirement.recheck is not None:
        gap = length(requirement.recheck)
        parts.append(f"at first, and after more than {gap} without it, only by a sign-off")
    return ", ".join(part for part in parts if part)


def _signed(requirement: Signed, standard: Standard) -> str:
    told = (
        f"{standard.tasks[requirement.task].title}: signed off "
        f"{at_level(requirement.level)}{window(requirement.horizon)}"
    )
    if requirement.early:
        told += f", {_months(requirement.early)} early keeps the date"
    if requirement.late:
        told += f", {_months(requirement.late)} late allowed"
    return told


def _certified(requirement: Certified) -> str:
    told = f"certificate {requirement.kind}{window(requirement.horizon)}"
    bands = [
        (f"under {band.under}" if band.under is not None else "older") + window(band.horizon)
        for band in requirement.ages
    ]
    return f"{told}, by age on the issue date: {'; '.join(bands)}" if bands else told


def at_level(level: int) -> str:
    """The least level that counts, by its position in ``facts.LEVELS``."""
    highest = level == len(LEVELS) - 1
    return f"at level {LEVELS[level]}{'' if highest else ' or above'}"


def titles(tasks: Sequence[str], standard: Standard) -> str:
    """The tasks' titles, any of which counts."""
    return " or ".join(standard.tasks[task].title for task in tasks)


def amount(requirement: Recent, count: int) -> str:
    """So many of a requirement's measure: "3 times", "1 sortie", "120 minutes"."""
    one = {"times": "time", "minutes": "minute", "sorties": "sortie", "days": "day"}
    return f"{count} {one[requirement.measure] if count == 1 else requirement.measure}"


def needed(requirement: Recent) -> str:
    """The amount that a requirement needs, where the task was named before: "3", "120 minutes"."""
    times = requirement.measure == "times"
    return str(requirement.amount) if times else amount(requirement, requirement.amount)


def length(duration: Duration) -> str:
    """A duration in words: "90 days", "2 years"."""
    if duration.days:
        return f"{duration.days} day" + ("" if duration.days == 1 else "s")
    if duration.months % 12 == 0:
        years = duration.months // 12
        return f"{years} year" + ("" if years == 1 else "s")
    return _months(duration.months)


def _months(count: int) -> str:
    return f"{count} month" + ("" if count == 1 else "s")


def window(horizon: Horizon) -> str:
    """How long one thing counts, with a leading blank; empty where there is no limit."""
    if horizon.each is not None:
        return f" each {horizon.each}"
    if horizon.within is None:
        return ""
    return f" in {length(horizon.within)}" + (", to the month's end" if horizon.month_end else "")


def grounds(reason: str, by: str) -> str:
    """Who decided something and why: "by A. Moss: boat in the yard"; as far as it is told."""
    return ": ".join(part for part in (f"by {by}" if by else "", reason) if part)


def at_least(floor: Floor) -> str:
    """The least demanding conditions that count; empty where nothing is asked."""
    asked = [
        _DARKNESS[floor.light] if floor.light is not None else "",
        _ways(floor.way) if floor.way is not None else "",
        f"sea {floor.sea} or above" if floor.sea is not None else "",
        f"wind {floor.wind:g} kn or more" if floor.wind is not None else "",
        f"{floor.apparent:g} kn or more over the deck" if floor.apparent is not None else "",
    ]
    return ", ".join(part for part in asked if part)


def _ways(least: int) -> str:
    *others, hardest = (way.replace("-", " ") for way in WAYS[least:])
    return f"{', '.join(others)} or {hardest}" if others else hardest


def only_on(only: Only) -> str:
    """The kinds of craft that count; empty where any does."""
    told = [
        f"on {' or '.join(only.aircraft)}" if only.aircraft else "",
        f"from {' or '.join(only.vessel)}" if only.vessel else "",
    ]
    return ", ".join(part for part in told if part)
