"""What an act changed, in words: ``Deck pilot, through 2027-01-14 (was 2026-12-03)``."""

from collections.abc import Mapping

from crewtrack.engine.standings import Standing
from crewtrack.office.changes import Change, Changes
from crewtrack.screens.language import count_of, later, say
from crewtrack.screens.standing_words import word_told


def changed(changes: Changes) -> tuple[str, ...]:
    """What an act did, a sentence a line: where people stand now and stood before; where nobody
    stands otherwise, that."""
    if changes.digest is None:
        return (say("Nothing changed: the record holds all of it as it stands."),)
    lines = tuple(map(standing_changed, changes.standings))
    return lines or (say("Recorded. Nobody's standing today changes by it."),)


def counted(changes: Changes) -> str:
    """How many facts were added, corrected and struck out."""
    parts = [
        count_of(sum(of.values()), one, many)
        for of, one, many in _counts(changes)
        if sum(of.values())
    ]
    return ", ".join(parts)


def _counts(changes: Changes) -> tuple[tuple[Mapping[str, int], str, str], ...]:
    return later(
        (
            (changes.added, "{count} fact added", "{count} facts added"),
            (changes.revised, "{count} fact corrected", "{count} facts corrected"),
            (changes.struck, "{count} fact struck out", "{count} facts struck out"),
        )
    )


def standing_changed(change: Change) -> str:
    """One person's standing in one qualification, after and before."""
    before, after = change.before, change.after
    told = {"name": change.name, "title": change.title}
    if before.word == after.word and before.through != after.through:
        return say(
            "{name}: {title}, {now} (was {was})", **told, now=_through(after), was=_bare(before)
        )
    return say("{name}: {title}, {now} (was {was})", **told, now=_whole(after), was=_whole(before))


def _whole(standing: Standing) -> str:
    """The word, and the day that goes with it."""
    word = word_told(standing.word)
    if standing.word in ("current", "due"):
        return f"{word} {_through(standing)}"
    if standing.word == "lapsed" and standing.since:
        return say("{word} since {day}", word=word, day=standing.since)
    return word


def _through(standing: Standing) -> str:
    if standing.through is None:
        return say("without limit")
    return say("through {day}", day=standing.through)


def _bare(standing: Standing) -> str:
    return say("without limit") if standing.through is None else str(standing.through)
