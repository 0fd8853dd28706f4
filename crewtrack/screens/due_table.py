"""What ends soon, as a table, and the one sortie that would extend most, as sentences."""

from datetime import date

from crewtrack.engine.due import Due, told_elsewhere
from crewtrack.engine.one_sortie import Extended, Proposal
from crewtrack.engine.standard import Editions
from crewtrack.engine.wording import at_least, only_on
from crewtrack.screens.columns import safe
from crewtrack.screens.language import count_of, say, told
from crewtrack.screens.rule_words import whole
from crewtrack.screens.tables import Table, TableColumn


def due_table(dues: tuple[Due, ...], on: date) -> Table:
    """One row for each requirement, soonest first."""

    def sentence(due: Due) -> str:
        return due_told(due, on)

    columns = (
        TableColumn(say("Last day"), lambda due: due.through.isoformat(), spoken=sentence),
        TableColumn(
            say("In"),
            lambda due: days_told(due, on),
            order=lambda due: due.through,
            spoken=sentence,
            right=True,
        ),
        TableColumn(say("Name"), lambda due: safe(due.name), spoken=sentence),
        TableColumn(say("Qualification"), lambda due: safe(due.title), spoken=sentence),
        TableColumn(say("Requirement"), lambda due: due.requirement, spoken=sentence),
        TableColumn(say("What extends it"), lambda due: keeps_told(due), spoken=sentence),
    )
    return Table(columns, dues, lambda due: (due.person, due.qualification, due.requirement))


def shown(dues: tuple[Due, ...], everything: bool) -> tuple[Due, ...]:
    """Those worth a row of their own: what only follows from another row is left out, unless
    everything is asked for."""
    if everything:
        return dues
    elsewhere = told_elsewhere(dues)
    return tuple(due for due in dues if due not in elsewhere)


def counted(dues: tuple[Due, ...], within: int) -> str:
    """How much ends, of how many people."""
    if not dues:
        return count_of(within, "Nothing ends within {count} day.",
                        "Nothing ends within {count} days.")  # fmt: skip
    return say(
        "{requirements} of {people} within {days}.",
        requirements=count_of(len(dues), "{count} requirement ends", "{count} requirements end"),
        people=count_of(len({d.person for d in dues}), "{count} person", "{count} people"),
        days=count_of(within, "{count} day", "{count} days"),
    )


def days_told(due: Due, on: date) -> str:
    """How far off the last day is."""
    days = (due.through - on).days
    if days == 0:
        return say("today")
    return count_of(days, "{count} day", "{count} days")


def keeps_told(due: Due) -> str:
    """What would extend it."""
    if due.need is None:
        return say("nothing: the next edition does not ask for this qualification")
    return safe("; ".join(map(told, due.keeps))) or say("nothing that can be done before")


def due_told(due: Due, on: date) -> str:
    """A row as one sentence."""
    return say(
        "{name}, {title}: {requirement} ends on {day} ({days}). {keeps}.",
        name=safe(due.name),
        title=safe(due.title),
        requirement=due.requirement,
        day=due.through,
        days=days_told(due, on),
        keeps=keeps_told(due),
    )


def rule_told(due: Due, editions: Editions) -> str:
    """The requirement's rule in plain words."""
    if due.need is None:
        return safe(told(due.rule))
    return safe(whole(due.need, editions.standards[due.edition]))


def sortie_told(proposal: Proposal) -> str:
    """The sortie that is proposed: "2 × Hand recovery (pilot), drifting or under way, live"."""
    tasks = (
        say("{count} × {task}", count=times, task=safe(task)) for task, times in proposal.tasks
    )
    parts = [
        *tasks,
        told(at_least(proposal.floor)),
        told(only_on(proposal.only)),
        say("live"),
        say("supervised") if proposal.supervised else "",
        count_of(proposal.minutes, "at least {count} minute", "at least {count} minutes")
        if proposal.minutes
        else "",
    ]
    sortie = ", ".join(part for part in parts if part)
    return say("One sortie on {day}: {sortie}.", day=proposal.day, sortie=sortie)


def extends_told(proposal: Proposal) -> tuple[str, ...]:
    """What it extends: the qualifications, then the requirements."""
    return (
        *(
            say("Extends {title} {through} (now through {was}).", **_values(one))
            for one in proposal.whole
        ),
        *(
            say("Extends {requirement} of {title} {through} (now through {was}).", **_values(one))
            for one in proposal.extends
        ),
        *_held_back(proposal),
    )


def _values(one: Extended) -> dict[str, object]:
    through = say("without a limit") if one.through is None else say("to {day}", day=one.through)
    return {
        "title": safe(one.title),
        "requirement": one.requirement,
        "through": through,
        "was": one.was,
    }


def _held_back(proposal: Proposal) -> tuple[str, ...]:
    """The qualifications that something else ends, sortie or no."""
    moved = {one.qualification for one in proposal.whole}
    still = dict.fromkeys(
        safe(one.title) for one in proposal.extends if one.qualification not in moved
    )
    return tuple(
        say("{title} itself stays as it is: something else ends it, or it is not met.", title=title)
        for title in still
    )
