"""What is known of a record as a file: where it lies, how large it is, and how much it holds."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from crewtrack.facts import KINDS
from crewtrack.office.looking_back import JournalAct, Sought, acts_back
from crewtrack.office.office import Office
from crewtrack.records.opening import beside


@dataclass(frozen=True, slots=True)
class RecordTold:
    """``size`` in bytes, its log beside it included; ``facts`` how many there are by kind;
    ``acts`` how many the journal holds, ``last`` the newest of them; ``digest`` 64 hex digits."""

    path: Path
    size: int
    facts: Mapping[str, int]
    editions: int
    acts: int
    last: JournalAct | None
    digest: str


def record_told(office: Office) -> RecordTold:
    """The record as it stands."""
    path = office.record.path
    with office.view() as view:
        facts = {kind.name: view.reading.count(kind) for kind in KINDS}
        editions, head = len(view.editions.standards), view.head
    last = next(iter(acts_back(office, Sought(), head.seq + 1, 1)), None)
    return RecordTold(path, _size(path), facts, editions, head.seq, last, head.digest)


def _size(path: Path) -> int:
    files = (path, beside(path, "-wal"))
    return sum(one.stat().st_size for one in files if one.exists())
