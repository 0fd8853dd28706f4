"""The sign-off form: what it proposes, what is wrong in it, and what should be minded."""

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from crewtrack.bad_cell import BadCell
from crewtrack.engine.evidence import Books, Evidence, SignOff
from crewtrack.engine.reckoning import Reckoning
from crewtrack.engine.standing import on_the_books
from crewtrack.facts import LEVELS, RESULTS, SIGNOFFS
from crewtrack.moments import read_day
from crewtrack.screens import fact_form
from crewtrack.screens.fact_form import FactDraft, Known
from crewtrack.screens.language import say

FIELDS = (
    "person", "task", "date", "sortie", "level", "result", "evaluator", "remarks",
)  # fmt: skip
_PLACEHOLDER = "new"
"""Stands for the key, which is chosen on saving."""


def new_draft(person: str, task: str, sortie: str, day: date) -> FactDraft:
    """An empty form for a person and a task (either may be empty): a pass, done alone."""
    texts = {"person": person, "task": task, "sortie": sortie, "date": str(day)}
    return FactDraft(SIGNOFFS, {**texts, "level": "alone", "result": "passed"})


def faults(draft: FactDraft, known: Known, zone: ZoneInfo) -> Mapping[str, str]:
    """What is wrong, by field; the key is not asked for."""
    return fact_form.faults(draft.with_text("signoff", _PLACEHOLDER), known, zone)


def day_of(draft: FactDraft) -> date | None:
    """The day that the form says; None where it is not a day."""
    try:
        return read_day(draft.text("date").strip())
    except BadCell:
        return None


def sortie_choices(evidence: Evidence, zone: ZoneInfo, draft: FactDraft) -> Mapping[str, str]:
    """The person's sorties of the form's day, by key: those with the task first, then the others;
    each with its time and what the person did on it. Empty where the day or the person is not
    known."""
    day, books = day_of(draft), evidence.books.get(draft.text("person").strip())
    if day is None or books is None:
        return {}
    done = _done_on(evidence, books, day)
    task = draft.text("task").strip()
    ordered = sorted(done, key=lambda place: (task not in done[place], place))
    return {
        evidence.sorties.key[place]: _sortie_told(evidence, zone, place, task in done[place])
        for place in ordered
    }


def proposed_sortie(evidence: Evidence, draft: FactDraft) -> str:
    """The one sortie of that day on which the person did the task; empty where there is none,
    or more than one."""
    books, day = evidence.books.get(draft.text("person").strip()), day_of(draft)
    if books is None or day is None:
        return ""
    done = _done_on(evidence, books, day)
    task = draft.text("task").strip()
    found = [place for place, tasks in done.items() if task in tasks]
    return evidence.sorties.key[found[0]] if len(found) == 1 else ""


def sortie_day(evidence: Evidence, key: str) -> date | None:
    """The day of a sortie, by its key; None where there is none."""
    place = _place(evidence, key)
    return None if place is None else date.fromordinal(evidence.sorties.day[place])


def planned(draft: FactDraft, evidence: Evidence) -> SignOff | None:
    """The sign-off as the engine takes it; None where a field that it needs is not right."""
    day = day_of(draft)
    level, result = draft.text("level"), draft.text("result")
    if day is None or level not in LEVELS or result not in RESULTS:
        return None
    task, evaluator = draft.text("task").strip(), draft.text("evaluator").strip()
    sortie = _place(evidence, draft.text("sortie").strip())
    return SignOff(
        _PLACEHOLDER, task, day.toordinal(), LEVELS.index(level), result, evaluator, sortie
    )


def notices(draft: FactDraft, reckoning: Reckoning, today: date) -> tuple[str, ...]:
    """What should be minded though it can be saved."""
    return tuple(_notices(draft, reckoning, today))


def criteria(draft: FactDraft, reckoning: Reckoning) -> tuple[str, ...]:
    """What the edition in effect on the form's day asks to see; empty where it asks nothing."""
    day = day_of(draft)
    if day is None:
        return ()
    task = reckoning.editions.on(day.toordinal()).tasks.get(draft.text("task").strip())
    return task.criteria if task else ()


def _notices(draft: FactDraft, reckoning: Reckoning, today: date) -> Iterator[str]:
    day = day_of(draft)
    if day is None:
        return
    if day > today:
        yield say("{day} lies ahead: it counts from that day on.", day=day)
    books = reckoning.evidence.books.get(draft.text("person").strip())
    if books is not None:
        first, last = on_the_books(books)
        if not first <= day.toordinal() <= last:
            name = books.person.name
            yield say("{name} is not on the books on {day}.", name=name, day=day)
    standard, task = reckoning.editions.on(day.toordinal()), draft.text("task").strip()
    if task and task not in standard.tasks:
        yield say("Edition {edition} has no such task.", edition=standard.edition)
    yield from _other_day(draft, reckoning.evidence, day)


def _other_day(draft: FactDraft, evidence: Evidence, day: date) -> Iterator[str]:
    key = draft.text("sortie").strip()
    place = _place(evidence, key)
    if place is not None and evidence.sorties.day[place] != day.toordinal():
        flown = date.fromordinal(evidence.sorties.day[place])
        yield say(
            "Sortie {sortie} was flown on {flown}, not on {day}.", sortie=key, flown=flown, day=day
        )


def _place(evidence: Evidence, key: str) -> int | None:
    """Where a sortie stands in the evidence."""
    return next((place for place, one in enumerate(evidence.sorties.key) if one == key), None)


def _done_on(evidence: Evidence, books: Books, day: date) -> dict[int, set[str]]:
    """The places of a person's sorties on a day, and the tasks done on each."""
    found: dict[int, set[str]] = {}
    for task, performed in books.performances.items():
        for place in performed.sortie:
            if evidence.sorties.day[place] == day.toordinal():
                found.setdefault(place, set()).add(task)
    return found


def _sortie_told(evidence: Evidence, zone: ZoneInfo, place: int, with_task: bool) -> str:
    sorties = evidence.sorties
    clock = datetime.fromtimestamp(sorties.launched[place], UTC).astimezone(zone).strftime("%H:%M")
    if with_task:
        return say("{clock}, this task was done", clock=clock)
    return say("{clock}, without this task", clock=clock)
