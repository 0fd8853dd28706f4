"""What is said of a standard's file before and after it becomes an edition."""

from crewtrack.engine.standard import Standard
from crewtrack.office.keeping import Adopted
from crewtrack.screens.columns import safe
from crewtrack.screens.language import count_of, say
from crewtrack.screens.standard_compare import change_lines, changes
from crewtrack.screens.standard_page_lines import Line


def faults_told(file: str, count: int) -> str:
    """How many faults a file has."""
    return say(
        "{file}: {faults}. Mend the file, save it, and read it again.",
        file=file,
        faults=count_of(count, "{count} fault", "{count} faults"),
    )


def sound_told(file: str, standard: Standard) -> str:
    """What a file without a fault holds."""
    return say(
        "{file} has no faults: edition {edition}, in effect from {day}, {tasks}, {qualifications},"
        " {crews}.",
        file=file,
        edition=safe(standard.edition),
        day=standard.effective,
        tasks=count_of(len(standard.tasks), "{count} task", "{count} tasks"),
        qualifications=count_of(
            len(standard.qualifications), "{count} qualification", "{count} qualifications"
        ),
        crews=count_of(len(standard.crews), "{count} crew", "{count} crews"),
    )


def would_change(now: Standard, standard: Standard) -> tuple[Line, ...]:
    """What an edition would change against the one in effect."""
    head = say("Against edition {edition}, in effect today:", edition=safe(now.edition))
    return (Line("beside", head), *change_lines(changes(now, standard)))


def adopted_told(done: Adopted) -> str:
    """The edition that was added."""
    edition = safe(done.standard.edition)
    if done.digest is None:
        return say("Nothing changed: the record holds edition {edition} already.", edition=edition)
    return say(
        "Edition {edition} adopted, in effect from {day}.",
        edition=edition,
        day=done.standard.effective,
    )
