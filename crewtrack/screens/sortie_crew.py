"""The crew by seat, and the tasks that follow from who sits where."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from crewtrack.engine.evidence import Books, Evidence
from crewtrack.engine.standard import Standard
from crewtrack.screens.sortie_draft import SortieDraft, TaskLine


@dataclass(frozen=True, slots=True)
class DutySeat:
    """A place in a crew, and the duty whose tasks are done from it."""

    seat: str
    duty: str


def duty_seats(standard: Standard) -> tuple[DutySeat, ...]:
    """The seats of all crews of a standard, each once, in their order; where it has none, one
    for each duty that its tasks name."""
    found: dict[str, str] = {}
    for crew in standard.crews.values():
        for seat in crew.seats:
            duty = standard.qualifications[seat.holds].duty
            found.setdefault(seat.seat, duty or seat.seat)
    if not found:
        found = {task.duty: task.duty for task in standard.tasks.values() if task.duty}
    return tuple(DutySeat(seat, duty) for seat, duty in found.items())


def tasks_of(standard: Standard, duty: str) -> tuple[str, ...]:
    """The tasks of a duty, in the standard's order."""
    return tuple(key for key, task in standard.tasks.items() if task.duty == duty)


class Usual:
    """What somebody usually does in a seat, from what has been flown."""

    def __init__(self, evidence: Evidence, standard: Standard) -> None:
        self._evidence = evidence
        self.standard = standard
        self.seats = duty_seats(standard)

    def duty(self, seat: str) -> str:
        """The duty of a seat; its own name for one that the standard lacks."""
        return next((each.duty for each in self.seats if each.seat == seat), seat)

    def tasks(self, person: str, duty: str) -> tuple[str, ...]:
        """The tasks of a duty that a person did on his or her last sortie in it, else those of
        the last sortie on which anybody did, else all of them."""
        own = self._evidence.books.get(person)
        return (
            self._last((own,) if own else (), duty)
            or self._last(self._evidence.books.values(), duty)
            or tasks_of(self.standard, duty)
        )

    def _last(self, books: Iterable[Books], duty: str) -> tuple[str, ...]:
        last, found = -1, set[str]()
        for one in books:
            for task in tasks_of(self.standard, duty):
                done = one.performances.get(task)
                if done is None or not done.sortie or done.sortie[-1] < last:
                    continue
                if done.sortie[-1] > last:
                    last, found = done.sortie[-1], set()
                found.add(task)
        return tuple(task for task in tasks_of(self.standard, duty) if task in found)


def seated(draft: SortieDraft, seat: str, person: str, usual: Usual) -> SortieDraft:
    """The draft with somebody in a seat, and with that person's tasks: those of whoever sat
    there before are handed over, else the usual ones are proposed."""
    before = draft.in_seat(seat)
    after = draft.with_person(seat, person)
    duty = usual.duty(seat)
    own = set(tasks_of(usual.standard, duty))
    if before and before != person:
        moved = tuple(
            line.with_text("person", person) if _is(line, before, own) else line
            for line in after.tasks
        )
        after = after.with_tasks(_once(line for line in moved if person or not _is(line, "", own)))
    if person and not any(_is(line, person, own) for line in after.tasks):
        after = _with_proposed(after, person, usual.tasks(person, duty))
    return after


def with_usual(draft: SortieDraft, usual: Usual) -> SortieDraft:
    """The draft with the usual tasks of everybody seated added, where they are not there yet."""
    for line in draft.crew:
        if line.person:
            draft = _with_proposed(
                draft, line.person, usual.tasks(line.person, usual.duty(line.seat))
            )
    return draft


def _is(line: TaskLine, person: str, tasks: set[str]) -> bool:
    return line.person == person and line.task in tasks


def _with_proposed(draft: SortieDraft, person: str, tasks: Sequence[str]) -> SortieDraft:
    kept = tuple(line for line in draft.tasks if not line.blank)
    proposed = (TaskLine(person, task, "1") for task in tasks)
    return draft.with_tasks(_once((*kept, *proposed)))


def _once(lines: Iterable[TaskLine]) -> tuple[TaskLine, ...]:
    """The lines without a second one for the same person and task."""
    found: dict[tuple[str, str], TaskLine] = {}
    for line in lines:
        found.setdefault((line.person, line.task), line)
    return tuple(found.values())


def crew_of(tasks: Iterable[TaskLine], usual: Usual) -> Iterator[tuple[str, str]]:
    """Who sat where, as far as the tasks tell: the first person with a task of a seat's duty."""
    lines = list(tasks)
    for each in usual.seats:
        own = set(tasks_of(usual.standard, each.duty))
        person = next((line.person for line in lines if line.task in own), "")
        yield each.seat, person
