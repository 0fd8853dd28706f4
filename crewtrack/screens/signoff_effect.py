"""What a sign-off would change, worked out before it is saved."""

from dataclasses import replace
from datetime import date

from crewtrack.engine.evidence import Books, Evidence, SignOff
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standings import Standing
from crewtrack.office.changes import Change, changed_standings
from crewtrack.screens.language import say
from crewtrack.screens.standing_words import word_told

_HELD = ("current", "due")


def effects(reckoning: Reckoning, person: str, signoff: SignOff, on: date) -> tuple[Change, ...]:
    """What a sign-off of a person would change on a day, or on its own where that is later."""
    books = reckoning.evidence.books[person]
    with_it = replace(books, signoffs=(*books.signoffs, signoff))
    return _changes(reckoning, with_it, max(on, date.fromordinal(signoff.day)))


def withdrawal_effects(
    reckoning: Reckoning, person: str, signoff: str, day: date
) -> tuple[Change, ...]:
    """What withdrawing one of a person's sign-offs, by its key, would change on that day."""
    books = reckoning.evidence.books[person]
    signed = tuple(
        replace(one, withdrawn=day.toordinal()) if one.key == signoff else one
        for one in books.signoffs
    )
    return _changes(reckoning, replace(books, signoffs=signed), day)


def effect_told(change: Change) -> str:
    """What becomes of one qualification: ``Deck pilot, through 2027-01-14 (was 2026-12-03)``."""
    before, after, title = change.before, change.after, change.title
    if after.word in _HELD and before.word in _HELD:
        was = before.through or say("no limit")
        return say("{title}, {through} (was {before})", title=title, through=_to(after), before=was)
    if after.word in _HELD:
        was = word_told(before.word)
        return say(
            "brings {title}, {through} (was {before})", title=title, through=_to(after), before=was
        )
    if before.word in _HELD and after.word == "lapsed":
        return say("ends {title} from {day}", title=title, day=after.since)
    return say(
        "{title}: {after} (was {before})",
        title=title,
        after=_word_and_day(after),
        before=_word_and_day(before),
    )


def told(found: tuple[Change, ...]) -> str:
    """All of it in one line; that nothing changes is told too."""
    if not found:
        return say("It changes no standing.")
    return say("What it changes: {changes}.", changes="; ".join(map(effect_told, found)))


def ends_something(found: tuple[Change, ...]) -> bool:
    """Whether anything that holds would end."""
    return any(one.before.word in _HELD and one.after.word not in _HELD for one in found)


def _changes(reckoning: Reckoning, will_be: Books, day: date) -> tuple[Change, ...]:
    person = will_be.person.key
    evidence = Evidence(reckoning.evidence.sorties, {person: will_be})
    after = Reckoning(evidence, reckoning.editions)
    return changed_standings(reckoning, after, (person,), day)


def _to(found: Standing) -> str:
    return say("through {day}", day=found.through) if found.through else say("no limit")


def _word_and_day(found: Standing) -> str:
    word = word_told(found.word)
    return say("{word} since {day}", word=word, day=found.since) if found.since else word
