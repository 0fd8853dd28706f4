"""What ``verify`` finds, in a record or in a journal that was exported."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from crewtrack.cli.opening import advice_for, opened
from crewtrack.cli.terminal import Progress

if TYPE_CHECKING:
    from crewtrack.office.heads import OnPaper
    from crewtrack.office.keeping import Break
    from crewtrack.office.looking_back import SetBack


@dataclass(frozen=True, slots=True)
class Found:
    """The breaks, and the act whose digest was asked for, None where there is none; what to do
    about breaks, and the acts that are dated earlier than one before them."""

    breaks: "tuple[Break, ...]"
    act: "OnPaper | None" = None
    advice: str = ""
    set_back: "tuple[SetBack, ...]" = ()


def verify_record(record: str | None, digest: str | None) -> Found:
    """Verify a record."""
    from crewtrack.office import heads, keeping, looking_back

    digits = None if digest is None else heads.digits_of(digest)
    with Progress() as progress, opened(record, progress.clear) as office:
        act = None if digits is None else heads.act_on_paper(office, digits)
        breaks = keeping.verify(office, progress)
        if breaks:
            return Found(breaks, act, advice_for(office.record.path, progress))
        return Found((), act, "", looking_back.clock_set_back(office))


def verify_journal(journal: str, digest: str | None) -> Found:
    """Verify a journal that was exported."""
    from crewtrack.office import heads, keeping

    path = Path(journal)
    digits = None if digest is None else heads.digits_of(digest)
    with Progress() as progress:
        breaks = keeping.verify_journal(path, progress)
        return Found(breaks, None if digits is None else heads.act_in_journal(path, digits))
