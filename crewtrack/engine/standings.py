"""Answers, as values: where people stand, through when, and why.

Dates are calendar dates in the unit's zone; spans are closed, ``last=None`` is open.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from crewtrack.engine.evidence import Person, StandDown, Waiver
from crewtrack.engine.spans import Span
from crewtrack.engine.standard import Qualification

Word = Literal["none", "stood-down", "current", "due", "lapsed", "training"]
WORDS: tuple[Word, ...] = ("current", "due", "lapsed", "training", "stood-down", "none")


@dataclass(frozen=True, slots=True)
class Standing:
    """Where one person is with one qualification on one day.

    ``since``: first day of the span, or of the lapse; None for ``none``, ``stood-down`` and
    ``training``. ``through``: last day of the span; None where open, and None unless current or
    due. ``limiting``: ids of the top-level requirements not met on the day after ``through``
    (``edition`` where that day's edition drops the qualification); when lapsed or in training,
    those not met on the day. ``by_waiver``: keys of the waivers and extensions it rests on.
    """

    person: str
    qualification: str
    word: Word
    since: date | None = None
    through: date | None = None
    limiting: tuple[str, ...] = ()
    by_waiver: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Counted:
    """One piece of evidence that counts. ``kind``: performance, sign-off, certificate, waiver,
    extension or qualification; ``key`` its key in the record (the sortie's for a performance);
    ``amount`` how much of it counts, in the requirement's measure; ``conditions`` in words, of a
    sign-off its second signature, of a waiver or an extension who granted it and why."""

    kind: str
    key: str
    day: date
    amount: int = 1
    task: str = ""
    through: date | None = None
    conditions: str = ""


@dataclass(frozen=True, slots=True)
class Explained:
    """One requirement on one day: its rule in words, whether it is met, its spans, the evidence
    counted, what is missing in words, and what is nested in it."""

    id: str
    rule: str
    met: bool
    through: date | None
    spans: tuple[Span, ...]
    counted: tuple[Counted, ...]
    missing: tuple[str, ...]
    needs: tuple["Explained", ...] = ()

    def lacking(self) -> tuple[str, ...]:
        """What is missing, where the requirement is not met: its own words, else those of what is
        nested in it."""
        if self.met:
            return ()
        return self.missing or tuple(words for need in self.needs for words in need.lacking())


@dataclass(frozen=True, slots=True)
class Explanation:
    """A standing, opened down to the evidence. ``spans`` are the qualification's; ``notes`` say
    what else bears on it (a stand-down, no assignment that day, a waiver without effect)."""

    standing: Standing
    name: str
    title: str
    edition: str
    spans: tuple[Span, ...]
    requirements: tuple[Explained, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HistoryRow:
    """The days on which one person met one qualification, within assignment and books."""

    person: str
    qualification: str
    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class StoodDown:
    """A person (by key) and a stand-down of theirs."""

    person: str
    down: StandDown


@dataclass(frozen=True, slots=True)
class Roster:
    """People × qualifications on a day.

    ``rows``: one for each of ``people`` × ``qualifications``, in that order. ``lapses``: the
    explanation of every row that is lapsed, in the same order. ``head`` is the journal's last
    digest (64 hex digits) as of ``known_at``, or now where that is None. ``reliefs``: the waivers
    and extensions whose keys stand in any row's ``by_waiver``, ordered by key. ``standdowns``:
    those of ``people`` that cover the day, in the order of people, then by key.
    """

    on: date
    known_at: datetime | None
    unit: str
    edition: str
    head: str
    people: tuple[Person, ...]
    qualifications: tuple[Qualification, ...]
    rows: tuple[Standing, ...]
    lapses: tuple[Explanation, ...]
    reliefs: tuple[Waiver, ...] = ()
    standdowns: tuple[StoodDown, ...] = ()

    def cells(self) -> Mapping[tuple[str, str], Standing]:
        """The rows by person and qualification."""
        return {(row.person, row.qualification): row for row in self.rows}
