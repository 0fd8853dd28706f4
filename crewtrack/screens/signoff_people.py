"""Who may sign a task off on a day: everybody on the books, those first whose own standing is
what the task asks of its evaluator."""

from dataclasses import dataclass
from datetime import date

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standings import Standing, Word
from crewtrack.office.signing import evaluator_standing
from crewtrack.screens.language import say
from crewtrack.screens.standing_words import SHAPES, word_told

_ORDER: tuple[Word, ...] = ("current", "due", "lapsed", "stood-down", "training", "none")


@dataclass(frozen=True, slots=True)
class Evaluator:
    """One person who could sign. ``asked`` is the title of the qualification that the task asks
    of its evaluator, empty where it asks for none; ``standing`` the person's in it that day."""

    key: str
    name: str
    asked: str
    standing: Standing | None

    @property
    def current(self) -> bool:
        """Whether the record will show the signature as one of somebody entitled to it."""
        return self.standing is None or self.standing.word in ("current", "due")


def evaluators(reckoning: Reckoning, task: str, on: date, person: str) -> tuple[Evaluator, ...]:
    """Everybody on the books that day but the person signed for, by where they stand, then by
    name; by the edition in effect on the day."""
    found = [evaluator(reckoning, task, key, on) for key in reckoning.people(on) if key != person]
    return tuple(sorted(found, key=_rank))


def evaluator(reckoning: Reckoning, task: str, key: str, on: date) -> Evaluator:
    """One person as the evaluator of a task on a day."""
    name = reckoning.evidence.books[key].person.name
    standing = evaluator_standing(reckoning, task, key, on)
    if standing is None:
        return Evaluator(key, name, "", None)
    asked = reckoning.editions.on(on.toordinal()).qualifications[standing.qualification]
    return Evaluator(key, name, asked.title, standing)


def choice_line(one: Evaluator) -> str:
    """The evaluator in a list of choices: the name, and the standing in words."""
    if one.standing is None:
        return one.name
    return f"{SHAPES[one.standing.word]} {one.name}, {_when(one.standing)}"


def standing_told(one: Evaluator, on: date) -> str:
    """The evaluator's own standing on the day, as one sentence."""
    found = one.standing
    if found is None:
        return say("The standard asks nothing of whoever signs this task off.")
    return say(
        "{name}, {title} on {day}: {standing}.",
        name=one.name,
        title=one.asked,
        day=on,
        standing=_when(found),
    )


def warning(one: Evaluator) -> str:
    """What is to be minded before this evaluator signs; empty where nothing is."""
    if one.current or one.standing is None:
        return ""
    found, names = one.standing, {"name": one.name, "title": one.asked}
    match found.word:
        case "lapsed":
            return say(
                "Signing is possible; the record will show that {name} had lapsed as {title} "
                "on {day}.",
                day=found.since,
                **names,
            )
        case "training":
            return say(
                "Signing is possible; the record will show that {name} was still in training "
                "as {title}.",
                **names,
            )
        case "stood-down":
            return say(
                "Signing is possible; the record will show that {name} was stood down as {title}.",
                **names,
            )
        case _:
            return say(
                "Signing is possible; the record will show that {name} was not assigned as "
                "{title}.",
                **names,
            )


def _rank(one: Evaluator) -> tuple[int, str]:
    place = 0 if one.current or one.standing is None else _ORDER.index(one.standing.word)
    return place, one.name.casefold()


def _when(found: Standing) -> str:
    word = word_told(found.word)
    if found.word in ("current", "due"):
        if found.through is None:
            return say("{word}, no limit", word=word)
        return say("{word} through {day}", word=word, day=found.through)
    if found.word == "lapsed":
        return say("{word} since {day}", word=word, day=found.since)
    return word if found.word != "none" else say("not assigned")
