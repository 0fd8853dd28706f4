"""What saving a sortie changed, in sentences."""

from crewtrack.engine.standings import Standing
from crewtrack.facts import PERFORMANCES, SORTIES
from crewtrack.office.changes import Change, Changes
from crewtrack.screens.language import count_of, say


def saved_told(key: str, changes: Changes) -> tuple[str, ...]:
    """First what was written, then each standing that is another one now; that none is, is said
    too."""
    if changes.digest is None:
        return (say("Nothing changed: the record holds it already."),)
    return (_written(key, changes), *_standings(changes))


def _written(key: str, changes: Changes) -> str:
    if changes.struck.get(SORTIES.name):
        return say("Sortie {key} is struck out.", key=key)
    if not changes.added.get(SORTIES.name):
        return say("Sortie {key} is corrected.", key=key)
    count = changes.added.get(PERFORMANCES.name, 0)
    tasks = count_of(count, "{count} task", "{count} tasks")
    return say("Sortie {key} is in the record, with {tasks}.", key=key, tasks=tasks)


def _standings(changes: Changes) -> tuple[str, ...]:
    told = tuple(_change(change) for change in changes.standings)
    return told or (say("Nobody's standing today changes by it."),)


def _change(change: Change) -> str:
    return say(
        "{title}, {name}: {now} (was {before}).",
        title=change.title,
        name=change.name,
        now=standing_told(change.after),
        before=_brief(change.before, change.after),
    )


def _brief(before: Standing, after: Standing) -> str:
    """Of the standing before, only what differs: the date alone where the word stayed."""
    same = before.word == after.word and before.word in ("current", "due")
    if same and before.through != after.through:
        return str(before.through) if before.through else say("no limit")
    return standing_told(before)


def standing_told(standing: Standing) -> str:
    """``through 2027-01-14`` while current, else the word and its date."""
    match standing.word:
        case "current" | "due":
            if standing.through is None:
                return say("current without limit")
            current = standing.word == "current"
            return say("through {day}" if current else "due, through {day}", day=standing.through)
        case "lapsed":
            return (
                say("lapsed since {day}", day=standing.since) if standing.since else say("lapsed")
            )
        case "training":
            return say("in training")
        case "stood-down":
            return say("stood down")
        case _:
            return say("not assigned")
