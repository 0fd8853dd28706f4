"""Sign-offs in reasons: those that count, and a pass that only a second signature keeps from it."""

from collections.abc import Collection, Sequence
from datetime import date
from typing import Final

from crewtrack.engine.case import Case
from crewtrack.engine.evidence import SignOff
from crewtrack.engine.spans import as_date
from crewtrack.engine.standings import Counted
from crewtrack.engine.wording import signer_told
from crewtrack.phrases import later, phrase

CERTIFICATION: Final = later("its certification")
"""What brings or keeps a requirement where a pass waits."""

Run = tuple[int, int] | None
"""The first and last day of what holds on a day; None where nothing does."""


def signoff_counted(case: Case, signoff: SignOff, through: int) -> Counted:
    """A sign-off that counts through a day."""
    return Counted(
        "sign-off",
        signoff.key,
        date.fromordinal(signoff.day),
        task=case.standard.tasks[signoff.task].title,
        through=as_date(through),
        conditions=_certified(case, signoff),
    )


def _certified(case: Case, signoff: SignOff) -> str:
    """The second signature in words; empty where the edition asks for none."""
    if case.standard.tasks[signoff.task].certified_by is None or signoff.certified is None:
        return ""
    day = date.fromordinal(signoff.certified)
    if signoff.certified_by is None:
        return phrase("certified on {day}", day=day)
    return phrase("certified on {day} by {name}", day=day, name=case.name(signoff.certified_by))


def waits(
    case: Case, counting: Collection[SignOff], promised: Sequence[SignOff], runs: tuple[Run, Run]
) -> str:
    """That a pass waits for certification, where it would help: in words, else empty.

    ``promised`` are the results that would bear on a requirement if all of them were certified,
    ``counting`` those of them that do; ``runs`` what holds as it is, and what would.
    """
    waiting = [signoff for signoff in promised if signoff not in counting]
    now, then = runs
    if not waiting or then is None or (now is not None and then[1] <= now[1]):
        return ""
    latest = waiting[-1]
    duty = case.standard.tasks[latest.task].certified_by or ""
    return phrase(
        "passed on {day} by {name}, and waits for certification by {signer}",
        day=date.fromordinal(latest.day),
        name=case.name(latest.evaluator),
        signer=signer_told(duty),
    )
