"""The chain's head, and digests on paper: whether one is part of a record."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from crewtrack.errors import Fault, Refused
from crewtrack.files.journal_file import lines
from crewtrack.office.office import Office
from crewtrack.phrases import count_of, phrase
from crewtrack.records.exported_lines import ActLine, LineWrong, read_line
from crewtrack.records.journal import PastAct

SHORTEST: Final = 8
"""Hex digits: fewer may be those of many acts."""
_DIGITS: Final = re.compile(r"[0-9a-f]{8,64}")
_ACT: Final = b'{"act":'


@dataclass(frozen=True, slots=True)
class OnPaper:
    """The act that a digest (64 hex digits) stands for: its place in the chain, its instant as
    UTC text and its author."""

    seq: int
    instant: str
    author: str
    digest: str


def head(office: Office) -> OnPaper | None:
    """The last act of the record; None before the first."""
    with office.record.reading() as reading:
        return next(map(_on_paper, reading.acts_back(None, 1)), None)


def digits_of(given: str, place: str = "--head") -> str:
    """A digest as somebody reads it off paper, or the first digits of one: blanks and capital
    letters make no difference. Refused where it is neither."""
    digits = "".join(given.split()).lower()
    if _DIGITS.fullmatch(digits) is None:
        problem = phrase("{digest} is no digest", digest=repr(given[:100]))
        cure = phrase("write its first 8 digits or more as they are printed, 0-9 and a-f")
        raise Refused(Fault(place, "", problem, cure))
    return digits


def act_on_paper(office: Office, digits: str) -> OnPaper | None:
    """The act of a record whose digest begins with some digits; Refused where there are more."""
    with office.record.reading() as reading:
        return _only_one(reading.acts(), digits)


def act_in_journal(path: Path, digits: str) -> OnPaper | None:
    """The same in a journal that was exported."""
    return _only_one(_acts_in(path), digits)


def _acts_in(path: Path) -> Iterator[PastAct]:
    for line in lines(path):
        if line is not None and line.startswith(_ACT):
            try:
                read = read_line(line)
            except LineWrong:
                continue  # told by whoever verifies the journal
            if isinstance(read, ActLine):
                yield read.past


def _only_one(acts: Iterable[PastAct], digits: str) -> OnPaper | None:
    found = [act for act in acts if act.digest.startswith(digits)]
    if len(found) > 1:
        problem = count_of(len(found), "{count} act begins so", "{count} acts begin so")
        raise Refused(Fault("--head", "", problem, phrase("write more of its digits")))
    return _on_paper(found[0]) if found else None


def _on_paper(act: PastAct) -> OnPaper:
    return OnPaper(act.seq, act.instant, act.author, act.digest)
