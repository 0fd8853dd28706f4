"""What somebody who enters a sortie should know, though it is no fault: who did something that
he or she was not current for."""

from collections.abc import Iterator
from datetime import date

from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standard import Standard
from crewtrack.screens.language import say
from crewtrack.screens.sortie_draft import SortieDraft, TaskLine


def notes(draft: SortieDraft, day: date, reckoning: Reckoning) -> tuple[str, ...]:
    """One sentence to each, in the order of the tasks, none of them twice; then who sits in a
    seat without a task. Standings are those of the day, by what is in the record now."""
    standard = reckoning.editions.on(day.toordinal())
    told = [
        *_ahead(draft, standard, day, reckoning),
        *_seated_without(draft, standard, reckoning),
    ]
    return tuple(dict.fromkeys(told))


def _ahead(
    draft: SortieDraft, standard: Standard, day: date, reckoning: Reckoning
) -> Iterator[str]:
    for line in draft.tasks:
        task = standard.tasks.get(line.task)
        if task is None or line.person not in reckoning.evidence.books:
            continue
        if (
            task.needs
            and not line.supervisor
            and not _fresh(line.person, task.needs, day, reckoning)
        ):
            yield say(
                "{name} is not current as {title} on {day}, and nobody supervises {task}.",
                name=_name(line.person, reckoning),
                title=_title(task.needs, standard),
                day=day,
                task=task.title,
            )
        yield from _beside(line, standard, day, reckoning)


def _beside(line: TaskLine, standard: Standard, day: date, reckoning: Reckoning) -> Iterator[str]:
    asked = standard.tasks[line.task].evaluator
    if not asked or line.supervisor not in reckoning.evidence.books:
        return
    if not _fresh(line.supervisor, asked, day, reckoning):
        yield say(
            "{name} supervises {task} and is not current as {title} on {day}.",
            name=_name(line.supervisor, reckoning),
            task=standard.tasks[line.task].title,
            title=_title(asked, standard),
            day=day,
        )


def _seated_without(draft: SortieDraft, standard: Standard, reckoning: Reckoning) -> Iterator[str]:
    doing = {line.person for line in draft.tasks if line.task in standard.tasks}
    for seat in draft.crew:
        if seat.person in reckoning.evidence.books and seat.person not in doing:
            yield say(
                "{name} sits as {seat} without a task: the record will not show it.",
                name=_name(seat.person, reckoning),
                seat=seat.seat,
            )


def _fresh(person: str, qualification: str, day: date, reckoning: Reckoning) -> bool:
    return reckoning.standing(person, qualification, day).word in ("current", "due")


def _name(person: str, reckoning: Reckoning) -> str:
    return reckoning.evidence.books[person].person.name


def _title(qualification: str, standard: Standard) -> str:
    told = standard.qualifications.get(qualification)
    return told.title if told else qualification
