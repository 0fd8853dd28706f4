"""A requirement's rule in plain words, in the trade's terms and the standard's own titles."""

from collections.abc import Sequence
from typing import Final, assert_never

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
from crewtrack.facts import DUTIES, LEVELS, LIGHTS, RELIEFS, WAYS
from crewtrack.phrases import Phrase, count_of, either, joined, later, phrase

_DARKNESS: Final = (
    later("by day or darker"),
    later("in twilight or at night"),
    later("at night"),
)
"""The least light that counts, by its position in ``facts.LIGHTS``."""
_LIGHTS: Final = dict(zip(LIGHTS, (later("day"), later("twilight"), later("night")), strict=True))
_WAYS: Final = dict(
    zip(
        WAYS,
        (later("moored"), later("anchored"), later("drifting"), later("under way")),
        strict=True,
    )
)
_LEVELS: Final = dict(
    zip(
        LEVELS,
        (later("briefed"), later("supervised"), later("alone"), later("evaluator")),
        strict=True,
    )
)
_SIGNERS: Final = dict(
    zip(
        DUTIES,
        (
            later("a pilot"),
            later("an observer"),
            later("a handler"),
            later("a helm"),
            later("an evaluator"),
            later("an officer"),
            later("a chief"),
        ),
        strict=True,
    )
)
_RELIEFS: Final = dict(zip(RELIEFS, (later("waiver"), later("extension")), strict=True))
_PERIODS: Final = {
    "month": later("calendar month"),
    "quarter": later("calendar quarter"),
    "half-year": later("half of a calendar year"),
    "year": later("calendar year"),
}


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
            title = standard.qualifications[requirement.qualification].title
            return phrase("{qualification} is held", qualification=title)
        case AnyOf():
            return phrase("any one of these")
        case AllOf():
            return phrase("all of these")
        case _:
            assert_never(requirement)


def _recent(requirement: Recent, standard: Standard) -> str:
    return joined(
        ", ",
        (
            _how_much(requirement, standard),
            at_least(requirement.floor),
            only_on(requirement.only),
            _drills(requirement),
            phrase("once lapsed, only supervised ones count")
            if requirement.supervised_regain
            else "",
            _recheck(requirement),
        ),
    )


def _how_much(requirement: Recent, standard: Standard) -> str:
    task, horizon = titles(requirement.tasks, standard), requirement.horizon
    told = _how_often(requirement, requirement.amount)
    if horizon.each is not None:
        period = phrase(_PERIODS[horizon.each])
        return phrase("{task}: {amount} in each {period}", task=task, amount=told, period=period)
    if horizon.within is None:
        return phrase("{task}: {amount}, at any time", task=task, amount=told)
    return phrase("{task}: {amount} in {time}", task=task, amount=told, time=_time(horizon))


def _how_often(requirement: Recent, count: int) -> str:
    match requirement.measure:
        case "times":
            return count_of(count, "once", "{count} times")
        case "minutes":
            return count_of(count, "{count} minute", "{count} minutes")
        case "sorties":
            return count_of(count, "on {count} sortie", "on {count} sorties")
        case "days":
            return count_of(count, "on {count} day", "on {count} different days")
        case _:
            assert_never(requirement.measure)


def _drills(requirement: Recent) -> str:
    most = requirement.drills
    if most is None:
        return ""
    if most == 0:
        return phrase("none of it a drill")
    if requirement.measure == "minutes":
        return count_of(
            most,
            "at most {count} minute of it in drills",
            "at most {count} minutes of it in drills",
        )
    return count_of(most, "at most {count} of them a drill", "at most {count} of them drills")


def _recheck(requirement: Recent) -> str:
    if requirement.recheck is None:
        return ""
    time = length(requirement.recheck)
    return phrase("at the start, and after more than {time} out, only by a sign-off", time=time)


def _signed(requirement: Signed, standard: Standard) -> str:
    task, level = standard.tasks[requirement.task].title, at_level(requirement.level)
    early, late = requirement.early, requirement.late
    return joined(
        ", ",
        (
            phrase("{task}: signed off {level}", task=task, level=level),
            _lasting(requirement.horizon),
            phrase("up to {time} early keeps the date", time=_months(early)) if early else "",
            phrase("up to {time} late is allowed", time=_months(late)) if late else "",
        ),
    )


def _certified(requirement: Certified) -> str:
    told = [certificate(requirement.kind), _lasting(requirement.horizon)]
    for band in requirement.ages:
        time, age = _time(band.horizon), band.under
        told.append(
            phrase("good for {time} from there on", time=time)
            if age is None
            else phrase("good for {time} if issued before the age of {age}", time=time, age=age)
        )
    return joined(", ", told)


def _lasting(horizon: Horizon) -> str:
    """How long one thing counts; empty where it has no end."""
    if horizon.each is not None:
        return phrase("anew in each {period}", period=phrase(_PERIODS[horizon.each]))
    return phrase("good for {time}", time=_time(horizon)) if horizon.within else ""


def _time(horizon: Horizon) -> str:
    if horizon.within is None:
        return phrase("all time")
    time = length(horizon.within)
    return phrase("{time}, to the end of that month", time=time) if horizon.month_end else time


def certificate(kind: str) -> str:
    """A kind of certificate, named."""
    return phrase("certificate {kind}", kind=kind)


def at_level(level: int) -> str:
    """The least level that counts, by its position in ``facts.LEVELS``."""
    least = phrase(_LEVELS[LEVELS[level]])
    if level == len(LEVELS) - 1:
        return phrase("at level {level}", level=least)
    return phrase("at level {level} or above", level=least)


def titles(tasks: Sequence[str], standard: Standard) -> str:
    """The tasks' titles, any of which counts."""
    return either(standard.tasks[task].title for task in tasks)


def needed(requirement: Recent) -> str:
    """The amount that a requirement needs, where the task was named before: "3", "120 minutes"."""
    count = requirement.amount
    match requirement.measure:
        case "times":
            return str(count)
        case "minutes":
            return count_of(count, "{count} minute", "{count} minutes")
        case "sorties":
            return count_of(count, "{count} sortie", "{count} sorties")
        case "days":
            return count_of(count, "{count} day", "{count} days")
        case _:
            assert_never(requirement.measure)


def length(duration: Duration) -> str:
    """A duration in words: "90 days", "2 years"."""
    if duration.days:
        return count_of(duration.days, "{count} day", "{count} days")
    if duration.months % 12 == 0:
        return count_of(duration.months // 12, "{count} year", "{count} years")
    return _months(duration.months)


def _months(count: int) -> Phrase:
    return count_of(count, "{count} month", "{count} months")


def grounds(reason: str, by: str) -> str:
    """Who decided something and why: "by A. Moss: boat in the yard"; as far as it is told."""
    return joined(": ", (phrase("by {name}", name=by) if by else "", reason))


def at_least(floor: Floor) -> str:
    """The least demanding conditions that count; empty where nothing is asked."""
    return joined(
        ", ",
        (
            phrase(_DARKNESS[floor.light]) if floor.light is not None else "",
            either(map(way_told, WAYS[floor.way :])) if floor.way is not None else "",
            phrase("sea {state} or above", state=floor.sea) if floor.sea is not None else "",
            phrase("wind {speed} kn or more", speed=f"{floor.wind:g}")
            if floor.wind is not None
            else "",
            phrase("{speed} kn or more over the deck", speed=f"{floor.apparent:g}")
            if floor.apparent is not None
            else "",
        ),
    )


def way_told(way: str) -> str:
    """One of ``facts.WAYS``, in words."""
    return phrase(_WAYS[way])


def light_told(light: str) -> str:
    """One of ``facts.LIGHTS``, in words."""
    return phrase(_LIGHTS[light])


def relief_told(kind: str) -> str:
    """One of ``facts.RELIEFS``, in words."""
    return phrase(_RELIEFS[kind])


def signer_told(duty: str) -> str:
    """Somebody with one of ``facts.DUTIES``, in words: "an officer"."""
    return phrase(_SIGNERS[duty])


def only_on(only: Only) -> str:
    """The kinds of craft that count; empty where any does."""
    return joined(
        ", ",
        (
            phrase("on {aircraft}", aircraft=either(only.aircraft)) if only.aircraft else "",
            phrase("from {boat}", boat=either(only.vessel)) if only.vessel else "",
        ),
    )
