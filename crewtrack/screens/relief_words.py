"""What is said of waivers and extensions, which are told apart wherever they show."""

from collections.abc import Iterable, Iterator, Mapping

from crewtrack.engine.evidence import Waiver
from crewtrack.engine.spans import as_date
from crewtrack.engine.standings import Explained, Explanation, Roster, Standing
from crewtrack.engine.wording import grounds
from crewtrack.phrases import later, phrase
from crewtrack.screens.columns import safe
from crewtrack.screens.standing_words import day_or

Kinds = Mapping[str, str]
"""``waiver`` or ``extension``, by key."""

LETTERS: Mapping[str, str] = {"waiver": "W", "extension": "E"}
EITHER = later("relief")
"""For a key whose kind is not told."""


def kinds_of(roster: Roster) -> Kinds:
    """The kinds of all that any standing of the roster rests on."""
    return {relief.key: relief.kind for relief in roster.reliefs}


def kinds_explained(explanation: Explanation) -> Kinds:
    """The kinds of all that counts in an explanation."""
    return dict(_kinds_in(explanation.requirements))


def _kinds_in(needs: Iterable[Explained]) -> Iterator[tuple[str, str]]:
    for need in needs:
        yield from ((each.key, each.kind) for each in need.counted if each.kind in LETTERS)
        yield from _kinds_in(need.needs)


def letters(standing: Standing, kinds: Kinds) -> str:
    """W where a standing rests on a waiver, E on an extension, WE on both."""
    found = {LETTERS.get(kinds.get(key, ""), "R") for key in standing.by_waiver}
    return "".join(letter for letter in "WER" if letter in found)


def told(standing: Standing, kinds: Kinds) -> tuple[str, ...]:
    """Each waiver and extension that a standing rests on: its kind and key."""
    return tuple(
        phrase("{kind} {key}", kind=phrase(kinds.get(key, EITHER)), key=safe(key))
        for key in standing.by_waiver
    )


def span(relief: Waiver) -> str:
    """Which requirement it is for, from when through when, who granted it and why."""
    first, last = as_date(relief.first), as_date(relief.last)
    told = f"of {relief.requirement}, {day_or(first, '')} to {day_or(last, 'no limit')}"
    why = safe(grounds(relief.reason, relief.by))
    return f"{told}, {why}" if why else told
